"""Made sizes, up and down."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.tolerance import SAME
from halfdrop.practice import load_practice
from halfdrop.rugs import Box, MadeSize, made_sizes, next_size_down, next_size_up
from halfdrop.rugs.box import lay
from halfdrop.rugs.sizes import Made

US, METRIC = load_practice("us"), load_practice("metric")
FT = 0.3048
side = st.floats(0.05, 6.0)
practices = st.sampled_from([US, METRIC])


@pytest.mark.parametrize("practice", [US, METRIC], ids=["us", "metric"])
@pytest.mark.parametrize("made", ["rectangle", "square", "round", "runner"])
def test_every_kind_has_sizes_in_order(practice: object, made: Made) -> None:
    """Sizes come smallest area first, the shorter side first, none twice."""
    sizes = made_sizes(practice, made)  # type: ignore[arg-type]
    assert list(sizes) == sorted(set(sizes), key=lambda s: (s.area, s.length))
    assert all(0 < s.width <= s.length for s in sizes)


def test_a_size_is_named_as_the_trade_names_it() -> None:
    """8 × 10 ft, 240 × 340 cm, 8′ round, 240 cm round."""
    assert MadeSize("rectangle", 8 * FT, 10 * FT).name("imperial") == "8 × 10 ft"
    assert MadeSize("rectangle", 2.4, 3.4).name("metric") == "240 × 340 cm"
    assert MadeSize("round", 8 * FT, 8 * FT).name("imperial") == "8′ round"
    assert MadeSize("round", 2.4, 2.4).name("metric") == "240 cm round"


def test_a_round_rug_has_a_circle_for_its_area() -> None:
    """Its area is π d² ÷ 4, not its box."""
    assert MadeSize("round", 2.0, 2.0).area == pytest.approx(math.pi)


def test_a_machine_made_rug_runs_short_of_its_name() -> None:
    """An 8 × 10 may be 7 ft 10 in by 9 ft 10 in."""
    assert MadeSize("rectangle", 8 * FT, 10 * FT).actual(US) == pytest.approx((94 * 0.0254, 118 * 0.0254))


def test_the_exact_size_is_its_own_next_size() -> None:
    """A rug of exactly a made size is that size, up and down; a millimeter more is the next one."""
    sizes = made_sizes(US)
    assert next_size_up(8 * FT, 10 * FT, sizes).size.name("imperial") == "8 × 10 ft"  # type: ignore[union-attr]
    assert next_size_down(8 * FT, 10 * FT, sizes).size.name("imperial") == "8 × 10 ft"  # type: ignore[union-attr]
    assert next_size_up(8 * FT + 0.001, 10 * FT, sizes).size.name("imperial") == "9 × 12 ft"  # type: ignore[union-attr]
    assert next_size_down(8 * FT - 0.001, 10 * FT, sizes).size.name("imperial") == "6 × 9 ft"  # type: ignore[union-attr]


def test_too_large_and_too_small_have_no_made_size() -> None:
    """Past the largest and below the smallest there is none, and that is the answer."""
    assert next_size_up(20 * FT, 20 * FT, made_sizes(US)) is None
    assert next_size_down(1 * FT, 1 * FT, made_sizes(US)) is None


@given(side, side, practices)
def test_next_size_up_covers_and_none_smaller_does(width: float, length: float, practice: object) -> None:
    """It covers what is asked, and every made size of smaller area does not, either way round."""
    sizes = made_sizes(practice)  # type: ignore[arg-type]
    laid = next_size_up(width, length, sizes)
    for size in sizes:
        if laid is None or size.area < laid.size.area - 1e-9:
            ways = ((size.width, size.length), (size.length, size.width))
            assert not any(a >= width and b >= length for a, b in ways)
    if laid is not None:
        assert laid.across >= width - SAME
        assert laid.along >= length - SAME


@given(side, side, side, practices)
def test_next_size_up_never_shrinks_as_more_is_asked(
    width: float, length: float, more: float, practice: object
) -> None:
    """Monotone: asking for more never gives a smaller rug."""
    sizes = made_sizes(practice)  # type: ignore[arg-type]
    small, large = next_size_up(width, length, sizes), next_size_up(width + more, length, sizes)
    if large is not None:
        assert small is not None
        assert small.size.area <= large.size.area


@given(side, side, practices)
def test_next_size_is_the_same_turned(width: float, length: float, practice: object) -> None:
    """Width and length may be given either way round."""
    sizes = made_sizes(practice)  # type: ignore[arg-type]
    for find in (next_size_up, next_size_down):
        a, b = find(width, length, sizes), find(length, width, sizes)
        assert (a and a.size.area) == (b and b.size.area)


@given(side, side, practices)
def test_next_size_down_fits_and_none_larger_does(width: float, length: float, practice: object) -> None:
    """It lies within what is asked, and every made size of larger area does not."""
    sizes = made_sizes(practice)  # type: ignore[arg-type]
    laid = next_size_down(width, length, sizes)
    for size in sizes:
        if laid is None or size.area > laid.size.area + 1e-9:
            ways = ((size.width, size.length), (size.length, size.width))
            assert not any(a <= width and b <= length for a, b in ways)
    if laid is not None:
        assert laid.across <= width + SAME
        assert laid.along <= length + SAME


@given(side, side, st.floats(0, 3), st.floats(0, 3), st.floats(-4, 4), st.floats(-4, 4))
def test_a_laid_box_goes_as_near_as_it_can_to_where_it_is_wanted(
    a: float, b: float, more_a: float, more_b: float, x: float, y: float
) -> None:
    """Free of a room it always covers, and it lies on the preferred center when it covers from there."""
    wanted = Box.sized(a, b)
    lies = lay(wanted, a + more_a, b + more_b, None, (x, y))
    assert lies is not None
    assert lies.covers(wanted)
    if Box.sized(a + more_a, b + more_b, (x, y)).covers(wanted, same=0.0):
        assert lies.center == pytest.approx((x, y), abs=1e-9)


def test_a_box_wider_than_its_limits_cannot_lie() -> None:
    """A 3 m rug does not go in 2 m of floor."""
    assert lay(Box.sized(1, 1), 3, 1, Box.sized(2, 2)) is None
