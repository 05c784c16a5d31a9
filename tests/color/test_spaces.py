"""sRGB, XYZ, Lab and LCh: there and back, and refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import one, triples
from halfdrop.color.lab import lab_of_lch, lab_of_srgb, lab_of_xyz, lch_of_lab, srgb_of_lab, xyz_of_lab
from halfdrop.color.srgb import hex_of_srgb, in_gamut, srgb_of_hex, srgb_of_xyz, xyz_of_srgb
from halfdrop.color.white import D65, white_point

channel = st.floats(0.0, 1.0)
rgb = st.tuples(channel, channel, channel)


@given(rgb)
def test_srgb_comes_back_through_lab_and_lch(color: tuple[float, float, float]) -> None:
    """sRGB → XYZ → Lab → LCh and back changes nothing to nine digits."""
    there = lch_of_lab(lab_of_srgb(color))
    assert srgb_of_lab(lab_of_lch(there)) == pytest.approx(np.array(color), abs=1e-9)
    assert srgb_of_xyz(xyz_of_srgb(color)) == pytest.approx(np.array(color), abs=1e-9)
    assert xyz_of_lab(lab_of_srgb(color)) == pytest.approx(xyz_of_srgb(color), abs=1e-9)


def test_white_is_white_and_black_is_black() -> None:
    """sRGB white is D65 itself: L* 100 with no chroma; black is 0, 0, 0."""
    assert xyz_of_srgb([1, 1, 1]) == pytest.approx(D65, abs=1e-12)
    assert pytest.approx([95.046, 100, 108.906], abs=1e-3) == D65
    assert lab_of_srgb([1, 1, 1]) == pytest.approx([100, 0, 0], abs=1e-12)
    assert lab_of_srgb([0, 0, 0]) == pytest.approx([0, 0, 0], abs=1e-12)


def test_a_hue_runs_round_the_circle_and_a_grey_has_none() -> None:
    """+a is 0°, +b 90°, −a 180°, −b 270°; a grey's hue is 0."""
    labs = [[50, 10, 0], [50, 0, 10], [50, -10, 0], [50, 0, -10], [50, 0, 0], [50, 10, -1e-300]]
    assert lch_of_lab(labs)[:, 2].tolist() == [0, 90, 180, 270, 0, 0]


def test_a_white_given_is_taken() -> None:
    """The same XYZ against print's white is another Lab: D50 itself is white against D50."""
    d50 = white_point("D50")
    assert lab_of_xyz(d50, d50) == pytest.approx([100, 0, 0], abs=1e-12)
    assert abs(lab_of_xyz(d50)[2]) > 10


@pytest.mark.parametrize(
    ("text", "back"),
    [("#8a9a5b", "#8a9a5b"), ("8A9A5B", "#8a9a5b"), (" #fff ", "#ffffff"), ("#000", "#000000")],
)
def test_hex_codes_come_back(text: str, back: str) -> None:
    """Six digits or three, with or without the mark; what a screen cannot show is held at its end."""
    assert hex_of_srgb(srgb_of_hex(text)) == back
    assert hex_of_srgb([1.4, -0.2, 0.5]) == "#ff0080"


@pytest.mark.parametrize("text", ["", "#12", "#12345", "sage", "#12345g", "##123456"])
def test_what_is_no_hex_code_is_refused(text: str) -> None:
    """A word or a wrong number of digits says how to write one."""
    with pytest.raises(InputError, match="is not a hex code") as caught:
        srgb_of_hex(text)
    assert "#8a9a5b" in str(caught.value.hint)


def test_what_a_screen_shows_is_told() -> None:
    """A mid grey lies inside, a green of chroma 130 outside."""
    assert in_gamut(srgb_of_lab([[50, 0, 0], [50, -130, 0]])).tolist() == [True, False]


def test_shapes_are_kept_and_wrong_ones_refused() -> None:
    """(2, 4, 3) stays (2, 4, 3); pairs, words and what is not finite are refused."""
    assert lab_of_srgb(np.full((2, 4, 3), 0.5)).shape == (2, 4, 3)
    for wrong in ([1, 2], 5, "abc", [[1, 2], [3, 4, 5]], [1, 2, math.nan], [1, 2, math.inf]):
        with pytest.raises(InputError):
            triples(wrong, "Lab")
    with pytest.raises(InputError, match="wanted is one color"):
        one([[1, 2, 3]], "Lab")
    with pytest.raises(InputError, match="no white point"):
        white_point("D64")
