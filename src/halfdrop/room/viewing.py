"""How far to sit from a 16:9 screen, by the angle it fills.

A screen of diagonal `d` is `0.8716 d` wide (16 over the root of 16² + 9²). Seen square on from a distance `r`
it fills
the angle `2 atan(0.8716 d / 2 r)`.
"""

from __future__ import annotations

import math

#: Width of a 16:9 screen over its diagonal.
WIDTH_16_9 = 16 / math.hypot(16, 9)


def screen_distance(diagonal: float, angle: float) -> float:
    """Return the distance from which a screen fills an angle [m].

    Parameters
    ----------
    diagonal : float
        Of a 16:9 screen [m], more than 0.
    angle : float
        Field it fills from left to right edge [rad], between 0 and π.

    Raises
    ------
    ValueError
        Where the angle is not between 0 and π.

    Source: geometry; the angles stand in practice (`seating.screen_angle_*`).
    Checked by: tests/published/screen_distance.csv.
    """
    if not 0 < angle < math.pi:
        raise ValueError(f"a screen fills an angle between 0 and π rad, not {angle:g}")
    return WIDTH_16_9 * diagonal / (2 * math.tan(angle / 2))


def screen_angle(diagonal: float, distance: float) -> float:
    """Return the angle a 16:9 screen of this diagonal fills from a distance, seen square on [rad].

    Source: the same.
    Checked by: tests/published/screen_distance.csv.
    """
    return 2 * math.atan2(WIDTH_16_9 * diagonal / 2, distance)


def look_up(center_height: float, eye_height: float, distance: float) -> float:
    """Return how far a seated person looks up to a screen's center [rad]; negative is down.

    Source: geometry.
    Checked by: tests/audit/cases/seating.screen-height.yaml.
    """
    return math.atan2(center_height - eye_height, distance)
