"""Lights by name, by temperature, and as measured."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.grid import WAVELENGTHS, observer, on_grid
from halfdrop.color.light import NAMED, black_body, daylight, lamp, light
from tests.color.published import numbers, rows


@pytest.mark.parametrize("row", rows("color_illuminants.csv"), ids=lambda r: r["light"])
def test_chromaticities_are_the_published_ones(row: dict[str, str]) -> None:
    """x and y of the spectrum, to 1 in the fourth digit (sums at 5 nm)."""
    white = light(row["light"]).white
    assert white[:2] / white.sum() == pytest.approx(numbers(row, "x", "y"), abs=1.5e-4)
    assert white[1] == pytest.approx(100)


def test_every_plain_name_is_a_light() -> None:
    """Each name has a spectrum, and the same light comes back under its CIE name."""
    for name, (cie, what) in NAMED.items():
        assert light(name).what == what
        assert light(name).white == pytest.approx(light(cie).white)


def test_lights_by_temperature() -> None:
    """A body of 2856 K is illuminant A to 2 in a thousand; daylight of 6504 K is D65."""
    assert black_body(2856).white == pytest.approx(light("A").white, abs=0.15)
    assert daylight(6504).white == pytest.approx(light("D65").white, abs=0.15)
    assert black_body(1900).white[2] < black_body(3000).white[2] < black_body(6500).white[2]


def test_a_measured_lamp_is_taken_as_it_is() -> None:
    """A flat spectrum is the equal-energy light, at whatever step it was measured."""
    flat = lamp("flat", [380.0, 400, 420, 440, *range(460, 781, 20)], [2.0] * 21)
    assert flat.white == pytest.approx(light("E").white, abs=1e-9)


def test_the_observer_is_the_standard_one() -> None:
    """At 555 nm the eye's response is 1 by definition; the table has 81 rows."""
    assert observer()[list(WAVELENGTHS).index(555.0), 1] == pytest.approx(1.0, abs=1e-4)
    assert observer().shape == (81, 3)


@pytest.mark.parametrize(
    ("nm", "values", "fault"),
    [
        ([400, 500, 700], [1, 1, 1], "steps of 20 nm"), ([400, 390, 410], [1, 1, 1], "do not rise"),
        (list(range(500, 701, 10)), [1] * 21, "runs from 500 to 700"), ([400, 410], [1, 1, 1], "3,"),
        (list(range(400, 701, 10)), [-1] + [1] * 30, "not 0 or above"),
    ],
)  # fmt: skip
def test_spectra_that_cannot_be_used_are_refused(nm: list[float], values: list[float], fault: str) -> None:
    """Gaps, wrong order, too short a range, negative values."""
    with pytest.raises(InputError, match=fault):
        on_grid(nm, values, "lamp")


def test_unknown_lights_are_refused() -> None:
    """A near name is suggested; a temperature outside the range is said."""
    with pytest.raises(InputError, match="no light `warm led`") as caught:
        light("warm led")
    assert "warm LED" in str(caught.value.hint)
    with pytest.raises(InputError, match="4000 to 25000"):
        daylight(2700)
    with pytest.raises(InputError, match="1000 to 25000"):
        black_body(100)
    with pytest.raises(InputError, match="gives no light"):
        lamp("dead", np.arange(380.0, 781, 10).tolist(), [0.0] * 41)
