"""A closed loop of legs with known directions: its misclosure, and the compass rule that shares it out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.errors import InputError


@dataclass(frozen=True)
class Leg:
    """One leg: its name, its azimuth [rad] (clockwise from the y axis), its length [m]."""

    name: str
    azimuth: float
    length: float


@dataclass(frozen=True)
class Closure:
    """How a loop closes.

    Attributes
    ----------
    ex, ey, error : float
        What is left over after the last leg, and its length [m].
    perimeter : float
        The sum of all legs [m].
    corrections : tuple of (name, dx, dy)
        The compass rule's correction of each leg [m].
    points : tuple of (x, y)
        The corrected corners, from (0, 0) [m].
    """

    ex: float
    ey: float
    error: float
    perimeter: float
    corrections: tuple[tuple[str, float, float], ...]
    points: tuple[tuple[float, float], ...]

    @property
    def ratio(self) -> float:
        """Perimeter over misclosure (the 2130 of 1:2130); infinite where the loop closes exactly."""
        return self.perimeter / self.error if self.error > 0 else math.inf


def close_traverse(legs: Sequence[Leg]) -> Closure:
    """Close a loop by the compass rule: each leg takes a share of the misclosure by its length.

    Parameters
    ----------
    legs : sequence of Leg
        At least three, in walking order.

    Returns
    -------
    Closure
        Misclosure, corrections and corrected corners.

    Raises
    ------
    InputError
        Where there are fewer than three legs, or a leg is not longer than 0.

    Source: Bowditch's compass rule, surveying textbooks (from memory, unverified).
    Checked by: tests/published/survey_traverse.csv.
    """
    if len(legs) < 3:
        raise InputError(f"a loop has {len(legs)} legs; at least 3 are needed to close one")
    for leg in legs:
        if not leg.length > 0:
            raise InputError(f"leg {leg.name} is {leg.length:g} m long; allowed is more than 0")
    steps = [(leg.length * math.sin(leg.azimuth), leg.length * math.cos(leg.azimuth)) for leg in legs]
    ex, ey = math.fsum(s[0] for s in steps), math.fsum(s[1] for s in steps)
    perimeter = math.fsum(leg.length for leg in legs)
    corrections, points, x, y = [], [(0.0, 0.0)], 0.0, 0.0
    for leg, (dx, dy) in zip(legs, steps, strict=True):
        share = leg.length / perimeter
        corrections.append((leg.name, -ex * share, -ey * share))
        x, y = x + dx - ex * share, y + dy - ey * share
        points.append((x, y))
    return Closure(ex, ey, math.hypot(ex, ey), perimeter, tuple(corrections), tuple(points[:-1]))
