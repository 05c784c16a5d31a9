"""Kin colors: those a person takes for one family, a tint and a shade of one hue among them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lch_of_lab
from halfdrop.practice import Practice


def hue_apart(lab1: ArrayLike, lab2: ArrayLike) -> Floats:
    """Return the angle between the hues of pairs of colors [degrees, 0 to 180], broadcast against each other.

    Checked by: tests/color/test_kin.py.
    """
    one, two = lch_of_lab(triples(lab1, "Lab")), lch_of_lab(triples(lab2, "Lab"))
    apart: Floats = np.abs((one[..., 2] - two[..., 2] + 180.0) % 360.0 - 180.0)
    return apart


def chromatic(lab: ArrayLike, practice: Practice) -> np.ndarray:
    """Return which colors have a hue to speak of: chroma above `color.neutral_to`.

    Checked by: tests/color/test_kin.py.
    """
    found: np.ndarray = lch_of_lab(triples(lab, "Lab"))[..., 1] > practice.number("color.neutral_to") + 1e-9
    return found


def kin(lab1: ArrayLike, lab2: ArrayLike, practice: Practice) -> np.ndarray:
    """Return which pairs of colors are kin, broadcast against each other; the order of a pair does not matter.

    They differ by less than `color.family_apart` [CIEDE2000], or both have a hue, these lie within `color.kin_hue` [degrees], and
    the duller has at least `color.kin_chroma` of the other's chroma.

    Source: our choice, no source. Checked by: tests/color/test_kin.py.
    """
    one, two = np.broadcast_arrays(triples(lab1, "Lab"), triples(lab2, "Lab"))
    near = delta_e(one, two) < practice.number("color.family_apart")
    hued = chromatic(one, practice) & chromatic(two, practice)
    chroma = np.stack([lch_of_lab(one)[..., 1], lch_of_lab(two)[..., 1]])
    hued &= chroma.min(axis=0) >= practice.number("color.kin_chroma") * chroma.max(axis=0) - 1e-9
    found: np.ndarray = near | (hued & (hue_apart(one, two) <= practice.number("color.kin_hue") + 1e-9))
    return found
