"""The largest clear circle: known floors to a fifth of a millimetre, and the same however the floor is turned."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import Point, Polygon, box

from halfdrop.geometry.clear_circle import largest_clear_circle


def test_between_two_blocks() -> None:
    """Between two facing blocks the circle is as wide as the gap."""
    floor, blocks = box(0, 0, 6, 5), [box(2, 0, 4, 1), box(2, 4, 4, 5)]
    diameter, center = largest_clear_circle(floor, blocks, box(2, 1, 4, 4))
    assert diameter == pytest.approx(3.0, abs=4e-4)
    assert center[1] == pytest.approx(2.5, abs=1e-3)


def test_in_a_triangle() -> None:
    """In a 3-4-5 triangle it is the inscribed circle, of diameter 2."""
    floor = Polygon(((0, 0), (4, 0), (0, 3)))
    diameter, center = largest_clear_circle(floor, [], floor)
    assert diameter == pytest.approx(2.0, abs=4e-4)
    assert tuple(center) == pytest.approx((1.0, 1.0), abs=1e-2)


def test_center_stays_where_it_may() -> None:
    """A wider circle elsewhere on the floor does not count: the center stays in its area."""
    floor = box(0, 0, 10, 10)
    assert largest_clear_circle(floor, [], floor)[0] == pytest.approx(10.0, abs=4e-4)
    assert largest_clear_circle(floor, [], box(0, 0, 2, 2))[0] == pytest.approx(4.0, abs=4e-4)


def test_no_place_for_a_center() -> None:
    """Where the area is stood on there is no circle."""
    assert largest_clear_circle(box(0, 0, 4, 4), [box(0, 0, 4, 4)], box(1, 1, 2, 2))[0] == 0.0


@settings(max_examples=40, derandomize=True, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.5, 4.5), st.floats(0.5, 3.5), st.floats(0.2, 0.9)), max_size=4),
    st.floats(0, 360),
)
def test_turning_changes_nothing_and_nothing_is_overlapped(
    squares: list[tuple[float, float, float]], angle: float
) -> None:
    """The circle keeps clear of every block, and a turned floor has the same one."""
    floor = box(0, 0, 5, 4)
    blocks = [box(x - s / 2, y - s / 2, x + s / 2, y + s / 2) for x, y, s in squares]
    diameter, center = largest_clear_circle(floor, blocks, box(1, 1, 4, 3))
    circle = Point(*center).buffer(diameter / 2 - 1e-6, quad_segs=64)
    assert floor.buffer(1e-9).contains(circle)
    assert all(circle.intersection(block).area < 1e-6 for block in blocks)
    turn = [rotate(shape, angle, origin=(0, 0)) for shape in (floor, box(1, 1, 4, 3), *blocks)]
    again, _ = largest_clear_circle(turn[0], turn[2:], turn[1])
    assert math.isclose(again, diameter, abs_tol=8e-4)
