"""An upright rectangle on the plan, in whatever frame the rug lies square to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from halfdrop.base.tolerance import SAME

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle from (x0, y0) to (x1, y1) [m]."""

    x0: float
    y0: float
    x1: float
    y1: float

    @classmethod
    def sized(cls, across: float, along: float, center: Point = (0.0, 0.0)) -> Box:
        """Return the box of this size about its center [m]."""
        x, y = center
        return cls(x - across / 2, y - along / 2, x + across / 2, y + along / 2)

    @classmethod
    def around(cls, points: Iterable[Point]) -> Box:
        """Return the least box that holds all points (one at least) [m]."""
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))

    @property
    def across(self) -> float:
        """Size along x [m]."""
        return self.x1 - self.x0

    @property
    def along(self) -> float:
        """Size along y [m]."""
        return self.y1 - self.y0

    @property
    def area(self) -> float:
        """Area [m²]."""
        return self.across * self.along

    @property
    def center(self) -> Point:
        """Middle of the box [m]."""
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, counterclockwise [m]."""
        return (self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1)

    def grown(self, by: float) -> Box:
        """Return the box larger by this much on every side (smaller where negative) [m]."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def covers(self, other: Box, same: float = SAME) -> bool:
        """Return whether the other box lies in this one, arithmetic noise aside."""
        return (
            other.x0 >= self.x0 - same
            and other.y0 >= self.y0 - same
            and other.x1 <= self.x1 + same
            and other.y1 <= self.y1 + same
        )

    def overlap(self, other: Box) -> float:
        """Return the area that both boxes cover [m²]."""
        across = min(self.x1, other.x1) - max(self.x0, other.x0)
        along = min(self.y1, other.y1) - max(self.y0, other.y0)
        return max(across, 0.0) * max(along, 0.0)

    def with_points(self, points: Iterable[Point]) -> Box:
        """Return the least box that holds this one and the points."""
        return Box.around([*self.corners, *points])


def lay(
    wanted: Box, across: float, along: float, within: Box | None, prefer: Point | None = None
) -> Box | None:
    """Lay a rectangle so that it covers one box and stays within another.

    Parameters
    ----------
    wanted : Box
        What it has to cover.
    across, along : float
        Its size along x and y [m].
    within : Box, optional
        What it may not leave.
    prefer : tuple of float, optional
        Where its center would best be [m]; by default over the middle of `wanted`. It goes as near as it can.

    Returns
    -------
    Box or None
        None where it cannot do both.
    """
    x, y = prefer or wanted.center
    low_x = _low(wanted.x0, wanted.x1, across, x, (within.x0, within.x1) if within else None)
    low_y = _low(wanted.y0, wanted.y1, along, y, (within.y0, within.y1) if within else None)
    if low_x is None or low_y is None:
        return None
    return Box(low_x, low_y, low_x + across, low_y + along)


def _low(
    lo: float, hi: float, size: float, middle: float, limits: tuple[float, float] | None
) -> float | None:
    """Return the lower end of an interval of `size` that covers lo to hi, within the limits."""
    least, most = hi - size, lo
    if limits:
        least, most = max(least, limits[0]), min(most, limits[1] - size)
    if least > most + SAME:
        return None
    return min(max(middle - size / 2, min(least, most)), max(least, most))
