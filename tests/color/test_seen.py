"""The same paint by day and by lamp."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.light import light
from halfdrop.color.seen import day_and_evening, lab_under, reflectances, seen
from halfdrop.color.swatch import Swatch
from tests.color.charts import chart

NM = np.arange(380.0, 781, 5)
NORTH, WARM = light("north daylight"), light("warm LED")


def test_a_grey_stays_and_a_blue_moves() -> None:
    """A flat grey keeps its color once the eye has settled; a strong blue does not."""
    grey = day_and_evening(Swatch("grey", (60, 0, 0)), NORTH, WARM)
    blue = day_and_evening(Swatch("blue", (40, 5, -45)), NORTH, WARM)
    assert grey.moves < 0.01
    assert blue.moves > 3
    assert blue.day.how == "estimated"
    assert blue.day.light == "north daylight"


def test_an_eye_keeps_some_of_the_lamp() -> None:
    """What is shown of an evening is warmer than by day: more red than blue in a grey."""
    grey = day_and_evening(Swatch("grey", (60, 0, 0)), NORTH, WARM)
    assert grey.evening.shown[0] > grey.evening.shown[2] + 0.02
    assert abs(grey.day.shown[0] - grey.day.shown[2]) < grey.evening.shown[0] - grey.evening.shown[2]


def test_a_measured_spectrum_goes_before_the_estimate() -> None:
    """A measured patch is seen as measured: to the digit, and it says so."""
    for spectrum in chart()[:6]:
        swatch = Swatch.of_spectrum("patch", NM, spectrum)
        found = seen(swatch, WARM)
        assert found.how == "measured"
        assert found.lab == pytest.approx(lab_under(spectrum, WARM), abs=1e-9)


def test_many_are_estimated_at_once() -> None:
    """Measured and estimated swatches keep their order."""
    spectrum = chart()[0]
    mixed = [Swatch("a", (50, 0, 0)), Swatch.of_spectrum("b", NM, spectrum), Swatch("c", (70, 10, 5))]
    found = reflectances(mixed)
    assert found[1] == pytest.approx(spectrum)
    assert float(delta_e(lab_under(found, light("D65"))[2], (70, 10, 5))) < 0.01
    assert reflectances([]).shape == (0, 81)


def test_percent_is_refused() -> None:
    """A reflectance of 80 was meant as 0.8."""
    with pytest.raises(InputError, match=r"allowed is 1\.2"):
        Swatch.of_spectrum("x", NM, np.full(81, 80.0))
