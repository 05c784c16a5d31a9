"""Pairs that match under one light and part company under another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.base.errors import InputError
from halfdrop.color.adapt import adapted
from halfdrop.color.arrays import Floats
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_xyz
from halfdrop.color.light import Light
from halfdrop.color.nearest import pairs_within
from halfdrop.color.seen import lab_under, reflectances
from halfdrop.color.swatch import How, Swatch


@dataclass(frozen=True)
class Parting:
    """Two swatches that match by one light and not by another.

    Attributes
    ----------
    first, second : int
        Which of the swatches.
    matched, parted : float
        CIEDE2000 under the light they match by, and under the other.
    how : str
        "measured" where both reflectances are; with an estimated one it is a warning, not a proof.
    """

    first: int
    second: int
    matched: float
    parted: float
    how: How


def parting_pairs(
    swatches: Sequence[Swatch], day: Light, evening: Light, *, match: float = 2.0, part: float = 3.0
) -> tuple[Parting, ...]:
    """Return pairs that match by `day` and part by `evening`, the worst first.

    Two swatches both known only by coordinates get the smoothest reflectance each, so they hardly ever part: a pair needs
    at least one measured spectrum to be found.

    Parameters
    ----------
    match : float
        Differ by this much or less by day [CIEDE2000], above 0: 2 is close. Common practice, no source.
    part : float
        Differ by this much or more of an evening [CIEDE2000], above `match`. Our choice, no source.

    Raises
    ------
    InputError
        Where `part` is not above `match`, or `match` not above 0.

    Checked by: tests/color/test_metamers.py.
    """
    if not 0.0 < match < part:
        raise InputError(f"match {match:g} and part {part:g}: wanted is 0 < match < part")
    if len(swatches) < 2:
        return ()
    spectra = reflectances(swatches)
    by_day, by_lamp = lab_under(spectra, day), lab_under(spectra, evening)
    pairs = pairs_within(by_day, match)
    one, two = pairs[:, 0], pairs[:, 1]
    matched, parted = delta_e(by_day[one], by_day[two]), delta_e(by_lamp[one], by_lamp[two])
    found = [
        Parting(int(i), int(j), float(m), float(p), _how(swatches[i], swatches[j]))
        for i, j, m, p in zip(one, two, matched, parted, strict=True)
        if p >= part
    ]
    return tuple(sorted(found, key=lambda pair: (-pair.parted, pair.first, pair.second)))


def metamerism_index(first: Floats, second: Floats, reference: Light, test: Light) -> float:
    """Return how far two reflectances part under `test`, what differs under `reference` taken off [CIEDE2000].

    Parameters
    ----------
    first, second : array, shape (81,)
        Reflectances on the grid.

    Source: CIE 15:2018, 9.2 (special metamerism index, change in illuminant), multiplicative correction, in CIEDE2000.

    Checked by: tests/color/test_metamers.py.
    """
    ratio = (first @ reference.weights) / np.maximum(second @ reference.weights, 1e-9)
    matched = lab_under(first, test)
    corrected = lab_of_xyz(adapted((second @ test.weights) * ratio, test.white))
    return float(delta_e(matched, corrected))


def _how(*pair: Swatch) -> How:
    return "measured" if all(s.how == "measured" for s in pair) else "estimated"
