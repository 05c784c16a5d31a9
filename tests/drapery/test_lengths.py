"""Finished lengths over floors that run off, by length style."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery import drop_at, finished_lengths
from halfdrop.job.treatments import LengthStyle
from tests.drapery.tables import IN, US


@pytest.mark.parametrize(
    ("style", "length"),
    [("clear", 95.625), ("kiss", 95.875), ("break", 97.5), ("puddle", 102), ("apron", 100), ("sill", 95.625)],
)
def test_each_style_ends_where_it_should(style: Any, length: float) -> None:
    """96 in of drop: 3/8 clear, 1/8 for a kiss, 1½ and 6 in on the floor; 4 in below the sill, 3/8 above it."""
    answer = finished_lengths([(0, 96 * IN)], [(0, 1)], style, US)
    assert answer.longest / IN == pytest.approx(length)
    assert answer.panels[0].left == answer.panels[0].right


def test_an_uneven_floor_is_followed_at_each_end() -> None:
    """The floor falls ½ in over 8 ft: the left panel is shorter at its outer edge, the right one longer."""
    drops = [(0.0, 96 * IN), (48 * IN, 96.25 * IN), (96 * IN, 96.5 * IN)]
    left, right = finished_lengths(drops, [(0, 48 * IN), (48 * IN, 96 * IN)], "clear", US).panels
    assert [x / IN + 0.375 for x in (left.left, left.right, right.left, right.right)] == pytest.approx(
        [96, 96.25, 96.25, 96.5]
    )


def test_a_floor_that_is_level_enough_is_not_followed() -> None:
    """1/32 in is not sewn: both ends take the least drop, so that the hem does not drag."""
    drops = [(0.0, 96.03 * IN), (2.0, 96 * IN)]
    answer = finished_lengths(drops, [(0, 2)], "clear", US)
    assert answer.panels[0].left == answer.panels[0].right == pytest.approx(95.625 * IN)
    assert answer.working.steps[-1].result == "level"


def test_a_sheer_behind_is_shorter() -> None:
    """3/8 in less at the hem."""
    answer = finished_lengths([(0, 96 * IN)], [(0, 1)], "clear", US, shorter=0.375 * IN)
    assert answer.longest / IN == pytest.approx(95.25)


def test_a_drop_between_two_points_lies_on_their_line() -> None:
    """Halfway is halfway; beyond the last point it stays."""
    points = [(2.0, 2.6), (0.0, 2.5)]
    assert [drop_at(x, points) for x in (-1.0, 1.0, 3.0)] == pytest.approx([2.5, 2.55, 2.6])


def test_no_drop_is_no_length() -> None:
    """Nothing measured, or a sill above the rod: refused."""
    with pytest.raises(InputError, match="no drop"):
        finished_lengths([], [(0, 1)], "clear", US)
    with pytest.raises(InputError, match="panel 1 would be"):
        finished_lengths([(0, -0.1)], [(0, 1)], "sill", US)


@given(
    st.lists(
        st.tuples(st.floats(0, 5), st.floats(1.5, 3.5)), min_size=1, max_size=3, unique_by=lambda p: p[0]
    ),
    st.tuples(st.floats(-1, 6), st.floats(-1, 6)),
    st.sampled_from(get_args(LengthStyle)),
)
def test_hung_cloth_keeps_its_distance_from_every_floor(
    drops: list[tuple[float, float]], panel: tuple[float, float], style: Any
) -> None:
    """At each edge the hem is off the floor, or on it, by the style's own figure, or by less than what is not followed."""
    answer = finished_lengths(drops, [panel], style, US).panels[0]
    flat = finished_lengths([(0, 2.0)], [(0, 1)], style, US).longest - 2.0
    for x, length in zip(panel, (answer.left, answer.right), strict=True):
        miss = drop_at(x, drops) + flat - length
        assert -1e-9 <= miss < US.length("drapery.floor_run_least")
