"""CIEDE2000: the published pairs, and what must hold for any pair."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.science import science
from tests.color.published import numbers, rows

PAIRS = rows("color_ciede2000.csv")
lab = st.tuples(st.floats(0, 100), st.floats(-120, 120), st.floats(-120, 120))


@pytest.mark.parametrize("row", PAIRS, ids=lambda r: r["pair"])
def test_every_published_pair_comes_out_both_ways(row: dict[str, str]) -> None:
    """To the four digits printed, in either order."""
    one, two = numbers(row, "L1", "a1", "b1"), numbers(row, "L2", "a2", "b2")
    assert f"{float(delta_e(one, two)):.4f}" == row["difference"]
    assert f"{float(delta_e(two, one)):.4f}" == row["difference"]


def test_all_34_are_there() -> None:
    """The table is whole, pair 14 too."""
    assert [int(row["pair"]) for row in PAIRS] == list(range(1, 35))


def test_pair_14_stands_on_the_right_side_of_its_branch() -> None:
    """Hues 180° apart count as not more than 180: last-digit noise of the coordinates does not flip 4.8045 to 4.7461."""
    base = np.array([50, -0.001, 2.49]), np.array([50, 0.001, -2.49])
    for nudge in (0.0, 2e-16, -2e-16, 1e-15, -1e-15):
        moved = base[0] * (1 + np.array([0, nudge, 0]))
        assert float(delta_e(moved, base[1])) == pytest.approx(4.8045, abs=5e-5)
        assert float(delta_e(base[1], moved)) == pytest.approx(4.8045, abs=5e-5)
    assert float(delta_e([50, -0.001, 2.49], [50, 0.0011, -2.49])) == pytest.approx(4.7461, abs=5e-5)


def test_it_is_the_independent_one_over_random_colors() -> None:
    """200 000 pairs, far and near, against colour-science: to a ten-millionth."""
    rng = np.random.default_rng(20)
    one = rng.uniform([0, -120, -120], [100, 120, 120], (100_000, 3))
    far = rng.uniform([0, -120, -120], [100, 120, 120], (100_000, 3))
    for two in (far, one + rng.normal(0, 0.5, one.shape)):
        theirs = science().delta_E(one, two, method="CIE 2000")
        assert np.abs(delta_e(one, two) - theirs).max() < 1e-7


@given(lab, lab)
def test_order_does_not_matter_and_itself_is_nought(
    one: tuple[float, float, float], two: tuple[float, float, float]
) -> None:
    """The difference is one number whichever comes first, 0 to itself, and never below."""
    there = float(delta_e(one, two))
    assert there >= 0
    assert there == pytest.approx(float(delta_e(two, one)), abs=1e-9)
    assert float(delta_e(one, one)) == 0


def test_shapes_broadcast() -> None:
    """One color against many, and a table against a row."""
    many = np.random.default_rng(1).uniform(0, 60, (9000, 3))
    whole = delta_e(many[0], many)
    assert whole.shape == (9000,)
    assert whole[5000] == delta_e(many[0], many[5000])
    assert delta_e(many[:3, None], many[None, :4]).shape == (3, 4)
    assert delta_e(np.empty((0, 3)), many[0]).shape == (0,)
