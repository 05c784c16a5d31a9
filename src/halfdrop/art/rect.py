"""An upright rectangle on a wall, seen from the room: x from the wall's left end, y up from the floor."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from halfdrop.base.tolerance import SAME

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle from its left bottom (x0, y0) to its right top (x1, y1) [m]."""

    x0: float
    y0: float
    x1: float
    y1: float

    @classmethod
    def about(cls, center: Point, width: float, height: float) -> Rect:
        """Return the rectangle of this size [m] about its middle."""
        x, y = center
        return cls(x - width / 2, y - height / 2, x + width / 2, y + height / 2)

    @classmethod
    def round_all(cls, rects: Iterable[Rect]) -> Rect:
        """Return the least rectangle round all of them (one at least)."""
        all_ = list(rects)
        return cls(
            min(r.x0 for r in all_),
            min(r.y0 for r in all_),
            max(r.x1 for r in all_),
            max(r.y1 for r in all_),
        )

    @property
    def width(self) -> float:
        """Width [m]."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Height [m]."""
        return self.y1 - self.y0

    @property
    def center(self) -> Point:
        """Middle [m]."""
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    def moved(self, dx: float, dy: float) -> Rect:
        """Return it moved to the right and up [m]."""
        return Rect(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def mirrored(self, axis: float = 0.0) -> Rect:
        """Return its mirror image about the upright line x = `axis` [m]."""
        return Rect(2 * axis - self.x1, self.y0, 2 * axis - self.x0, self.y1)

    def upside_down(self) -> Rect:
        """Return its mirror image about the floor line."""
        return Rect(self.x0, -self.y1, self.x1, -self.y0)

    def grown(self, by: float) -> Rect:
        """Return it larger by this much on every side, smaller where negative [m]."""
        return Rect(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def apart(self, other: Rect) -> tuple[float, float]:
        """Return the gaps across and up [m]; negative is how far the two share that direction."""
        return (
            max(self.x0, other.x0) - min(self.x1, other.x1),
            max(self.y0, other.y0) - min(self.y1, other.y1),
        )

    def gap(self, other: Rect) -> float:
        """Return the shortest way between their edges [m]; 0 where they touch or overlap."""
        dx, dy = self.apart(other)
        return math.hypot(max(dx, 0.0), max(dy, 0.0))

    def holds(self, x: float, y: float) -> bool:
        """Return whether a point lies in it, its edges too."""
        return self.x0 - SAME <= x <= self.x1 + SAME and self.y0 - SAME <= y <= self.y1 + SAME

    def within(self, other: Rect) -> bool:
        """Return whether it lies wholly in another, arithmetic noise aside."""
        return other.holds(self.x0, self.y0) and other.holds(self.x1, self.y1)
