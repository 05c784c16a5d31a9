"""Seats of one group are not too close for talk.

Why: Nearer than an arm's length people lean back from each other, knees meet, and nobody gets up without the
    other moving.
Source: practice values seating.person_gap_min (between people) and seating.facing_min (between the fronts of
    facing seats).
Fails: between two pieces of a group less than seating.person_gap_min is left from body to body (facing: from
    knees to knees, which stand seating.knee_reach out before the seat; at a corner or side by side: from
    shoulder to shoulder, each person seating.person_width wide). That is a fault where people turn to each
    other, and taste side by side, where two chairs sit like one sofa. Facing seats whose people have that
    room, but whose fronts are nearer than seating.facing_min, are taste: the handbook's figure leaves room
    for a table.
Passes exactly: at the value.
Silent: for places of one piece, for pieces that have their backs to each other, and where a group is one
    piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import (
    group_of,
    groups,
    least_move,
    listed,
    person_gap,
    pieces_of,
    places,
    rugs_of,
    tables_at,
    talk,
    ways_of,
)
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.talk import Talk, moved_seats

GRADE = Grade.FAULT
PRACTICE = (
    "seating.person_gap_min",
    "seating.person_gap_min_northern_europe",
    "seating.person_gap_min_mediterranean",
    "seating.facing_min",
)


def _miss(case: RoomCase, spoken: Talk) -> tuple[float, float, str, Grade] | None:
    """Return measured, wanted, practice key and grade where people sit too close."""
    key, least = person_gap(case, "min")
    if not at_least(spoken.between, least):
        grade = Grade.TASTE if spoken.way == "beside" else Grade.FAULT
        return spoken.between, least, key, grade
    fronts = case.length("seating.facing_min")
    if spoken.way == "facing" and not at_least(spoken.gap, fronts):
        return spoken.gap, fronts, "seating.facing_min", Grade.TASTE
    return None


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each two pieces of a group that are too close."""
    for group in groups(case):
        for a, b in combinations(sorted(group.pieces, key=lambda p: p.id), 2):
            spoken = talk(case, places(case, a), places(case, b))
            miss = _miss(case, spoken) if spoken is not None else None
            if spoken is None or miss is None:
                continue
            measured, wanted, key, grade = miss
            small, large = sorted((a, b), key=lambda p: (len(places(case, p)), p.width, p.id))
            how = {
                "seating.facing_min": "from front to front",
            }.get(key, "from knee to knee" if spoken.way == "facing" else "from shoulder to shoulder")
            why = (
                "so that people talk at arm's length"
                if key != "seating.facing_min"
                else "for knees and a table"
            )
            yield case.finding(
                rule_id(__name__),
                grade,
                (small, large),
                f"The {small.name} and the {large.name} leave {case.say(measured)} {how}; "
                f"{case.say(wanted, 'up')} is wanted, {why}.",
                measured=measured,
                wanted=wanted,
                sigma=case.room.sigma(a, b, spoken.p, spoken.q),
                practice=key,
                anchor=(spoken.p + spoken.q) / 2,
                marks=((spoken.p, spoken.q),),
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Draw the smaller piece away, or the larger one with its tables and rug."""
    small, large = pieces_of(case, finding)
    group = group_of(case, small.id)
    for piece, other in ((small, large), (large, small)):
        for way in ways_of(piece):
            by = _clearing(case, piece, other, way)
            if by is None:
                continue
            tables = tables_at(group, [piece])
            rugs = rugs_of(case, group)
            for extra in ([], [*tables], [*tables, *rugs], [*rugs]):
                things = [piece, *extra]
                for more in (0.0, 0.05, 0.15):
                    patch = shifted(case, [(t, way * (by + more)) for t in things])
                    if patch:
                        title = (
                            f"Move {listed(things)} {case.say(by + more, 'up')} away from the {other.name}."
                        )
                        yield Proposal("move", title, patch)


def _clearing(case: RoomCase, piece: StandingPiece, other: StandingPiece, way: Array) -> float | None:
    """Return the least move along `way` that leaves room between them [m], while they can still talk."""

    def clears(by: float) -> bool:
        spoken = talk(case, moved_seats(places(case, piece), way * by), places(case, other))
        return spoken is not None and _miss(case, spoken) is None

    return least_move(clears)
