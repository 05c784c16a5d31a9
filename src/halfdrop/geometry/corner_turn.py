"""The longest rectangle that goes round a right-angled turn: the ladder problem with a depth.

A rectangle of depth d lies in the turn with the ends of its outer long side on the two outer walls, at the
angle α to the wall of the first way. Its inner long side clears the inner corner while its length is at
most

    f(α) = a / sin α + b / cos α − d / (sin α · cos α)

so the longest that goes all the way round is the least of f over 0 < α < 90°. The derivative vanishes where
b sin³α − a cos³α + d cos 2α = 0; for d ≤ min(a, b) that changes its sign once, so the least is found by
bracketing.
"""

from __future__ import annotations

import math
from functools import lru_cache

from scipy.optimize import brentq

#: How near the root is sought to an end of the range [rad]; f is flat to 1e-8 of itself there.
_END = 1e-4


@lru_cache(maxsize=4096)
def longest_round_turn(a: float, b: float, depth: float) -> tuple[float, float]:
    """Return the longest rectangle that is turned round a right-angled corner, and where it is tightest.

    Parameters
    ----------
    a, b : float
        Widths of the first and the second way [m], more than 0.
    depth : float
        Depth of the rectangle [m], 0 to min(a, b).

    Returns
    -------
    length : float
        The longest length [m]; 0 where the depth does not enter one of the ways.
    angle : float
        The angle of the long side to the first way's wall where it is tightest [rad].

    Raises
    ------
    ValueError
        Where a width is not more than 0, or the depth is negative.

    Source: the minimization is worked out above; for depth 0 it is the ladder's (a^(2/3) + b^(2/3))^(3/2), a
    textbook result.
    Checked by: tests/geometry/test_passing.py (the ladder, a sweep of angles, a rectangle laid in the turn).
    """
    if a <= 0 or b <= 0 or depth < 0:
        raise ValueError(
            f"a turn of {a} by {b} and a depth of {depth}: widths are more than 0, a depth at least 0"
        )
    if depth > min(a, b):
        return 0.0, 0.0

    def slope(angle: float) -> float:
        return b * math.sin(angle) ** 3 - a * math.cos(angle) ** 3 + depth * math.cos(2 * angle)

    low, high = _END, math.pi / 2 - _END
    if slope(low) >= 0:
        angle = low
    elif slope(high) <= 0:
        angle = high
    else:
        angle = float(brentq(slope, low, high, xtol=1e-14))
    s, c = math.sin(angle), math.cos(angle)
    return (a * c + b * s - depth) / (s * c), angle
