"""Seats of one group are near enough for talk.

Why: People who must raise their voices stop talking; a chair out of reach of the others is a chair nobody
    takes.
Source: practice values seating.person_gap_max (between neighbors) and seating.facing_max (between the fronts
    of facing seats); distances between people differ by seating.region.
Fails: a piece is out of talk with the main part of its group (the one with most places), directly and through
    others: facing pieces talk within seating.facing_max from front edge to front edge, pieces at a corner or
    side by side within seating.person_gap_max from shoulder to shoulder, and nobody talks to a back.
Passes exactly: at the value.
Silent: where a group is one piece: the places of one piece are near enough by its make. A chair meant to
    stand apart takes a `group` of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, arranged, shifted, turned_in_place
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.formation import formations
from halfdrop.audit.rules.seating.talking import knots, limit, within_talk
from halfdrop.audit.rules.seating.together import (
    group_of,
    groups,
    least_move,
    listed,
    low_table,
    main_piece,
    pieces_of,
    places,
    round_the_table,
    rugs_of,
    table_spot,
    tables_at,
    talk,
    unit,
    ways_of,
)
from halfdrop.geometry.plane import Array, heading, turned
from halfdrop.room import StandingPiece
from halfdrop.room.groups import Seat, SeatingGroup
from halfdrop.room.talk import Talk, moved_seats

GRADE = Grade.FAULT
PRACTICE = (
    "seating.person_gap_max",
    "seating.person_gap_max_northern_europe",
    "seating.person_gap_max_mediterranean",
    "seating.facing_max",
)


class _Link(NamedTuple):
    """Two pieces' talk against what is wanted."""

    over: float
    a: StandingPiece
    b: StandingPiece
    talk: Talk
    key: str
    wanted: float


def _nearest(case: RoomCase, knot: list[StandingPiece], others: list[StandingPiece]) -> _Link | None:
    links = []
    for a in knot:
        for b in others:
            spoken = talk(case, places(case, a), places(case, b))
            if spoken is not None:
                key, wanted = limit(case, spoken)
                links.append(_Link(spoken.gap - wanted, a, b, spoken, key, wanted))
    return min(links, key=lambda k: (round(k.over, 6), k.a.id, k.b.id), default=None)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece out of talk with the main part of its group."""
    for group in groups(case):
        main, *apart = knots(case, group.pieces) or [[]]
        for piece in sorted((p for knot in apart for p in knot), key=lambda p: p.id):
            yield _apart(case, piece, main)


def _apart(case: RoomCase, piece: StandingPiece, main: list[StandingPiece]) -> Finding:
    link = _nearest(case, [piece], main)
    if link is None:
        other = min(main, key=lambda p: (round(float(p.footprint.distance(piece.footprint)), 6), p.id))
        return case.finding(
            rule_id(__name__),
            GRADE,
            (piece, other),
            f"The {piece.name} and the {other.name} look away from each other, so that nobody talks. "
            "Turn one, or give it a group of its own if it is to stand apart.",
            name=piece.id,
        )
    how = "from front to front" if link.talk.way == "facing" else "from shoulder to shoulder"
    return case.finding(
        rule_id(__name__),
        GRADE,
        (piece, link.b),
        f"From the {piece.name} to the {link.b.name} it is {case.say(link.talk.gap)} {how}; at most "
        f"{case.say(link.wanted, 'down')} is wanted, or people stop talking across it.",
        name=piece.id,
        measured=link.talk.gap,
        wanted=link.wanted,
        sense="at most",
        sigma=case.room.sigma(link.a, link.b, link.talk.p, link.talk.q),
        practice=link.key,
        anchor=(link.talk.p + link.talk.q) / 2,
        marks=((link.talk.p, link.talk.q),),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Bring the far piece in, or the others to it, with the tables and the rug where they would be left
    behind.
    """
    subjects = pieces_of(case, finding)
    group = group_of(case, subjects[0].id)
    parts = knots(case, group.pieces)
    piece, other = subjects
    knot = next(k for k in parts if piece in k)
    if finding.measured is None:
        yield from _turned(case, piece, parts[0])
        return
    rest = [p for p in group.pieces if p not in knot]
    sets = (
        [([piece], parts[0]), (knot, rest), (rest, knot)] if len(knot) > 1 else [(knot, rest), (rest, knot)]
    )
    for moving, still in sets:
        yield from _brought(case, group, moving, still, piece, other)
    yield from _set_at_table(case, group, piece)
    yield from formations(case, group)


def _set_at_table(case: RoomCase, group: SeatingGroup, piece: StandingPiece) -> Iterator[Proposal]:
    """Set a piece round the low table, looking in: opposite the main seat, at an end or at a corner."""
    lead, table = main_piece(case, group), low_table(group)
    if lead is piece:
        return
    if table is None:
        middles = [lead.at(0.0, (lead.depth + case.length("seating.facing_min")) / 2)]
    else:
        middles = [table.center, table_spot(case, lead, table)]
    for k, middle in enumerate(middles):
        for center, angle in round_the_table(case, lead, table, middle, piece.depth):
            spots: list[tuple[Movable, Array, float]] = [(piece, center, angle)]
            if k and table is not None:
                spots.append((table, middle, table.angle))
            patch = arranged(case, spots)
            if patch and _joins(case, piece, center, angle, lead):
                title = f"Set {listed([t for t, _, _ in spots])} with the {lead.name}, looking in."
                yield Proposal("place", title, patch)


def _joins(case: RoomCase, piece: StandingPiece, center: Array, angle: float, lead: StandingPiece) -> bool:
    """Return whether a piece set there would be within talk of the main seat."""
    by = angle - piece.angle
    seats = [
        Seat(
            piece,
            center + turned(s.front - piece.center, by),
            center + turned(s.head - piece.center, by),
            turned(s.facing, by),
        )
        for s in places(case, piece)
    ]
    return within_talk(case, seats, places(case, lead))


def _brought(
    case: RoomCase,
    group: SeatingGroup,
    moving: list[StandingPiece],
    still: list[StandingPiece],
    near: StandingPiece,
    far: StandingPiece,
) -> Iterator[Proposal]:
    lead = near if near in moving else far
    target = far if lead is near else near
    toward = unit(target.center - lead.center)
    for way in ways_of(lead, toward):
        if toward is not None and float(way @ toward) < 0.1:
            continue

        def clears(by: float, way: Array = way) -> bool:
            return any(
                within_talk(case, moved_seats(places(case, p), way * by), places(case, q))
                for p in moving
                for q in still
            )

        by = least_move(clears, most=6.0)
        if by is None:
            continue
        tables, rugs = tables_at(group, moving), rugs_of(case, group)
        extras: list[list[Movable]] = [[], [*tables], [*rugs], [*tables, *rugs]]
        for extra in extras:
            for more in (0.0, 0.08, 0.2):
                patch = shifted(case, [(t, way * (by + more)) for t in (*moving, *extra)])
                if patch:
                    how_far = case.say(by + more, "up")
                    title = f"Move {listed((*moving, *extra))} {how_far} toward the {target.name}."
                    yield Proposal("move", title, patch)


def _turned(case: RoomCase, piece: StandingPiece, rest: list[StandingPiece]) -> Iterator[Proposal]:
    """Turn a piece that looks away: to the others' middle, or by quarters; and bring it nearer where that is
    not enough.
    """
    middle = np.mean([p.center for p in rest], axis=0) - piece.center
    toward = unit(middle)
    if toward is None:
        return
    steps = [heading(middle) - np.pi / 2, *(piece.angle + k * np.pi / 2 for k in (1, 2, 3))]
    for by in (0.0, 0.3, 0.6, 1.0, 1.5):
        for angle in steps:
            patch = turned_in_place(case, piece, angle - piece.angle, toward * by)
            nearer = f" and bring it {case.say(by)} nearer" if by else ""
            if patch:
                yield Proposal("turn", f"Turn the {piece.name} to the group{nearer}.", patch)
