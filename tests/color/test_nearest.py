"""The nearest of many is never a wrong one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.nearest import Nearest, pairs_within, reach

RNG = np.random.default_rng(11)
MANY = RNG.uniform([5, -90, -90], [98, 90, 90], (5000, 3))


def test_it_is_the_plain_scan() -> None:
    """200 colors, five nearest each, among 5000: rows and differences as a scan of all finds them."""
    wanted = np.concatenate([RNG.uniform([0, -110, -110], [100, 110, 110], (150, 3)), MANY[:50] + 0.01])
    rows, far = Nearest(MANY).search(wanted, 5)
    for color, row, d in zip(wanted, rows, far, strict=True):
        scan = delta_e(color, MANY)
        best = np.argsort(scan, kind="stable")[:5]
        assert row.tolist() == best.tolist()
        assert d.tolist() == scan[best].tolist()


def test_far_from_everything_it_still_is() -> None:
    """A library of a few greens, asked for pink and black: no bound holds, so all are measured."""
    greens = np.array([[50.0, -40, 30], [60, -50, 40], [55, -42, 31]])
    rows, far = Nearest(greens).search([[70, 60, -10], [0, 0, 0]], 9)
    assert rows.shape == far.shape == (2, 3)
    for n, color in enumerate(([70, 60, -10], [0, 0, 0])):
        assert rows[n].tolist() == np.argsort(delta_e(color, greens), kind="stable").tolist()


def test_of_equal_ones_the_first_comes_first() -> None:
    """Twenty swatches of one color come in their order."""
    rows, far = Nearest(np.tile([[50.0, 5, 5]], (20, 1))).search([50, 5, 5], 3)
    assert rows.tolist() == [0, 1, 2]
    assert far.tolist() == [0, 0, 0]


lab = st.tuples(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))


@given(lab, lab)
def test_nothing_within_a_difference_lies_beyond_its_reach(
    one: tuple[float, float, float], two: tuple[float, float, float]
) -> None:
    """The bound the search rests on, for any two colors."""
    difference = delta_e(one, two)
    assert np.linalg.norm(np.subtract(one, two)) <= float(reach(np.hypot(one[1], one[2]), difference))


def test_the_reach_holds_for_near_pairs_everywhere() -> None:
    """200 000 pairs a little apart, blues among them, where the rotation term works hardest."""
    one = RNG.uniform([0, -128, -128], [100, 128, 128], (200_000, 3))
    two = one + RNG.normal(0, 3, one.shape)
    far = np.linalg.norm(one - two, axis=1)
    assert (far <= reach(np.hypot(one[:, 1], one[:, 2]), delta_e(one, two))).all()


def test_pairs_are_those_of_a_plain_scan() -> None:
    """All pairs of 300 colors within 4."""
    few = MANY[:300] * 0.4 + 20
    i, j = np.triu_indices(300, 1)
    close = delta_e(few[i], few[j]) <= 4
    assert close.sum() > 20
    assert pairs_within(few, 4).tolist() == np.stack([i[close], j[close]], axis=1).tolist()
    assert pairs_within(few[:1], 4).shape == (0, 2)


def test_nothing_to_search_is_refused() -> None:
    """An empty library, and none asked for."""
    with pytest.raises(InputError, match="no swatches"):
        Nearest(np.empty((0, 3)))
    with pytest.raises(InputError, match="allowed is 1 and above"):
        Nearest(MANY).search([50, 0, 0], 0)
