"""Kin colors: near ones, and tints and shades of one hue."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.color.kin import chromatic, hue_apart, kin
from halfdrop.practice import load_practice

US = load_practice("us")
LAB = st.tuples(st.floats(5, 95), st.floats(-60, 60), st.floats(-60, 60))


def test_a_tint_and_a_shade_are_kin_and_a_neighbor_hue_is_not() -> None:
    """A sky blue is kin to a navy; a blue is none to a red; a white is kin to a near white only."""
    assert bool(kin((85, -2, -14), (30, -4, -35), US))
    assert not bool(kin((40, 0, -40), (40, 40, 20), US))
    assert not bool(kin((80, 2, 16), (88, -6, 77), US)), "oatmeal takes up no lemon"
    assert bool(kin((95, 0, 2), (92, 1, 3), US))
    assert not bool(kin((95, 0, 2), (40, 0, 2), US))


def test_hues_are_kin_up_to_the_value_and_no_further() -> None:
    """Far apart in lightness, 30° of hue are kin and 31° are not."""
    for degrees, same in ((30.0, True), (31.0, False)):
        h = np.radians(degrees)
        assert bool(kin((30, 40, 0), (80, 30 * np.cos(h), 30 * np.sin(h)), US)) is same


def test_a_near_neutral_has_no_hue_to_speak_of() -> None:
    """Chroma 12 is a near-neutral, 12.1 is a color."""
    assert not bool(chromatic((50, 12, 0), US))
    assert bool(chromatic((50, 12.1, 0), US))


@given(LAB, LAB)
def test_kinship_goes_both_ways(one: tuple[float, ...], two: tuple[float, ...]) -> None:
    """The order of a pair does not matter, and each color is kin to itself."""
    assert bool(kin(one, two, US)) == bool(kin(two, one, US))
    assert bool(kin(one, one, US))
    assert 0 <= float(hue_apart(one, two)) <= 180


def test_hues_are_taken_the_short_way_round() -> None:
    """350° and 10° are 20° apart."""
    a = (50, 40 * np.cos(np.radians(350)), 40 * np.sin(np.radians(350)))
    b = (50, 40 * np.cos(np.radians(10)), 40 * np.sin(np.radians(10)))
    assert float(hue_apart(a, b)) == pytest.approx(20)
