"""The rug under a bed reaches past both sides and the foot, and keeps clear of the nightstands.

Why: The first step in the morning should fall on the rug; a rug that ends level with the bed shows as a strip and does nothing.
    A nightstand that stands half on a rug rocks.
Source: practice values rugs.bed_side_floor, rugs.bed_foot_floor (the least), rugs.bed_side_target, rugs.bed_foot_target (as aimed
    for), rugs.nightstand_gap; common practice, no source.
Fails: as a fault, where the rug runs past a side or the foot by less than the least. As taste, in a room that is not small
    (rugs.small_room_area), by less than what is aimed for; and where it comes nearer to a nightstand than
    rugs.nightstand_gap without carrying the whole of it.
Passes exactly: at the value.
Silent: for a bed without a rug under it; for rugs that lie along one side only (under less than half of its width: bedside rugs),
    which have no foot to reach; for a side of the bed that has no room beside it for a strip of rug and the bare floor. Where there
    is room for less than the least, the rug is wanted as far as the bare floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import ways_to_fit, workings_to_fit
from halfdrop.audit.rules.rugs.free import bare_key
from halfdrop.audit.rules.rugs.lying import Frame, Under, rugs_under, run, squared
from halfdrop.audit.rules.rugs.spots import Want
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.groups import BedSet
from halfdrop.rugs import Box, RugAnswer, wanted_bed

GRADE = Grade.FAULT
PRACTICE = (
    "rugs.bed_side_floor",
    "rugs.bed_foot_floor",
    "rugs.bed_side_target",
    "rugs.bed_foot_target",
    "rugs.nightstand_gap",
)


#: A side of the bed with less room than this for a rug is against the wall [m]; common practice, no source.
LEAST_SPACE = 0.15


class _Reach(NamedTuple):
    """How far the rug runs past one side or the foot, and how far it could, the bare floor kept [m]."""

    run: float
    part: str
    start: Array
    way: Array
    space: float = float("inf")


def _crosses(bed: StandingPiece, shape: BaseGeometry) -> bool:
    """Return whether a rug lies under more than half of the bed's width: it is the bed's rug, not one beside it."""
    thin = bed.box(-bed.width / 2, bed.width / 2, -bed.depth / 2, bed.depth / 2)
    return float(Frame(bed.center, bed.angle).box_of(shape.intersection(thin)).across) > bed.width / 2


def _reaches(case: RoomCase, bed: StandingPiece, shape: BaseGeometry) -> list[_Reach]:
    """Return the runs past both sides, at the foot's corner and halfway up the part that has rug, and past the foot."""
    x, y = bed.width / 2, bed.depth / 2
    under = Frame(bed.center, bed.angle).box_of(shape.intersection(bed.footprint))
    halfway = (max(under.y0, -y) + y) / 2
    found, ends = [], [0.0]
    for hand in (1.0, -1.0):
        way = hand * bed.right
        room_here = min(run(case.room.outline, bed.at(hand * x, h), way) for h in (halfway, y - 1e-3))
        space = room_here - case.length(bare_key(case))
        if space < LEAST_SPACE:
            continue  # a bed against a wall
        ends.append(hand)
        runs = [(run(shape, bed.at(hand * x, h), way), bed.at(hand * x, h)) for h in (halfway, y)]
        far, start = min(runs, key=lambda r: round(r[0], 6))
        found.append(_Reach(far, "side", start, way, space))
    feet = [(run(shape, bed.at(e * x, y), bed.front), bed.at(e * x, y)) for e in ends]
    far, start = min(feet, key=lambda r: round(r[0], 6))
    found.append(_Reach(far, "foot", start, bed.front))
    return found


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each bed whose rug is short, and one for nightstands half on it."""
    small = case.room.area <= case.practice.area("rugs.small_room_area") + 1e-9
    for under in rugs_under(case):
        if not isinstance(under.owner, BedSet):
            continue
        bed, shape = under.owner.bed, under.shape
        if _crosses(bed, shape):
            yield from _short(case, under, bed, _reaches(case, bed, shape), small)
        yield from _half_on(case, under, under.owner)


def _short(
    case: RoomCase, under: Under, bed: StandingPiece, reaches: list[_Reach], small: bool
) -> Iterator[Finding]:
    """Yield one finding for the worst of the sides and the foot, the least before what is aimed for."""
    for grade, what in ((GRADE, "floor"), (Grade.TASTE, "target")):
        wants = {id(r): min(case.length(f"rugs.bed_{r.part}_{what}"), r.space) for r in reaches}
        missed = [r for r in reaches if not at_least(r.run, wants[id(r)])]
        if not missed or (small and what == "target"):
            continue
        worst = max(missed, key=lambda r: (round(wants[id(r)] - r.run, 6), r.part))
        key = f"rugs.bed_{worst.part}_{what}"
        parts = {r.part for r in missed}
        sides = sum(r.part == "side" for r in missed)
        where = "the sides" if sides > 1 else "one side" if sides else ""
        where = " and ".join(filter(None, (where, "the foot" if "foot" in parts else "")))
        far = (
            f"runs {case.say(worst.run)} past"
            if worst.run > 1e-3
            else f"stops {case.say(-worst.run)} short of"
        )
        only = "" if len(missed) == 1 or worst.run <= 1e-3 else "no more than "
        far = far.replace("runs ", f"runs {only}")
        why = "so that feet come down on it" if worst.part == "side" else "so that it shows beyond the bed"
        edge = worst.start + worst.run * worst.way
        yield case.finding(
            rule_id(__name__),
            grade,
            (under.main, bed),
            f"The {under.main.name} {far} {where} of the {bed.name}; {case.say(wants[id(worst)], 'up')} is wanted, {why}.",
            measured=worst.run,
            wanted=wants[id(worst)],
            sigma=case.room.sigma(under.main, bed, edge, worst.start + 1e-3 * worst.way),
            practice=key,
            anchor=edge,
            marks=((worst.start, edge),),
            # Two ids: a rug that reaches the least but not what is aimed for has cleared the fault.
            name=under.main.id if grade is GRADE else f"{under.main.id}+aim",
        )
        return


def _half_on(case: RoomCase, under: Under, beds: BedSet) -> Iterator[Finding]:
    """Yield a finding for the nightstands a rug runs up to or half under."""
    wanted = case.length("rugs.nightstand_gap")
    near = []
    for stand in sorted(beds.nightstands, key=lambda s: s.id):
        gap = float(under.shape.distance(stand.footprint))
        if not at_least(gap, wanted) and not under.shape.covers(stand.footprint):
            near.append((gap, stand))
    if not near:
        return
    gap, stand = min(near, key=lambda n: (round(n[0], 6), n[1].id))
    names = " and ".join(f"the {s.name}" for _, s in near)
    half = "lies half under" if gap < 1e-3 else f"ends {case.say(gap)} from"
    yield case.finding(
        rule_id(__name__),
        Grade.TASTE,
        (under.main, *(s for _, s in near)),
        f"The {under.main.name} {half} {names}; {case.say(wanted, 'up')} of floor between is wanted, or the whole nightstand "
        "on it, so that it stands level.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.distance(under.main, stand)[3],
        practice="rugs.nightstand_gap",
        anchor=stand.center,
        name=f"{under.main.id}+nightstands",
    )


def want_of(case: RoomCase, beds: BedSet) -> Want:
    """Return the rug a bed wants; its frame begins at the middle of the head and runs to the foot."""
    bed = beds.bed
    frame = Frame(bed.at(0.0, -bed.depth / 2), squared(bed.angle))
    stands = [frame.box(s.corners) for s in beds.nightstands]
    deep = max((s.y1 for s in stands), default=0.0)

    def answer(room: Box | None) -> RugAnswer:
        return wanted_bed(
            bed.width, bed.depth, case.practice, nightstand_depth=deep, room=room, room_area=case.room.area
        )

    clear = deep + case.length("rugs.nightstand_gap") if deep > 0 else 0.0
    return Want(frame, answer, begins=clear)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move or turn the rug, lay the made size the bed takes, or layer a kept rug over a base that reaches."""
    under, owner = _under(case, finding)
    yield from ways_to_fit(case, under, want_of(case, owner))


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Yield how the rug the bed wants was sized, and why no base suits where none does."""
    under, owner = _under(case, finding)
    yield from workings_to_fit(case, under, want_of(case, owner))


def _under(case: RoomCase, finding: Finding) -> tuple[Under, BedSet]:
    key = finding.subjects[0].split("/")[-1]
    under = next(u for u in rugs_under(case) if u.main.id == key)
    assert isinstance(under.owner, BedSet)
    return under, under.owner
