"""A seating group fits in one circle of talk.

Why: In a group wider than that the farthest two no longer share one talk, and it breaks in two.
Source: practice value seating.conversation_circle.
Fails: the heads of all the people on a group's upholstery do not fit in a circle of that diameter.
Passes exactly: at the value.
Silent: where a part of the group is out of talk already (seating.too-far says so), and for a group of one
    piece.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.talking import knots
from halfdrop.audit.rules.seating.together import (
    group_of,
    groups,
    least_move,
    listed,
    pieces_of,
    places,
    unit,
)
from halfdrop.base.tolerance import at_most
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.groups import SeatingGroup
from halfdrop.room.talk import circle_over, moved_seats

GRADE = Grade.FAULT
PRACTICE = ("seating.conversation_circle",)
_CIRCLE = PRACTICE[0]


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each group too wide for one talk."""
    for group in groups(case):
        if len(group.pieces) > 1 and len(knots(case, group.pieces)) == 1:
            yield from _wide(case, group)


def _wide(case: RoomCase, group: SeatingGroup) -> Iterator[Finding]:
    diameter, center = circle_over([s for p in group.pieces for s in places(case, p)])
    wanted = case.length(_CIRCLE)
    if at_most(diameter, wanted):
        return
    subjects = sorted(group.pieces, key=lambda p: (-_outmost(case, p, center), p.id))
    yield case.finding(
        rule_id(__name__),
        GRADE,
        subjects,
        f"The heads of the group take a circle {case.say(diameter)} across; at most "
        f"{case.say(wanted, 'down')} is "
        "wanted, or the farthest two no longer share one talk.",
        name="+".join(sorted(p.id for p in subjects)),
        measured=diameter,
        wanted=wanted,
        sense="at most",
        practice=_CIRCLE,
        anchor=center,
    )


def _outmost(case: RoomCase, piece: StandingPiece, center: Array) -> float:
    return round(max((float(np.hypot(*(s.head - center))) for s in places(case, piece)), default=0.0), 4)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Draw one piece, or every piece but the main ones, toward the middle of the circle."""
    group = group_of(case, pieces_of(case, finding)[0].id)
    wanted = case.length(_CIRCLE)
    _, center = circle_over([s for p in group.pieces for s in places(case, p)])
    sets = [[p] for p in group.pieces] + [[p for p in group.pieces if p is not q] for q in group.pieces]
    sets.append(list(group.pieces))
    for moving in sets:
        for inward in ("front", "middle"):
            ways = [(p, p.front if inward == "front" else unit(center - p.center)) for p in moving]

            def clears(by: float, ways: list[tuple[StandingPiece, Array | None]] = ways) -> bool:
                going = {p.id: w * by for p, w in ways if w is not None}
                seats = [
                    s
                    for p in group.pieces
                    for s in moved_seats(places(case, p), going.get(p.id, np.zeros(2)))
                ]
                return at_most(circle_over(seats)[0], wanted)

            by = least_move(clears, most=2.0)
            if by is None:
                continue
            for more in (0.0, 0.05):
                patch = shifted(case, [(p, w * (by + more)) for p, w in ways if w is not None])
                if patch:
                    yield Proposal("move", f"Draw {listed(moving)} {case.say(by + more, 'up')} in.", patch)
