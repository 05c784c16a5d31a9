"""The same paint by day and by lamp light."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.adapt import adapted, degree_of_adaptation
from halfdrop.color.arrays import Floats, one
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.estimate import estimate
from halfdrop.color.lab import lab_of_xyz, srgb_of_lab
from halfdrop.color.light import Light
from halfdrop.color.swatch import How, Swatch

#: What an eye is settled to [cd/m²]: a fifth of white at 500 lx by day and 150 lx by lamps. Our choice, no source.
DAY, EVENING = 32.0, 10.0


@dataclass(frozen=True)
class Seen:
    """A swatch under one light.

    Attributes
    ----------
    light : str
        The light's name.
    lab : (float, float, float)
        L* a* b* against the light's own white, brought to D65 for an eye wholly settled to it.
    shown : (float, float, float)
        sRGB for an eye settled as far as eyes do: some of the light's own color stays. Held within [0, 1].
    how : str
        "measured" or "estimated" reflectance.
    """

    light: str
    lab: tuple[float, float, float]
    shown: tuple[float, float, float]
    how: How


@dataclass(frozen=True)
class DayAndEvening:
    """A swatch under two lights, and how far it moves between them [CIEDE2000]."""

    day: Seen
    evening: Seen
    moves: float


def reflectances(swatches: Sequence[Swatch]) -> Floats:
    """Return the reflectances of swatches, shape `(n, 81)`; those not measured are estimated in one go."""
    labs = np.array([s.lab for s in swatches], dtype=np.float64).reshape(-1, 3)
    guess = np.array([s.spectrum is None for s in swatches], dtype=bool)
    out = np.array([np.zeros(81) if s.spectrum is None else s.spectrum for s in swatches]).reshape(-1, 81)
    if guess.any():
        out[guess] = estimate(labs[guess]).reflectance
    return out


def lab_under(reflectance: Floats, lamp: Light, degree: float = 1.0) -> Floats:
    """Return L* a* b* (D65) of reflectances seen under a lamp, shape `(..., 3)`.

    Parameters
    ----------
    reflectance : array, shape (..., 81)
        On the grid.
    lamp : Light
        What lights it.
    degree : float
        How far the eye is settled to the lamp, 0 to 1.

    Source: CIE 15:2018, 7 (tristimulus sums), CAT16 to D65.

    Checked by: tests/color/test_seen.py.
    """
    return lab_of_xyz(adapted(reflectance @ lamp.weights, lamp.white, degree=degree))


def seen(swatch: Swatch, lamp: Light, *, luminance: float = EVENING) -> Seen:
    """Return how a swatch is seen under a light.

    Parameters
    ----------
    luminance : float
        What the eye is settled to [cd/m²].

    Checked by: tests/color/test_seen.py.
    """
    spectrum = swatch.reflectance()
    whole = lab_under(spectrum, lamp)
    partly = lab_under(spectrum, lamp, degree_of_adaptation(luminance))
    shown = np.clip(srgb_of_lab(partly), 0.0, 1.0)
    return Seen(lamp.name, one(whole, "Lab"), one(shown, "sRGB"), swatch.how)


def day_and_evening(swatch: Swatch, day: Light, evening: Light) -> DayAndEvening:
    """Return how a swatch is seen by day and of an evening, and how far it moves between them.

    What moves is the color left after the eye has settled to each light; a paint that keeps its color moves by 0.

    Checked by: tests/color/test_seen.py.
    """
    by_day, by_lamp = seen(swatch, day, luminance=DAY), seen(swatch, evening, luminance=EVENING)
    return DayAndEvening(by_day, by_lamp, float(delta_e(by_day.lab, by_lamp.lab)))
