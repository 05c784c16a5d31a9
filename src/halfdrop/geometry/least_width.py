"""The least width in which a convex shape passes when it may be turned, at a given height of the opening.

Between two of its own critical angles (an edge level or upright) each extent of a convex shape is one chord's
sinusoid, so it is concave: the least width lies at a critical angle or where the other extent just meets its
limit. Both kinds are listed in closed form, so nothing is searched.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np

from halfdrop.geometry.plane import Array

#: Slack for the other extent meeting its limit [m]: noise of the arithmetic, no allowance.
_NOISE = 1e-9


def extents(points: Array, angles: Array) -> Array:
    """Return width and height (k, 2) of the box round points (n, 2) turned by each of angles (k,) [m]."""
    c, s = np.cos(angles)[:, None], np.sin(angles)[:, None]
    x, y = points[:, 0][None, :], points[:, 1][None, :]
    return np.column_stack((np.ptp(c * x - s * y, axis=1), np.ptp(s * x + c * y, axis=1)))


def least_width(points: Array, height: float) -> tuple[float, float] | None:
    """Return the least width of the box round a turned convex shape that stays within a height.

    Parameters
    ----------
    points : Array (n, 2)
        Corners of the convex shape [m].
    height : float
        The most its box may be high [m]; `inf` for no limit.

    Returns
    -------
    (width, angle) or None
        The width [m] and the turn that gives it, in [0, π) [rad], the smallest where several do; None where
        the shape does not come within the height at any turn.

    Source: worked out above; for a rectangle it agrees with the rectangle-in-rectangle condition of W. B.
    Carver (1957; from memory, unverified).
    Checked by: tests/geometry/test_passing.py (Carver's condition, a sweep of angles).
    """
    angles = [0.0, math.pi / 2]
    for p, q in combinations(points, 2):
        v = q - p
        span = float(np.hypot(*v))
        if span < _NOISE:
            continue
        way = math.atan2(v[1], v[0])
        angles += [-way, math.pi / 2 - way]
        if height < span:
            tilt = math.asin(height / span)
            angles += [tilt - way, -tilt - way]
    turns: Array = np.unique(np.round(np.mod(np.array(angles, dtype=np.float64), math.pi), 15))
    box = extents(np.asarray(points), turns)
    fits = box[:, 1] <= height + _NOISE
    if not fits.any():
        return None
    width = float(box[fits, 0].min())
    angle = float(turns[fits][np.argmax(box[fits, 0] <= width + _NOISE)])
    return width, angle
