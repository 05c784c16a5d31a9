"""How a seating group comes onto a rug: each seat's front legs over it, the main seat off its wall where that helps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.moves import Movable, step
from halfdrop.audit.rules.rugs.lying import Frame, run
from halfdrop.audit.rules.seating.together import least_move, main_piece, places, tables_at
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.groups import SeatingGroup
from halfdrop.room.talk import circle_over, moved_seats

Moves = list[tuple[Movable, Array]]

#: The farthest a seat is brought in to a rug [m].
FAR = 1.8
#: The farthest a seat is drawn on for a walkway behind it [m].
DRAWN = 0.4
#: How far past the main seat's ends what stands at the wall counts for the walkway behind it [m].
ASIDE = 0.6


def behind(piece: StandingPiece, shape: BaseGeometry) -> tuple[float, Array]:
    """Return how far a rug runs behind the worse of a piece's front legs [m], and that leg."""
    legs = [(run(shape, leg, -piece.front), leg) for leg in piece.front_legs]
    return min(legs, key=lambda one: one[0])


def onto(
    case: RoomCase, group: SeatingGroup, frame: Frame, shape: BaseGeometry, square: bool
) -> Iterator[Moves]:
    """Yield ways in which a group comes onto a rug that covers a shape, the least first.

    The main seat stays, or comes off the wall behind it by as much as a little air, a secondary and a main walkway want.
    Every other seat moves as little as brings its front legs onto the rug; or the group draws together as well, to a
    circle for talk with its coffee table in reach, and with a main walkway round it as well.

    Parameters
    ----------
    square : bool
        Whether the shape is a rectangle square to the frame.
    """
    main = main_piece(case, group)
    seats = [main, *sorted((p for p in group.pieces if p is not main), key=lambda p: p.id)]
    for pull in _pulls(case, group, main):
        moves = {p.id: _needed(case, p, frame, shape, square, np.zeros(2)) for p in seats[1:]}
        moves[main.id] = _needed(case, main, frame, shape, square, pull * main.front)
        going = {p: by for p in seats if (by := moves[p.id]) is not None}
        if len(going) < len(seats):
            continue
        tables = tables_at(group, [main])
        near = [
            (t, going[main] + (_reach(case, main, t) if t.type == "coffee table" else 0.0)) for t in tables
        ]
        drawn = _drawn(case, main, going)
        ways = (
            list(going.items()) if pull == 0.0 else [],
            [*going.items(), *((t, going[main]) for t in tables)],
            [*drawn.items(), *near],
            [*_cleared(case, group, main, drawn).items(), *near],
        )
        yield from (real for real in map(_real, ways) if real)


def _real(moves: Iterable[tuple[Movable, Array]]) -> Moves:
    return [(t, by) for t, by in moves if float(np.hypot(*by)) > 1e-3]


def _pulls(case: RoomCase, group: SeatingGroup, main: StandingPiece) -> list[float]:
    """Return how far the main seat comes forward: not, or until a walkway is free behind it [m]."""
    side, back = main.width / 2 + ASIDE, -main.depth / 2
    zone = main.box(-side, side, back - 4.0, back + 0.3)
    mine = {p.id for p in group.pieces} | {t.id for t in group.tables}
    solid = unary_union([b.footprint for b in case.room.blocks.values() if b.id not in mine])
    behind_it = Frame(main.center, main.angle).seen(
        zone.difference(case.room.outline).union(solid.intersection(zone))
    )
    gap = back - float(behind_it.bounds[3]) if not behind_it.is_empty else FAR
    lanes = ("seating.wall_pull_off", "circulation.secondary_target", "circulation.main")
    pulls = [0.0, *(case.length(k) - gap + step(case) for k in lanes if case.length(k) > gap)]
    return list(dict.fromkeys(round(p, 4) for p in pulls if p < FAR))


def _reach(case: RoomCase, main: StandingPiece, table: StandingPiece) -> Array:
    """Return the move that sets a coffee table before the middle of the main seat, in reach."""
    wanted = case.length("seating.coffee_gap_target_low")
    x, y = Frame(main.center, main.angle).local(table.center)
    extent = Frame(main.center, main.angle).box(table.corners).along / 2
    return np.asarray(main.front * (main.depth / 2 + wanted + extent - y) - main.right * x)


def _drawn(
    case: RoomCase, main: StandingPiece, going: dict[StandingPiece, Array]
) -> dict[StandingPiece, Array]:
    """Return the moves with the other seats drawn straight forward until all heads are in the circle for talk."""
    wanted = case.length("seating.conversation_circle")

    def drawn(by: float) -> dict[StandingPiece, Array]:
        return {p: v if p is main else v + by * p.front for p, v in going.items()}

    def near(by: float) -> bool:
        heads = [s for p, v in drawn(by).items() for s in moved_seats(places(case, p), v)]
        return not heads or at_most(circle_over(heads)[0], wanted)

    by = 0.0 if near(0.0) else least_move(near, most=FAR)
    return going if by is None else drawn(by + (step(case) if by else 0.0))


def _cleared(
    case: RoomCase, group: SeatingGroup, main: StandingPiece, going: dict[StandingPiece, Array]
) -> dict[StandingPiece, Array]:
    """Return the moves with each other seat drawn on until a main walkway passes behind it, and past it, where it can."""
    wanted = case.length("circulation.main") + step(case)
    mine = {p.id for p in group.pieces} | {t.id for t in group.tables}
    stand = [b.footprint for b in case.room.blocks.values() if b.id not in mine]
    solid = unary_union([*stand, case.room.outline.exterior])
    moves = dict(going)
    for piece, by in going.items():
        if piece is main:
            continue
        back = -piece.depth / 2
        half = translate(piece.box(-6.0, 6.0, back - 12.0, back), *by)
        for way, near in ((piece.front, solid.intersection(half)), (-main.front, solid)):

            def clear(more: float, way: Array = way, near: BaseGeometry = near, by: Array = by) -> bool:
                there = translate(piece.footprint, *(by + more * way))  # noqa: B023
                return near.is_empty or at_least(float(there.distance(near)), wanted)

            more = 0.0 if clear(0.0) else least_move(clear, most=DRAWN, pace=0.02)
            by = by + (more or 0.0) * way
        moves[piece] = by
    return moves


def _needed(
    case: RoomCase, piece: StandingPiece, frame: Frame, shape: BaseGeometry, square: bool, given: Array
) -> Array | None:
    """Return the move, `given` and what it takes more, that brings a piece's front legs onto a shape; None where none does."""
    least = case.length("rugs.front_legs_floor")
    if not square:
        return _straight(piece, shape, least, given)
    legs = piece.front_legs + given
    lies = frame.box(np.asarray(shape.exterior.coords))
    if all(at_least(run(shape.buffer(1e-5, join_style="mitre"), leg, -piece.front), least) for leg in legs):
        return given
    room = lies.grown(-step(case))
    box = frame.box(np.vstack((legs, legs - least * piece.front)))
    if box.across > room.across or box.along > room.along:
        return None
    more = frame.plan((_shift(box.x0, box.x1, room.x0, room.x1), _shift(box.y0, box.y1, room.y0, room.y1)))
    by = given + more - frame.origin
    return by if float(np.hypot(*by)) <= FAR else None


def _shift(low: float, high: float, least: float, most: float) -> float:
    return max(least - low, 0.0) + min(most - high, 0.0)


def _straight(piece: StandingPiece, shape: BaseGeometry, least: float, given: Array) -> Array | None:
    """Bring a piece straight forward onto a shape of any outline."""

    def stands(by: float) -> bool:
        legs = piece.front_legs + given + by * piece.front
        return all(at_least(run(shape, leg, -piece.front), least) for leg in legs)

    if stands(0.0):
        return given
    by = least_move(stands, most=FAR)
    return None if by is None else given + by * piece.front
