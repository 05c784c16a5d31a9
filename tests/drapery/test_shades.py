"""Roller and roman shades: what is ordered and what is cut."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery.shades import inside_width, roller_inside, roller_outside, roman_cut, roman_flat
from tests.drapery.tables import IN, US, rows


@pytest.mark.parametrize("row", rows("shades"), ids=lambda row: f"{row['width']} x {row['length']}")
def test_a_flat_roman_is_cut_as_published(row: dict[str, str]) -> None:
    """35 by 35¼ in is cut 39 by 40¼ in."""
    cut = roman_cut(float(row["width"]) * IN, float(row["length"]) * IN, US)
    assert cut == pytest.approx((float(row["cut_width"]) * IN, float(row["cut_length"]) * IN))


def test_an_inside_shade_takes_the_smallest_of_three() -> None:
    """36, 35 15/16 and 36 1/8 in: 35 7/8 in are ordered, rounded down to 1/8; nobody deducts twice."""
    answer = inside_width([36 * IN, 35.9375 * IN, 36.125 * IN], US, depth=2 * IN)
    assert answer.width / IN == pytest.approx(35.875)
    assert (answer.square, answer.deep) == (True, True)


def test_an_opening_out_of_square_or_shallow_takes_none() -> None:
    """½ in of run is still allowed, more is not; 1½ in of recess is needed."""
    assert inside_width([36 * IN, 36.5 * IN], US).square
    assert not inside_width([36 * IN, 36.52 * IN], US).square
    assert not inside_width([36 * IN], US, depth=1.4 * IN).deep
    assert not roller_inside([36 * IN], US, depth=1.4 * IN).fits


def test_roller_cloth_is_narrower_than_its_opening() -> None:
    """1 1/8 in less than the 36 in ordered; outside 2 in past each side."""
    inside = roller_inside([36 * IN], US)
    assert (inside.ordered / IN, inside.cloth / IN, inside.gap / IN) == pytest.approx((36, 34.875, 1.125))
    assert inside.fits
    assert roller_outside(36 * IN, US).ordered / IN == pytest.approx(40)


@given(st.floats(0.3, 3), st.floats(0.4, 3))
def test_a_roman_shade_adds_up(width: float, length: float) -> None:
    """Heading, folds and skirt are its length; rings run from edge to edge no farther apart than a fold; raised it is shorter."""
    shade = roman_flat(width, length, US)
    head = US.length("drapery.roman_heading")
    assert head + shade.folds * shade.panel + shade.skirt == pytest.approx(length)
    assert shade.rings[0] == pytest.approx(width - shade.rings[-1])
    gaps = [b - a for a, b in zip(shade.rings, shade.rings[1:], strict=False)]
    assert max(gaps) <= US.length("drapery.roman_fold") + 1e-5
    assert shade.stack < length


def test_no_opening_no_shade() -> None:
    """No width is given; a shade too short for a fold."""
    with pytest.raises(InputError, match="clear width"):
        inside_width([], US)
    with pytest.raises(InputError, match="no room for a fold"):
        roman_flat(1.0, 0.2, US)
