"""How the furniture's visual weight lies about the middle lines of a room.

A piece weighs its footprint times its height; a bed only to the top of its mattress, since a headboard is a
board. The middle lines run through the middle of the floor (the centroid of the outline), one along each direction
the walls have, so that turning or mirroring the plan changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from halfdrop.geometry.plane import Array, left_of
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import StandingPiece

#: Two walls whose directions differ by less than this run the same way (sine).
SAME_WAY = 0.05


@dataclass(frozen=True, eq=False)
class Balance:
    """How weight lies about one middle line.

    Attributes
    ----------
    heavy : Array (2,)
        Unit vector square to the line, to the heavier side.
    heavier, lighter : float
        Weight on either side [m³].
    middle : Array (2,)
        Middle of the floor [m].
    """

    heavy: Array
    heavier: float
    lighter: float
    middle: Array

    @property
    def imbalance(self) -> float:
        """Difference over sum: 0 in balance, 1 with all on one side."""
        both = self.heavier + self.lighter
        return (self.heavier - self.lighter) / both if both > 0 else 0.0


def visual_height(piece: StandingPiece, mattress: float) -> float:
    """Return the height that weighs on the eye [m]: a piece's own, a bed's to the top of its mattress."""
    return min(piece.height, mattress) if piece.type == "bed" else piece.height


def balances(room: ResolvedRoom, shapes: Sequence[Polygon], heights: Sequence[float]) -> list[Balance]:
    """Return how weight lies about each middle line, the worst first.

    Parameters
    ----------
    room : ResolvedRoom
        For its outline and the ways its walls run.
    shapes : sequence of Polygon
        Footprints [m].
    heights : sequence of float
        Of each [m].

    Source: our choice; nobody publishes one.
    Checked by: tests/audit/cases/scale.one-side-heavy.yaml.
    """
    center = room.outline.centroid
    middle = np.array((center.x, center.y))
    far = 2 * float(np.ptp(np.asarray(room.outline.exterior.coords), axis=0).sum())
    footprints, tall = np.array(shapes, dtype=object), np.asarray(heights)
    found = []
    for way in _ways(room):
        out = left_of(way)
        corners = (
            middle - far * way,
            middle + far * way,
            middle + far * (way + out),
            middle + far * (out - way),
        )
        left = float((shapely.area(shapely.intersection(footprints, Polygon(corners))) * tall).sum())
        right = float((shapely.area(footprints) * tall).sum()) - left
        heavy = out if left >= right else -out
        found.append(Balance(heavy, max(left, right), min(left, right), middle))
    return sorted(found, key=lambda b: -round(b.imbalance, 6))


def _ways(room: ResolvedRoom) -> list[Array]:
    """Return one unit vector for each direction in which walls run."""
    ways: list[Array] = []
    for wall in room.walls:
        d = wall.direction
        if all(abs(float(d[0] * w[1] - d[1] * w[0])) > SAME_WAY for w in ways):
            ways.append(d)
    return ways
