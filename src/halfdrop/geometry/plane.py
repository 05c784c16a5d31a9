"""Small vector and polygon functions on the plan [m]."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Point, Polygon
from shapely.ops import nearest_points

Array = NDArray[np.float64]
XY = tuple[float, float]


def xy(x: float, y: float) -> Array:
    """Return a plan point as an array (2,) [m]."""
    return np.array((x, y), dtype=float)


def turned(v: Array, angle: float) -> Array:
    """Turn vectors (..., 2) counterclockwise by `angle` [rad]."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(np.asarray(v) @ np.array(((c, s), (-s, c))))


def left_of(v: Array) -> Array:
    """Return the vector turned a quarter counterclockwise."""
    return np.array((-v[1], v[0]))


def heading(v: Array) -> float:
    """Return the angle of a vector from the x axis [rad], in (-π, π]."""
    return math.atan2(v[1], v[0])


def rectangle(width: float, depth: float) -> Array:
    """Corners (4, 2) of a rectangle about the origin, counterclockwise from its back left corner."""
    w, d = width / 2, depth / 2
    return np.array(((-w, -d), (w, -d), (w, d), (-w, d)))


def ellipse(width: float, depth: float, segments: int = 64) -> Array:
    """Corners (segments, 2) of an ellipse about the origin.

    The polygon is drawn through points of the curve, so a chord lies inside it by at most
    r (1 - cos(π/segments)): 0.6 mm for a radius of 0.5 m and 64 segments.
    """
    t = np.arange(segments) * (2 * math.pi / segments)
    return np.column_stack((np.cos(t) * width / 2, np.sin(t) * depth / 2))


def placed(local: Array, center: Array, angle: float) -> Array:
    """Turn local points (..., 2) by `angle` [rad] and shift them to `center` [m]."""
    return turned(local, angle) + center


def closest(a: Polygon, b: Polygon) -> tuple[Array, Array, float]:
    """Return the closest points of two shapes and their distance [m]; where they touch or overlap it is 0."""
    p, q = nearest_points(a, b)
    return xy(p.x, p.y), xy(q.x, q.y), math.hypot(p.x - q.x, p.y - q.y)


def point(p: Array) -> Point:
    """Return an array (2,) as a shapely point."""
    return Point(float(p[0]), float(p[1]))


def span_along(points: Array, origin: Array, direction: Array) -> tuple[float, float]:
    """Return least and greatest coordinate of points (n, 2) along a unit direction from `origin` [m]."""
    t = (np.asarray(points) - origin) @ direction
    return float(t.min()), float(t.max())


def snapped_turn(angle: float) -> float:
    """Return the angle brought into [0, 2π) [rad], multiples of a quarter turn made exact."""
    quarter = math.pi / 2
    nearest = round(angle / quarter) * quarter
    if abs(angle - nearest) < 1e-9:
        angle = nearest
    return angle % (2 * math.pi)
