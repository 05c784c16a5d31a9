"""What an outline looks like."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings

from halfdrop.survey.outline import cross, crossings, interior_angles, signed_area, spans_inside

from .rooms import outlines

SQUARE = np.array([(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)])


@settings(deadline=None)
@given(outlines())
def test_interior_angles_of_an_outline_add_up(xy: np.ndarray) -> None:
    """(n - 2) times 180 degrees, whichever corners turn in; the mirror image has the rest of 360."""
    angles = interior_angles(xy)
    assert angles.sum() == pytest.approx((len(xy) - 2) * np.pi)
    np.testing.assert_allclose(interior_angles(xy * (-1, 1)), 2 * np.pi - angles)


def test_the_sense_of_an_outline_is_the_sign_of_its_area() -> None:
    """Counterclockwise is positive; many outlines are done at once."""
    np.testing.assert_allclose(signed_area(np.stack((SQUARE, SQUARE[::-1]))), (4.0, -4.0))


def test_crossing_walls_are_found_and_touching_ends_are_none() -> None:
    """A bow tie crosses at its two long walls; walls that share a corner do not cross."""
    assert crossings(SQUARE) == []
    assert crossings(SQUARE[[0, 2, 1, 3]]) == [(0, 2)]
    a, b, c = np.array((0.0, 0.0)), np.array((1.0, 1.0)), np.array((2.0, 0.0))
    assert not cross(a, b, b, c)
    assert cross(a, b, np.array((0.0, 1.0)), np.array((1.0, 0.0)))


def test_a_span_may_bear_on_a_corner_but_not_leave_the_room() -> None:
    """A tape past a corner by less than the slack is taped; one through the wall is not."""
    room = np.array([(0, 0), (4, 0), (4, 3), (2, 3), (2, 1.52), (0, 1.5)])
    assert spans_inside(room, slack=0.03)[3, 4]
    assert spans_inside(room, slack=0.03)[1, 5]
    assert not spans_inside(room, slack=0.03)[3, 5]
    assert not spans_inside(room, slack=0.03)[2, 5]
