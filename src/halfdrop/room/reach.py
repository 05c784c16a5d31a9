"""What a seated person reaches: forward from the seat's front edge, and to either side of their own place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry import LineString, Polygon

from halfdrop.geometry.plane import Array, left_of
from halfdrop.room.groups import Seat
from halfdrop.room.things import StandingPiece

#: A thing lies before a seat when the line to it is within 60° of where the person looks (cosine).
BEFORE = 0.5


@dataclass(frozen=True, eq=False)
class Reach:
    """The nearest way from a seat to a thing: how far [m], from where, to where."""

    gap: float
    p: Array
    q: Array


def reach_forward(
    seats: Sequence[Seat], shape: Polygon, person: float, shift: Array | None = None
) -> Reach | None:
    """Return the shortest reach from the front edges of one piece's places to a shape that lies before them.

    Parameters
    ----------
    seats : sequence of Seat
        Places of one piece.
    shape : Polygon
        What is reached for [m].
    person : float
        Width of a place's front edge [m].
    shift : Array (2,), optional
        Where the shape is moved to, for trying a move out.

    Returns
    -------
    Reach or None
        None where it lies before none of them.

    Checked by: tests/room/test_reach.py.
    """
    if shift is not None and shift.any():
        shape = translate(shape, float(shift[0]), float(shift[1]))
    best: Reach | None = None
    for seat in seats:
        half = left_of(seat.facing) * person / 2
        edge = LineString((seat.front - half, seat.front + half))
        p, q = np.asarray(shapely.shortest_line(edge, shape).coords)
        gap = float(np.hypot(*(q - p)))
        before = gap < 1e-9 or float((q - p) @ seat.facing) >= BEFORE * gap
        if before and (best is None or gap < best.gap):
            best = Reach(gap, p, q)
    return best


def place_shapes(piece: StandingPiece, seats: Sequence[Seat]) -> list[Polygon]:
    """Return the floor each place of a piece takes: slices of its footprint, halfway to the neighbors, arms
    with the end places.
    """
    local = np.array([(s.front - piece.center) @ piece.right for s in seats])
    cuts = [-piece.width / 2 - 1.0, *((local[:-1] + local[1:]) / 2), piece.width / 2 + 1.0]
    back, front = -piece.depth / 2 - 1.0, piece.depth / 2 + 1.0
    strips = [piece.box(a, b, back, front) for a, b in pairwise(cuts)]
    return [strip.intersection(piece.footprint) for strip in strips]
