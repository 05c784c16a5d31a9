"""In a large room each of two groups has its own rug, with bare floor between them.

Why: One rug among two groups makes one of them look left over; two rugs that touch or nearly touch read as one that does not fit,
    and their edges trip.
Source: practice values rugs.large_room_area and rugs.coordinate_gap; our choice, no source.
Fails: as a fault, where two groups that seat three or more each stand in a room of rugs.large_room_area or more, one has a rug and
    the other none; where the rug of the first carries all its front legs, only as taste. As a fault, where the rugs of two groups,
    tables or beds overlap without lying over each other on purpose; as taste, where they lie nearer than
    rugs.coordinate_gap.
Passes exactly: at rugs.coordinate_gap; a room of just rugs.large_room_area counts as large.
Silent: in smaller rooms for a group without a rug; where no group has one (rugs.no-rug). Whether two rugs are related in
    pattern, fiber and age is for the eye.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, clearing_move, directions, shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import new_rugs, ways_to_fit
from halfdrop.audit.rules.rugs.front_legs import want_of
from halfdrop.audit.rules.rugs.gather import behind
from halfdrop.audit.rules.rugs.lying import Under, full_groups, is_large, owner_whole, rugs_under
from halfdrop.audit.rules.rugs.spots import toward
from halfdrop.audit.rules.rugs.wants import want_for
from halfdrop.audit.rules.seating.together import group_of, main_piece
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import closest
from halfdrop.room.groups import SeatingGroup

GRADE = Grade.FAULT
PRACTICE = ("rugs.large_room_area", "rugs.coordinate_gap")
_GAP = "rugs.coordinate_gap"


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each group left without a rug, and for each two rugs that crowd each other."""
    unders = rugs_under(case)
    if case.room.model.floor == "hard" and is_large(case):
        yield from _left_over(case, unders)
    for a, b in combinations(unders, 2):
        yield from _crowded(case, a, b)


def _left_over(case: RoomCase, unders: list[Under]) -> Iterator[Finding]:
    with_rug = {p.id: u for u in unders if isinstance(u.owner, SeatingGroup) for p in u.owner.pieces}
    groups = full_groups(case)
    bare = [g for g in groups if not any(p.id in with_rug for p in g.pieces)]
    if not bare or len(bare) == len(groups):
        return
    least = case.length("rugs.front_legs_floor")
    for group in bare:
        main = main_piece(case, group)
        other = next(u for u in unders if isinstance(u.owner, SeatingGroup))
        carried = any(all(at_least(behind(p, u.shape)[0], least) for p in group.pieces) for u in unders)
        stands = (
            f"shares the {other.main.name} with the other"
            if carried
            else "has no rug, while the other has one"
        )
        yield case.finding(
            rule_id(__name__),
            Grade.TASTE if carried else GRADE,
            (main, other.main),
            f"The group round the {main.name} {stands}; in a room of {case.say_area(case.room.area)} each of two groups wants its "
            "own, related to the other in fiber, pattern or color (that is for your eye).",
            measured=case.room.area,
            wanted=float(case.practice.area("rugs.large_room_area")),
            quantity="area",
            sense="at most",
            practice="rugs.large_room_area",
            name=main.id,
        )


def _crowded(case: RoomCase, a: Under, b: Under) -> Iterator[Finding]:
    wanted = case.length(_GAP)
    first, second = sorted((a.main, b.main), key=lambda r: (-round(r.footprint.area, 6), r.id))
    if first.model.over == second.id or second.model.over == first.id:
        return
    p, q, gap = closest(first.footprint, second.footprint)
    if at_least(gap, wanted):
        return
    lap = first.footprint.intersection(second.footprint).area > 1e-3
    how = "lies partly on" if lap else "touches" if gap < 1e-3 else f"lies {case.say(gap)} from"
    why = "or the edges trip and neither lies flat" if lap else "or the two read as one that does not fit"
    yield case.finding(
        rule_id(__name__),
        GRADE if lap else Grade.TASTE,
        (second, first),
        f"The {second.name} {how} the {first.name}; {case.say(wanted, 'up')} of bare floor between them is wanted, {why}.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.sigma(first, second, p, q),
        practice=_GAP,
        anchor=q,
        marks=((p, q),) if gap > 1e-3 else (),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Give the group its rug; or draw the two rugs apart, alone, with what stands on them, or by a smaller size."""
    if finding.practice != _GAP:
        group = group_of(case, finding.subjects[0].split("/")[-1])
        like = case.room.rugs[finding.subjects[1].split("/")[-1]].model
        main = main_piece(case, group)
        yield from new_rugs(case, group, want_of(case, group), f"the group round the {main.name}", like)
        return
    keys = [path.split("/")[-1] for path in finding.subjects]
    for under in [u for key in keys for u in rugs_under(case) if u.main.id == key]:
        other = case.room.rugs[keys[1] if under.main.id == keys[0] else keys[0]]
        yield from _apart(case, under, other, alone=True)
        yield from _apart(case, under, other, alone=False)
        yield from (
            p
            for p in ways_to_fit(case, under, want_for(case, under.owner))
            if p.kind in ("move", "turn", "size")
        )


def _apart(case: RoomCase, under: Under, other: Movable, *, alone: bool) -> Iterator[Proposal]:
    """Move one group's rugs, alone or with what stands on them, until the gap is there."""
    things: list[Movable] = [*under.rugs, *(() if alone else owner_whole(under.owner))]
    for way in directions(case, under.main):
        by = clearing_move(under.main, other.footprint, way, case.length(_GAP))
        patch = shifted(case, [(t, way * by) for t in things]) if by else []
        if by and patch:
            what = f"the {under.main.name}" + ("" if alone else " and what stands on it")
            yield Proposal(
                "move" if alone else "move together", f"Move {what} {toward(case, way * by)}.", patch
            )
