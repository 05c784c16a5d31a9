"""What is large and stays for years keeps quiet.

Why: One tires of a loud color or a pattern sooner, and a sofa is dear to change; the same color on cushions and a throw
    costs a little and goes as easily as it came. The working says what a change of mind may be expected to cost.
Source: practice values color.loud_from and color.loud_share: our choice, no source; that long-lived pieces stay neutral is
    common practice. The expected cost rests on color.tire_loud, color.resale_first and their kin: assumptions, all named.
Fails: more than the share of a large piece wears colors above the chroma, or it is patterned. Taste.
Passes exactly: at either value.
Silent: for what the client keeps; for the hues of wood and leather on what is not upholstered; where a piece's colors
    are not recorded and no pattern is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.colors import inventory_in
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import cushioned, in_color, named, swatches
from halfdrop.audit.rules.color.mind import of_100, said_of, weighed
from halfdrop.audit.rules.color.shared import inventory_swatches, subject, the, wooden
from halfdrop.base.tolerance import at_most
from halfdrop.base.working import Working
from halfdrop.color.change_of_mind import change_of_mind
from halfdrop.color.inventory import Inventory, Part
from halfdrop.color.lab import lch_of_lab

GRADE = Grade.TASTE
PRACTICE = ("color.loud_from", "color.loud_share")


def _loud(case: RoomCase, found: Inventory, part: Part) -> dict[str, float]:
    """Return the loud swatches of a part, with their shares of what is recorded of it."""
    most = case.practice.number(PRACTICE[0]) + 1e-6
    total = sum(part.colors.values())
    return {
        key: share / total
        for key, share in part.colors.items()
        if float(lch_of_lab(found.swatches[key].lab)[1]) > most
    }


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each large piece that is loud."""
    found = inventory_in(case)
    if found is None:
        return
    for part in found.parts:
        if part.role != "large" or part.kept or wooden(case, part, found):
            continue
        loud = _loud(case, found, part)
        share, wanted = sum(loud.values()), case.practice.number(PRACTICE[1])
        if at_most(share, wanted, 1e-9) and not part.patterned:
            continue
        is_loud = not at_most(share, wanted, 1e-9)
        money = said_of(case, part)
        name = the(part.what)
        large = "wholly" if share > 0.995 else f"{share:.0%}"
        what = (
            f"{name} is {large} in a loud color, {named(case, max(loud, key=lambda k: (loud[k], k)))}; at most {wanted:.0%} is"
            if is_loud
            else f"{name} is patterned; plain is"
        )
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (subject(case, part),),
            f"{what[0].upper()}{what[1:]} wanted on what stays for years. {money}",
            measured=share if is_loud else None,
            wanted=wanted if is_loud else None,
            quantity="ratio",
            sense="at most",
            practice=PRACTICE[1] if is_loud else None,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Cover it in one of the job's near-neutrals, the loud color on cushions instead; or in the near-neutral alone."""
    found = inventory_in(case)
    if found is None:
        return
    part = next(p for p in found.parts if p.path == finding.subjects[0])
    labs = {key: one.lab for key, one in inventory_swatches(case).items()}
    most = case.practice.number("color.neutral_to")
    quiet = sorted(
        (abs(lab[0] - 62.0), key)
        for key, lab in labs.items()
        if float(lch_of_lab(lab)[1]) <= most and lab[0] <= 90.0
    )
    loud = _loud(case, found, part)
    play = max(loud, key=lambda k: (loud[k], k), default=None)
    for key in swatches(case, [key for _, key in quiet]):
        for proposal in in_color(case, part, key):
            yield proposal
            added = cushioned(case, play) if play else None
            if added is not None:
                title = f"{proposal.title[:-1]}, and put {named(case, play or '')} on cushions."
                yield Proposal("quiet with cushions", title, [*proposal.patch, *added.patch],
                               unpriced=(*proposal.unpriced, *added.unpriced))  # fmt: skip


def workings(case: RoomCase, finding: Finding) -> Iterable[Working]:
    """Return what a change of mind may be expected to cost, with every assumption."""
    piece = case.room.pieces[finding.subjects[0].split("/")[3]]
    price = piece.model.price
    yield weighed(piece.name, change_of_mind(of_100(price), case.practice), price, case.practice)
