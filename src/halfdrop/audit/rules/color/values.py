"""A room has something light and something dark in it.

Why: Without a dark the room floats and photographs flat; without a light it stays dull by day and lamps do little
    for it.
Source: practice value color.value_share; a light, a middle and a dark in each room is common practice, the limits
    (color.light_from, color.dark_to in L*) are our choice.
Fails: less than the value of what is recorded is light, or is dark. Taste.
Passes exactly: at the value.
Silent: where most of the room's colors are not recorded.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import CUSHIONS, brought_in, swatches
from halfdrop.audit.rules.color.shared import inventory_swatches, judged
from halfdrop.base.tolerance import at_least

GRADE = Grade.TASTE
PRACTICE = ("color.value_share",)
_WHY = {
    "dark": "the room floats and nothing holds it down",
    "light": "it stays dull by day and lamps do little for it",
}


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding where there is no light, and one where there is no dark."""
    found = judged(case)
    if found is None:
        return
    wanted = case.practice.number(PRACTICE[0])
    limits = {"light": "color.light_from", "dark": "color.dark_to"}
    for kind, measured in (("light", found.values.light), ("dark", found.values.dark)):
        if at_least(measured, wanted, 1e-9):
            continue
        limit = case.practice.number(limits[kind])
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (),
            f"{measured:.1%} of the colors seen are {kind} (L* {limit:.0f} or {'more' if kind == 'light' else 'less'}); "
            f"at least {wanted:.0%} is wanted, or {_WHY[kind]}.",
            name=kind,
            measured=measured,
            wanted=wanted,
            quantity="ratio",
            practice=PRACTICE[0],
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Bring it in: dark cushions, a rug, a chair's cover, curtains; a light ceiling, light walls, light cushions."""
    found = judged(case)
    if found is None:
        return
    dark = finding.id.endswith("/dark")
    labs = {key: one.lab for key, one in inventory_swatches(case).items()}
    light_from, dark_to = (case.practice.number(f"color.{key}") for key in ("light_from", "dark_to"))
    fits = sorted(
        (lab[0] if dark else -lab[0], key)
        for key, lab in labs.items()
        if (lab[0] <= dark_to if dark else lab[0] >= light_from)
    )
    roles = ("medium", "small") if dark else ("ceiling", "walls", "medium", "small")
    for key in swatches(case, [key for _, key in fits]):
        yield from brought_in(case, found, key, roles, (CUSHIONS, CUSHIONS + 2))
