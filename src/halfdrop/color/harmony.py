"""Two-color harmony after Ou and Luo: how well two colors side by side please.

A floor, not an aim: the chromatic part falls as colors differ, so seeking the most leads to two near-identical light colors. It
was found for pairs of equal plain patches on a mid grey.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples
from halfdrop.color.lab import lch_of_lab


@dataclass(frozen=True, eq=False)
class Harmony:
    """Two-color harmony and its parts, each of shape `(...)`.

    Attributes
    ----------
    total : array
        About −2 (not at all) to 2 (very).
    chromatic, lightness, hue : array
        HC, HL, HH; their sum is `total`.
    """

    total: Floats
    chromatic: Floats
    lightness: Floats
    hue: Floats


def harmony(lab1: ArrayLike, lab2: ArrayLike) -> Harmony:
    """Return the harmony of pairs of L* a* b*, broadcast against each other; the order of a pair does not matter.

    Source: Ou and Luo (2006), Color Research and Application 31, 191-204; constants as five public implementations agree on
    them, the paper itself not read. ΔH* is the CIELAB hue difference, not the angle; sines take degrees; the second color's
    chroma is its own: public implementations are wrong in each.

    Checked by: tests/color/test_harmony.py (tests/published/color_harmony.csv).
    """
    first, second = np.broadcast_arrays(triples(lab1, "Lab"), triples(lab2, "Lab"))
    one, two = lch_of_lab(first), lch_of_lab(second)
    apart = one[..., 1] - two[..., 1]
    ab = ((first[..., 1:] - second[..., 1:]) ** 2).sum(axis=-1)
    hue_squared = np.maximum(ab - apart**2, 0.0)
    chromatic = 0.04 + 0.53 * np.tanh(0.8 - 0.045 * np.sqrt(hue_squared + (apart / 1.46) ** 2))
    together, between = one[..., 0] + two[..., 0], np.abs(one[..., 0] - two[..., 0])
    lightness = 0.28 + 0.54 * np.tanh(-3.88 + 0.029 * together) + 0.14 + 0.15 * np.tanh(-2.0 + 0.2 * between)
    hue = _hue_effect(one) + _hue_effect(two)
    return Harmony(chromatic + lightness + hue, chromatic, lightness, hue)


def _hue_effect(lch: Floats) -> Floats:
    """Return HSY of single colors: what hue, and yellow among light colors, add."""
    L, C, h = lch[..., 0], lch[..., 1], lch[..., 2]
    counts = 0.5 + 0.5 * np.tanh(-2.0 + 0.5 * C)
    hue = -0.08 - 0.14 * np.sin(np.radians(h + 50.0)) - 0.07 * np.sin(np.radians(2.0 * h + 90.0))
    away = (90.0 - h) / 10.0
    yellow = (0.22 * L - 12.8) / 10.0 * np.exp(away - np.exp(away))
    effect: Floats = counts * (hue + yellow)
    return effect


def least_harmony(labs: ArrayLike) -> tuple[int, int, float]:
    """Return the pair of colors that harmonize least: which two, and their harmony.

    Raises
    ------
    ValueError
        Where there are fewer than two colors.

    Checked by: tests/color/test_harmony.py.
    """
    colors = triples(labs, "Lab").reshape(-1, 3)
    if len(colors) < 2:
        raise ValueError("harmony takes two colors")
    one, two = np.triu_indices(len(colors), 1)
    found = harmony(colors[one], colors[two]).total
    worst = int(np.argmin(np.round(found, 12)))
    return int(one[worst]), int(two[worst]), float(found[worst])
