"""Warm or cool: a room's colors by area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.areas import ColorArea, measured
from halfdrop.color.emotion import heat
from halfdrop.color.lab import lch_of_lab
from halfdrop.practice import Practice


@dataclass(frozen=True)
class Temperature:
    """How warm a room's colors are.

    Attributes
    ----------
    mean : float
        Heat against a grey, by area: above 0 warm, below 0 cool.
    warm, cool, neutral : float
        Share of each, 0 to 1; neutral by `color.undertone_from`.
    """

    mean: float
    warm: float
    cool: float
    neutral: float


def temperature(areas: Sequence[ColorArea], practice: Practice) -> Temperature:
    """Return how warm a room's colors are.

    Heat is that of Ou et al. (2004) less a grey's −0.5, so that warm and cool part at hues 140° and 320°.

    Parameters
    ----------
    practice : Practice
        `color.undertone_from`: least chroma that has a temperature.

    Source: Ou et al. (2004), Color Research and Application 29, 232-240.

    Checked by: tests/color/test_measures.py.
    """
    labs, shares = measured(areas)
    above = heat(labs) + 0.5
    colored = lch_of_lab(labs)[:, 1] >= practice.number("color.undertone_from") - 1e-9
    warm = float(shares[colored & (above > 0)].sum())
    cool = float(shares[colored & (above <= 0)].sum())
    return Temperature(float(np.dot(above, shares)), warm, cool, max(1.0 - warm - cool, 0.0))
