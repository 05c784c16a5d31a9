"""The coffee table is near enough to reach and far enough to sit down.

Why: Nearer than a shin's length nobody can sit down without turning sideways; beyond an arm's reach a glass
    is put on the floor.
Source: practice values seating.coffee_gap_min, seating.coffee_gap_target_low, seating.coffee_gap_target_high
    and seating.coffee_gap_max; sources conflict between 12 and 18 in, the notes there say how they were
    weighed.
Fails: from the front edge of a seat that faces the table (as wide as one person; the nearest place of a piece
    counts) to the table's nearest edge it is less than coffee_gap_min, or, for the main seat at that table,
    more than coffee_gap_max: fault. Between those and the target it is taste.
Passes exactly: at the target values.
Silent: for seats the table does not lie before (within 60° of where they look); too far only counts for the
    widest piece at the table, the others may have a table of their own (seating.no-surface).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import (
    group_of,
    groups,
    least_move,
    pieces_of,
    places,
    rugs_of,
)
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.reach import Reach, reach_forward

GRADE = Grade.FAULT
_MIN, _LOW, _HIGH, _MAX = PRACTICE = (
    "seating.coffee_gap_min",
    "seating.coffee_gap_target_low",
    "seating.coffee_gap_target_high",
    "seating.coffee_gap_max",
)


class _At(NamedTuple):
    """A piece at a coffee table."""

    piece: StandingPiece
    reach: Reach
    main: bool


def _seats_at(
    case: RoomCase, table: StandingPiece, pieces: tuple[StandingPiece, ...], shift: Array
) -> list[_At]:
    """Return the pieces that face a table shifted by a plan vector [m], the widest first."""
    most, person = case.length("seating.facing_max"), case.length("seating.person_width")
    found: list[_At] = []
    for piece in sorted(pieces, key=lambda p: (-len(places(case, p)), -round(p.width, 4), p.id)):
        reach = reach_forward(places(case, piece), table.footprint, person, shift)
        if reach is not None and reach.gap <= most:
            found.append(_At(piece, reach, not found))
    return found


def _miss(case: RoomCase, at: _At) -> tuple[str, Grade] | None:
    gap = at.reach.gap
    if not at_least(gap, case.length(_LOW)):
        return (_LOW, Grade.TASTE) if at_least(gap, case.length(_MIN)) else (_MIN, GRADE)
    if at.main and not at_most(gap, case.length(_HIGH)):
        return (_HIGH, Grade.TASTE) if at_most(gap, case.length(_MAX)) else (_MAX, GRADE)
    return None


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece too near to its coffee table, and for each table too far from its main
    seat.
    """
    for group in groups(case):
        for table in group.tables:
            if table.type != "coffee table":
                continue
            for at in _seats_at(case, table, group.pieces, np.zeros(2)):
                miss = _miss(case, at)
                if miss is None:
                    continue
                key, grade = miss
                near = key in (_MIN, _LOW)
                wanted = case.length(key)
                want = f"{case.say(wanted, 'up')} or more" if near else f"at most {case.say(wanted, 'down')}"
                why = "so that legs pass between" if near else "so that a glass is within reach"
                yield case.finding(
                    rule_id(__name__),
                    grade,
                    (table, at.piece),
                    f"The {table.name} stands {case.say(at.reach.gap)} from the front of the "
                    f"{at.piece.name}; "
                    f"{want} is wanted, {why}.",
                    measured=at.reach.gap,
                    wanted=wanted,
                    sense="at least" if near else "at most",
                    sigma=case.room.sigma(at.piece, table, at.reach.p, at.reach.q),
                    practice=key,
                    anchor=at.reach.q,
                    marks=((at.reach.p, at.reach.q),),
                )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the table, or the seat, with the rug where it would be left behind."""
    table, piece = pieces_of(case, finding)
    group = group_of(case, piece.id)
    front = piece.front
    away = finding.sense == "at least"
    choices: list[tuple[float, list[Movable]]] = [
        (1.0, [table]),
        (-1.0, [piece]),
        (-1.0, [piece, *rugs_of(case, group)]),
    ]

    main = _seats_at(case, table, group.pieces, np.zeros(2))[0].piece
    for way in (front, piece.right, -piece.right) if away else (-front,):

        def clears(by: float, way: Array = way) -> bool:
            at = _seats_at(case, table, group.pieces, way * by)
            mine = [a for a in at if a.piece is piece]
            return bool(mine) and at[0].piece is main and _miss(case, mine[0]) is None

        by = least_move(clears, most=1.0 if way is front or not away else table.width / 3, pace=0.02)
        if by is None:
            continue
        for more in (0.0, 0.025, 0.05):
            for sign, things in choices:
                going: list[tuple[Movable, Array]] = [(t, way * sign * (by + more)) for t in things]
                patch = shifted(case, going)
                if patch:
                    thing = table if sign > 0 else piece
                    toward = "away from" if away else "toward"
                    other = piece if sign > 0 else table
                    title = f"Move the {thing.name} {case.say(by + more, 'up')} {toward} the {other.name}."
                    yield Proposal("move" if sign > 0 else "move seat", title, patch)
