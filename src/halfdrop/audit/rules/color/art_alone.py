"""A picture shares a color with the room round it.

Why: A picture reads as the room's own when a cushion, a rug or a wall takes up something of it, be it a little;
    one that nothing answers looks left behind by somebody else.
Source: practice value color.art_taken_up: common practice; its figure, and what counts as kin (color.kin_hue,
    color.family_apart), are our choice.
Fails: of the colors a hung work has (near-neutrals and traces left out, by their shares) less than the value is
    taken up by anything else in the room that wears enough of a kin color (color.echo_from); bare wood does not
    count. Taste.
Passes exactly: at the value.
Silent: where most of the room's colors are not recorded; for works without colors, or in black, white and gray.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import brought_in, by_size, named, painted, swatches
from halfdrop.audit.rules.color.shared import (
    inventory_swatches,
    judged,
    pictures,
    subject,
    taken_up,
    the,
)
from halfdrop.base.tolerance import at_least
from halfdrop.color.kin import kin

GRADE = Grade.TASTE
PRACTICE = ("color.art_taken_up",)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work that nothing takes up."""
    found = judged(case)
    if found is None:
        return
    wanted = case.practice.number(PRACTICE[0])
    for picture in pictures(case, found):
        share = taken_up(case, found, picture)
        if at_least(share, wanted, 1e-9):
            continue
        main = picture.colors[0][0]
        share_said = "none" if share < 0.005 else f"{share:.0%}"
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (subject(case, picture.part),),
            f"The room takes up {share_said} of the colors of {the(picture.part.what)}; at least {wanted:.0%} is wanted, "
            f"{named(case, main)} first, or it looks left behind by somebody else.",
            measured=share,
            wanted=wanted,
            quantity="ratio",
            practice=PRACTICE[0],
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Take up one of its colors in cushions, a rug, curtains, a chair's cover, or on the wall it hangs on."""
    found = judged(case)
    if found is None:
        return
    picture = next(p for p in pictures(case, found) if p.part.path == finding.subjects[0])
    labs = {key: one.lab for key, one in inventory_swatches(case).items()}
    own = [key for key, *_ in picture.colors]
    near = [
        k
        for k, lab in sorted(labs.items())
        if k not in own and bool(kin(picture.labs, lab, case.practice).any())
    ]
    for key in swatches(case, [*own, *near]):
        yield from brought_in(case, found, key, ("medium",))
        walls = next((p for p in by_size(found, ("walls",))), None)
        work = case.room.art[picture.part.path.split("/")[3]]
        if walls is not None:
            patch = painted(case, walls, key, work.wall.name)
            if patch:
                title = f"Paint wall {work.wall.name}, behind it, {named(case, key)}."
                yield Proposal("paint", title, patch)
