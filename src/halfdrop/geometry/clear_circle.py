"""The largest circle of clear floor whose center stays inside a given area."""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.geometry.plane import Array


def _segments(shapes: list[BaseGeometry]) -> tuple[Array, Array]:
    starts, ends = [], []
    for shape in shapes:
        for ring in shapely.get_parts(shapely.boundary(shape)):
            points = shapely.get_coordinates(ring)
            starts.append(points[:-1])
            ends.append(points[1:])
    return np.vstack(starts), np.vstack(ends)


def _distances(points: Array, starts: Array, ends: Array) -> Array:
    """Return the distance of each point (n, 2) to each segment (m), as (n, m) [m]."""
    along = ends - starts
    square = np.maximum((along**2).sum(axis=1), 1e-18)
    rel = points[:, None, :] - starts[None, :, :]
    t = np.clip(np.einsum("nmk,mk->nm", rel, along) / square, 0.0, 1.0)
    rel -= t[..., None] * along
    return np.asarray(np.sqrt(np.einsum("nmk,nmk->nm", rel, rel)))


def largest_clear_circle(
    floor: Polygon, blocks: list[Polygon], centers: Polygon, tolerance: float = 2e-4
) -> tuple[float, Array]:
    """Return diameter [m] and center of the largest circle on a floor clear of blocks, centered in an area.

    Squares that cover `centers` are split; a square is dropped when no point of it can better the best by
    more than `tolerance` (the distance to the nearest edge changes no faster than the point moves). So the
    diameter is never too large, and too small by at most twice the tolerance, however the floor is turned.

    Parameters
    ----------
    floor : Polygon
        What the circle stays inside.
    blocks : list of Polygon
        What it keeps out of.
    centers : Polygon
        Where its center may be; where it has no area the answer is 0.
    tolerance : float
        [m].

    Source: branch and bound over a quadtree, a common method for the pole of inaccessibility.
    Checked by: tests/geometry/test_clear_circle.py.
    """
    starts, ends = _segments([floor, *blocks])
    allowed = centers.intersection(floor).difference(shapely.union_all(blocks))
    if allowed.area < 1e-6:
        return 0.0, shapely.get_coordinates(centers.centroid)[0]
    shapely.prepare(allowed)
    x0, y0, x1, y1 = allowed.bounds
    half = max(x1 - x0, y1 - y0) / 2
    cells = np.array(((x0 + x1) / 2, (y0 + y1) / 2))[None, :]
    seed = shapely.get_coordinates(allowed.representative_point())
    best, where = float(_distances(seed, starts, ends).min()), seed[0]
    quarters = np.array(((-1, -1), (1, -1), (1, 1), (-1, 1))) / 2
    while len(cells):
        reach = half * np.sqrt(2)
        cells = cells[shapely.dwithin(allowed, shapely.points(cells), reach)]
        gaps = _distances(cells, starts, ends)
        clear = gaps.min(axis=1)
        inside = shapely.intersects_xy(allowed, cells[:, 0], cells[:, 1])
        if inside.any():
            k = int(np.argmax(np.where(inside, clear, -1.0)))
            if clear[k] > best:
                best, where = float(clear[k]), cells[k]
        kept = clear + reach > best + tolerance
        near = (gaps[kept] <= clear[kept, None] + 2 * reach).any(
            axis=0
        )  # no other edge is nearest in any square
        starts, ends = starts[near], ends[near]
        cells = (cells[kept][:, None, :] + quarters[None, :, :] * half).reshape(-1, 2)
        half /= 2
    return 2 * best, where
