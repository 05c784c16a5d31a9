"""Free strips of floor along a wall: how wide at a given depth, how deep at a given width."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely.geometry import Polygon

from halfdrop.base.tolerance import SAME

Span = tuple[float, float]


def widest_gap(span: Span, shapes: Sequence[Polygon], depth: float) -> tuple[float, Span]:
    """Return the widest part of a span before which the floor is free to a depth.

    Parameters
    ----------
    span : (float, float)
        From where to where along the wall [m].
    shapes : sequence of Polygon
        What stands there, in the wall's frame [m]: x along it, y off it.
    depth : float
        How far off the wall the floor has to be free [m]; what begins at that depth or beyond does not count.

    Returns
    -------
    width, (low, high)
        The widest free part [m] and where it lies; 0 where none is free.
    """
    low, high = span
    taken = []
    for shape in shapes:
        part = shapely.clip_by_rect(shape, low, -10.0, high, depth - SAME)
        if not part.is_empty and part.area > 0:
            taken.append((part.bounds[0], part.bounds[2]))
    best, at = 0.0, (low, low)
    here = low
    for start, end in [*sorted(taken), (high, high)]:
        if start - here > best:
            best, at = start - here, (here, start)
        here = max(here, end)
    return best, at


def greatest_depth(span: Span, shapes: Sequence[Polygon], width: float, most: float) -> float:
    """Return the greatest depth, up to `most` [m], to which a strip of a width within a span is free, by bisection.

    Checked by: tests/geometry/test_strips.py.
    """
    if widest_gap(span, shapes, most)[0] >= width - SAME:
        return most
    low, high = 0.0, most
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if widest_gap(span, shapes, middle)[0] >= width - SAME else (low, middle)
    return max(low - SAME, 0.0)
