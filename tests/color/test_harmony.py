"""Two-color harmony, against its formula worked by hand and the mistakes others make."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.color.harmony import harmony, least_harmony
from tests.color.published import numbers, rows

lab = st.tuples(st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90))


@pytest.mark.parametrize(
    "row", rows("color_harmony.csv"), ids=lambda r: f"{r['L1']} {r['a1']} {r['b1']} {r['L2']}"
)
def test_each_part_comes_out(row: dict[str, str]) -> None:
    """HC, HL, HH and their sum to five digits."""
    found = harmony(numbers(row, "L1", "a1", "b1"), numbers(row, "L2", "a2", "b2"))
    parts = [float(p) for p in (found.chromatic, found.lightness, found.hue, found.total)]
    assert parts == pytest.approx(numbers(row, "HC", "HL", "HH", "CH"), abs=6e-6)


@given(lab, lab)
def test_the_order_of_a_pair_does_not_matter(
    one: tuple[float, float, float], two: tuple[float, float, float]
) -> None:
    """Taking the second color's chroma from the first would break this."""
    assert float(harmony(one, two).total) == pytest.approx(float(harmony(two, one).total), abs=1e-9)


def test_lighter_pairs_please_more_and_stronger_differences_less() -> None:
    """The lightness part rises with the sum; the chromatic part falls with the difference."""
    sums = [float(harmony([L, 0, 0], [L, 0, 0]).lightness) for L in range(10, 100, 10)]
    assert sums == sorted(sums)
    apart = [float(harmony([60, 10, 0], [60, 10 + d, 0]).chromatic) for d in range(0, 80, 10)]
    assert apart == sorted(apart, reverse=True)


def test_the_least_pair_of_many_is_named() -> None:
    """Of two light creams and two strong opposites, the opposites."""
    one, two, worst = least_harmony([[90, 0, 8], [88, 1, 9], [50, 70, 20], [40, -50, -30]])
    assert (one, two) == (2, 3)
    assert worst == pytest.approx(float(harmony([50, 70, 20], [40, -50, -30]).total))
    with pytest.raises(ValueError, match="two colors"):
        least_harmony([[50, 0, 0]])
    assert harmony(np.zeros((4, 1, 3)), np.zeros((1, 5, 3))).total.shape == (4, 5)
