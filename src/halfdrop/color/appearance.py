"""CIECAM16: how a color looks in its surroundings, under the light that is there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats, triples
from halfdrop.color.science import science
from halfdrop.color.white import D65

Surround = Literal["average", "dim", "dark"]


@dataclass(frozen=True, eq=False)
class Appearance:
    """Correlates of appearance, each of shape `(...)`.

    Attributes
    ----------
    lightness, chroma, hue : array
        J, C, h [degrees]: against a white in the same light.
    brightness, colorfulness, saturation : array
        Q, M, s: absolute; they fall as the light goes.
    quadrature : array
        H: 0 red, 100 yellow, 200 green, 300 blue, 400 red.
    """

    lightness: Floats
    chroma: Floats
    hue: Floats
    brightness: Floats
    colorfulness: Floats
    saturation: Floats
    quadrature: Floats


def appearance(
    xyz: ArrayLike,
    white: ArrayLike = D65,
    *,
    luminance: float,
    background: float = 20.0,
    surround: Surround = "average",
) -> Appearance:
    """Return how colors look.

    Parameters
    ----------
    xyz : array, shape (..., 3)
        Y of white = 100.
    white : array, shape (3,)
        XYZ of white under the light.
    luminance : float
        Of the field the eye is adapted to [cd/m²], above 0; a fifth of that of white where nothing better is known.
    background : float
        Y of what lies round it, above 0 to 100.
    surround : str
        "average", "dim" or "dark".

    Raises
    ------
    InputError
        Where luminance or background is out of its range.

    Source: CIE 248:2022; Li et al. (2017), Color Research and Application 42, 703-718; by way of colour-science.

    Checked by: tests/color/test_appearance.py.
    """
    if not luminance > 0.0:
        raise InputError(f"luminance is {luminance:g} cd/m²; allowed is above 0")
    if not 0.0 < background <= 100.0:
        raise InputError(f"background has Y {background:g}; allowed is above 0 to 100")
    package = science()
    conditions = package.VIEWING_CONDITIONS_CIECAM16[surround.capitalize()]
    found = package.XYZ_to_CIECAM16(
        triples(xyz, "XYZ"), triples(white, "white"), luminance, background, conditions
    )
    parts = (found.J, found.C, found.h, found.Q, found.M, found.s, found.H)
    return Appearance(*(np.asarray(part, dtype=np.float64) for part in parts))
