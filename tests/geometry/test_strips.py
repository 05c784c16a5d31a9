"""Free strips along a wall, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import box

from halfdrop.geometry.strips import greatest_depth, widest_gap


def test_gap_beside_and_between() -> None:
    """Two boxes 0.4 and 0.5 m wide leave 0.2, 0.7 and 0.2 m of 2 m; the widest is the one between them."""
    shapes = [box(0.2, 0, 0.6, 0.4), box(1.3, 0.1, 1.8, 0.5)]
    width, at = widest_gap((0.0, 2.0), shapes, 0.9)
    assert width == pytest.approx(0.7)
    assert at == pytest.approx((0.6, 1.3))


def test_what_begins_at_the_depth_does_not_count() -> None:
    """A box 0.9 m off the wall leaves all of it free to 0.9 m, none to 0.91."""
    shapes = [box(0, 0.9, 2, 1.4)]
    assert widest_gap((0.0, 2.0), shapes, 0.9)[0] == 2.0
    assert widest_gap((0.0, 2.0), shapes, 0.91)[0] == 0.0
    assert greatest_depth((0.0, 2.0), shapes, 0.76, 1.5) == pytest.approx(0.9, abs=1e-6)


def test_a_turned_box_reaches_its_corner() -> None:
    """A square of 1 m turned by 45° about (1, 1) has its corner 0.2929 m off the wall; deeper the strip
    beside it is what is left.
    """
    shape = rotate(box(0.5, 0.5, 1.5, 1.5), 45)
    assert greatest_depth((0.0, 2.0), [shape], 2.0, 1.0) == pytest.approx(1 - 2**0.5 / 2, abs=1e-3)
    assert widest_gap((0.0, 2.0), [shape], 0.6)[0] == pytest.approx(1 - (0.6 - (1 - 2**0.5 / 2)), abs=1e-3)


@given(
    st.lists(st.tuples(st.floats(0, 2), st.floats(0.1, 1), st.floats(0, 1.2)), max_size=4),
    st.floats(0.3, 1.5),
)
def test_depth_and_width_agree(rows: list[tuple[float, float, float]], width: float) -> None:
    """At the greatest depth for a width there is a gap so wide, and 2 mm deeper there is none (unless all is
    free).
    """
    shapes = [box(x, y, x + w, y + 0.5) for x, w, y in rows]
    depth = greatest_depth((0.0, 2.0), shapes, width, 1.0)
    if depth > 0:
        assert widest_gap((0.0, 2.0), shapes, depth)[0] >= width - 2e-4
    if depth < 1.0 and width <= 2.0:
        assert widest_gap((0.0, 2.0), shapes, depth + 2e-3)[0] < width
