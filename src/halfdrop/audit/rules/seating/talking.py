"""Who of a group talks with whom: pieces within talk of one another are knotted together."""

from __future__ import annotations

from collections.abc import Sequence

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.seating.together import person_gap, places, talk
from halfdrop.base.tolerance import at_most
from halfdrop.room import StandingPiece
from halfdrop.room.groups import Seat
from halfdrop.room.talk import Talk


def limit(case: RoomCase, spoken: Talk) -> tuple[str, float]:
    """Return the practice key and value [m] of the most that is wanted of a talk's gap."""
    if spoken.way == "facing":
        return "seating.facing_max", case.length("seating.facing_max")
    return person_gap(case, "max")


def within_talk(case: RoomCase, a: Sequence[Seat], b: Sequence[Seat]) -> bool:
    """Return whether two pieces' places are within talk."""
    spoken = talk(case, a, b)
    return spoken is not None and at_most(spoken.gap, limit(case, spoken)[1])


def knots(case: RoomCase, pieces: Sequence[StandingPiece]) -> list[list[StandingPiece]]:
    """Return the pieces that talk, directly or through others, together; most places first."""
    left = sorted((p for p in pieces if places(case, p)), key=lambda p: p.id)
    found: list[list[StandingPiece]] = []
    while left:
        knot = [left.pop(0)]
        for piece in knot:
            joined = [p for p in left if within_talk(case, places(case, piece), places(case, p))]
            knot += joined
            left = [p for p in left if p not in joined]
        found.append(knot)
    return sorted(
        found, key=lambda k: (-sum(len(places(case, p)) for p in k), -_bulk(k), min(p.id for p in k))
    )


def _bulk(knot: list[StandingPiece]) -> float:
    return round(sum(p.width for p in knot), 4)
