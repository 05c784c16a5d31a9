"""Walls of a resolved room, and how far the place of a thing is known."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from halfdrop.geometry.plane import Array, left_of


@dataclass(frozen=True, eq=False)
class Wall:
    """One wall between neighboring corners, in walking order.

    Attributes
    ----------
    name : str
        The two corners, in walking order: `AB`.
    start, end : Array (2,)
        The corners [m].
    indices : tuple of int
        Their places in the survey's corner order.
    inward : Array (2,)
        The unit normal into the room.
    """

    name: str
    first: str
    second: str
    start: Array
    end: Array
    indices: tuple[int, int]
    inward: Array

    @cached_property
    def length(self) -> float:
        """Adjusted length [m]."""
        return float(np.hypot(*(self.end - self.start)))

    @cached_property
    def direction(self) -> Array:
        """Unit vector from start to end."""
        return (self.end - self.start) / self.length

    def seen_from(self, corner: str) -> tuple[Array, Array, tuple[int, int]]:
        """Return origin, unit direction and corner indices for measures taken from one of its corners."""
        if corner == self.first:
            return self.start, self.direction, self.indices
        return self.end, -self.direction, (self.indices[1], self.indices[0])

    def off(self, points: Array) -> Array:
        """Return how far points (..., 2) stand off the wall's line, into the room [m]."""
        return np.asarray((np.asarray(points) - self.start) @ self.inward)

    def along(self, points: Array) -> Array:
        """Return how far along the wall points (..., 2) stand, from its start [m]."""
        return np.asarray((np.asarray(points) - self.start) @ self.direction)


@dataclass(frozen=True, eq=False)
class Anchor:
    """What a thing's place was measured from, and how well.

    A thing measured from a wall moves with that wall's corners, and has an error of its own along and off the wall.

    Attributes
    ----------
    indices : tuple of int
        Corner it was measured from, and the corner toward which.
    origin, direction, normal : Array (2,)
        Frame of the measure.
    sigma_along, sigma_off : float
        Standard error of the thing's own measures [m]; 0 for a wall, and off a wall the thing touches.
    key : str
        Two points with the same key belong to one rigid thing.
    """

    key: str
    indices: tuple[int, int]
    origin: Array
    direction: Array
    normal: Array
    span: float
    sigma_along: float
    sigma_off: float

    def row(self, p: Array, e: Array, n: int) -> Array:
        """Return the derivative (2n,) of the coordinate of `p` along unit vector `e` by the corners' coordinates."""
        out = np.zeros(2 * n)
        i, j = self.indices
        s = float((p - self.origin) @ self.direction)
        t = float((p - self.origin) @ self.normal)
        sense = 1.0 if left_of(self.direction) @ self.normal > 0 else -1.0
        # A turn δ of the wall moves the point by δ (s·left - t·sense·direction); δ = left·(dB - dA)/L.
        left = left_of(self.direction)
        turn = (s * float(e @ left) - t * sense * float(e @ self.direction)) / self.span
        out[2 * i : 2 * i + 2] += e - turn * left
        out[2 * j : 2 * j + 2] += turn * left
        return out

    def own_variance(self, e: Array) -> float:
        """Return the variance of the thing's own place along unit vector `e` [m²]."""
        return float(
            (self.sigma_along * (e @ self.direction)) ** 2 + (self.sigma_off * (e @ self.normal)) ** 2
        )


def wall_anchor(wall: Wall) -> Anchor:
    """Return the anchor of a wall itself."""
    return Anchor(
        f"walls/{wall.name}", wall.indices, wall.start, wall.direction, wall.inward, wall.length, 0.0, 0.0
    )


def sigma_between(
    p: Array, a: Anchor, q: Array, b: Anchor, covariance: Array, direction: Array | None = None
) -> float:
    """Return the standard error of the distance from `p` (on thing a) to `q` (on thing b) [m].

    First-order propagation of the survey's covariance and the things' own errors.

    Parameters
    ----------
    p, q : Array (2,)
        Points [m].
    a, b : Anchor
        What each was measured from.
    covariance : Array (2n, 2n)
        Of the corners [m²].
    direction : Array (2,), optional
        Direction in which the distance counts; from p to q where not given (needed where they touch).
    """
    if a.key == b.key:
        return 0.0
    d = q - p
    length = float(np.hypot(*d))
    if direction is None:
        direction = d / length if length > 1e-9 else a.normal
    n = covariance.shape[0] // 2
    row = b.row(q, direction, n) - a.row(p, direction, n)
    variance = float(row @ covariance @ row) + a.own_variance(direction) + b.own_variance(direction)
    return float(np.sqrt(max(variance, 0.0)))
