"""A bed can be got into and made.

Why: Two people each get up on their own side; a side too tight to stand in is a bed climbed over, and never made.
Source: practice values bedroom.side_used_floor and bedroom.side_used (the side got into from), bedroom.side_least
    (the other side of a bed for two), bedroom.side_least_elder where an elder lives here, bedroom.twin_between.
Fails: the freer side of a bed has less than the floor value (fault) or less than the used side's (taste); the other
    side of a bed for two has less than the least (fault); two single beds stand apart by less than the value between
    twins. Measured square to the side, to the next thing or wall.
Passes exactly: at the value.
Silent: for nightstands beside it; for a single bed's other side, which may stand against a wall; for single beds pushed
    together; for the foot: whoever must pass it does so on a way (circulation.secondary-way).
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import (
    has_elder,
    making_room,
    shape,
    short,
    taking_out,
    the,
    turning,
)
from halfdrop.base.tolerance import at_least
from halfdrop.room import StandingPiece, Thing, Wall
from halfdrop.room.ahead import Ahead, Side, ahead

GRADE = Grade.FAULT
PRACTICE = (
    "bedroom.side_used",
    "bedroom.side_least",
    "bedroom.side_least_elder",
    "bedroom.twin_between",
)

#: Single beds nearer than this are pushed together [m].
TOGETHER = 0.05
#: How far to look beside a bed [m].
LOOK = 1.5


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each side of a bed that is too tight."""
    beds = [p for p in case.room.floor_pieces.values() if p.type == "bed"]
    stands = {p.path for p in case.room.floor_pieces.values() if p.type == "nightstand"}
    least = "bedroom.side_least_elder" if has_elder(case) else "bedroom.side_least"
    for bed in beds:
        sides: tuple[Side, Side] = ("left", "right")
        found = [ahead(case.room, bed, side, LOOK, ignore=stands) for side in sides]
        used, other = sorted(found, key=lambda a: (-round(a.gap, 4), short(a.blocker) if a.blocker else ""))
        for key, grade in (("bedroom.side_used_floor", Grade.FAULT), ("bedroom.side_used", Grade.TASTE)):
            if not at_least(used.gap, case.length(key)):
                yield _finding(case, bed, used, key, grade, "on the side it is got into from")
                break
        if bed.width >= case.length("bedroom.double_from") and not at_least(other.gap, case.length(least)):
            yield _finding(case, bed, other, least, GRADE, "on the second side of a bed for two")
        for side in found:
            twin = side.blocker
            if not isinstance(twin, StandingPiece) or twin.type != "bed" or bed.id > twin.id:
                continue
            between = case.length("bedroom.twin_between")
            if side.gap > TOGETHER and not at_least(side.gap, between) and bed.front @ twin.front > 0.9:
                yield _finding(case, bed, side, "bedroom.twin_between", GRADE, "between two beds")


def _finding(case: RoomCase, bed: StandingPiece, side: Ahead, key: str, grade: Grade, where: str) -> Finding:
    assert side.blocker is not None
    wanted, gap = case.length(key), max(side.gap, 0.0)
    between = key == "bedroom.twin_between"
    return case.finding(
        rule_id(__name__),
        grade,
        (bed, side.blocker) if isinstance(side.blocker, Thing) else (bed,),
        f"{case.say(gap)} between {the(bed)} and {the(side.blocker)}; {case.say(wanted, 'up')} is wanted {where}, "
        "to get up and to make it.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.sigma(bed, side.blocker, side.p, side.q) if gap > 1e-3 else None,
        practice=key,
        anchor=(side.p + side.q) / 2,
        marks=((side.p, side.q),),
        name=f"{bed.id}+{short(side.blocker)}" + ("+twins" if between else ""),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Slide the bed with its nightstands off what is beside it, or that off the bed; take that out."""
    bed_id, other_id = finding.id.rpartition("/")[2].split("+")[:2]
    bed = case.room.pieces[bed_id]
    walls: dict[str, Thing | Wall] = {short(w): w for w in case.room.walls}
    things: dict[str, Thing | Wall] = {**walls, **case.room.fittings, **case.room.pieces}
    other = things[other_id]
    yield from making_room(case, bed, shape(other), finding.wanted or 0.0)
    if isinstance(other, StandingPiece):
        yield from making_room(case, other, bed.footprint, finding.wanted or 0.0)
        yield from turning(case, other)
        yield from taking_out(case, other)
    yield from turning(case, bed)
