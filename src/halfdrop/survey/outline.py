"""What an outline of corners looks like: its angles, its sense, crossing walls, the spans inside it."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from halfdrop.survey.network import Floats


def interior_angles(xy: Floats) -> Floats:
    """Return the interior angle at each corner of counterclockwise outlines [rad], 0 … 2 pi.

    `xy` has shape (..., n, 2), the result (..., n).
    """
    before = np.roll(xy, 1, axis=-2) - xy
    after = np.roll(xy, -1, axis=-2) - xy
    turned: Floats = np.arctan2(before[..., 1], before[..., 0]) - np.arctan2(after[..., 1], after[..., 0])
    return turned % (2 * np.pi)


def signed_area(xy: Floats) -> Floats:
    """Return the area of outlines (..., n, 2), positive where counterclockwise [m²]."""
    after = np.roll(xy, -1, axis=-2)
    out: Floats = 0.5 * (xy[..., 0] * after[..., 1] - after[..., 0] * xy[..., 1]).sum(axis=-1)
    return out


def _side(a: Floats, b: Floats, c: Floats) -> Floats:
    out: Floats = (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (
        c[..., 0] - a[..., 0]
    )
    return out


def cross(a: Floats, b: Floats, c: Floats, d: Floats) -> NDArray[np.bool_]:
    """Return whether the span a-b properly crosses the span c-d; shapes (..., 2)."""
    out: NDArray[np.bool_] = (_side(a, b, c) * _side(a, b, d) < 0) & (_side(c, d, a) * _side(c, d, b) < 0)
    return out


def crossings(xy: Floats) -> list[tuple[int, int]]:
    """Return the pairs of walls of an outline (n, 2) that cross; wall k runs from corner k to k + 1."""
    n = len(xy)
    first, second = np.triu_indices(n, 2)
    keep = ~((first == 0) & (second == n - 1))
    first, second = first[keep], second[keep]
    ends = np.roll(xy, -1, axis=0)
    hit = cross(xy[first], ends[first], xy[second], ends[second])
    return [(int(a), int(b)) for a, b in zip(first[hit], second[hit], strict=True)]


def spans_inside(xy: Floats, *, slack: float = 0.03) -> NDArray[np.bool_]:
    """Return which corner-to-corner spans of a simple outline lie inside it: those can be taped; (n, n).

    A span may leave the outline by `slack` [m], as a tape does that bears on a corner. Walls count.
    """
    n = len(xy)
    room = shapely.Polygon(xy).buffer(slack, join_style="mitre")
    first, second = np.triu_indices(n, 1)
    lines = shapely.linestrings(np.stack((xy[first], xy[second]), axis=1))
    inside = np.zeros((n, n), dtype=bool)
    inside[first, second] = shapely.covers(room, lines)
    return inside | inside.T
