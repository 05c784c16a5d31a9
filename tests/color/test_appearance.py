"""CIECAM16 appearance."""

from __future__ import annotations

import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.appearance import appearance


def test_the_worked_example_comes_out() -> None:
    """A near grey under daylight at 318.31 cd/m²: J 41.73, C 0.1034, h 217.07, s 2.345, Q 195.37, M 0.1074, H 275.60.

    Source: worked example of the CAM16 authors, as in colour-science.
    """
    found = appearance([19.01, 20, 21.78], [95.05, 100, 108.88], luminance=318.31)
    assert float(found.lightness) == pytest.approx(41.7312, abs=1e-4)
    assert float(found.chroma) == pytest.approx(0.1034, abs=1e-4)
    assert float(found.hue) == pytest.approx(217.0680, abs=1e-4)
    assert float(found.saturation) == pytest.approx(2.3450, abs=1e-4)
    assert float(found.brightness) == pytest.approx(195.3717, abs=1e-4)
    assert float(found.colorfulness) == pytest.approx(0.1074, abs=1e-4)
    assert float(found.quadrature) == pytest.approx(275.5950, abs=1e-4)


def test_colors_fade_with_the_light() -> None:
    """The same paint is brighter and more colorful by day than of an evening."""
    day = appearance([[30, 25, 10]], luminance=60)
    evening = appearance([[30, 25, 10]], luminance=5, surround="dim")
    assert evening.colorfulness[0] < day.colorfulness[0]
    assert evening.brightness[0] < day.brightness[0]


def test_darkness_is_refused() -> None:
    """No luminance, or a background outside 0 to 100."""
    with pytest.raises(InputError, match="allowed is above 0"):
        appearance([1, 1, 1], luminance=0)
    with pytest.raises(InputError, match="background has Y 0"):
        appearance([1, 1, 1], luminance=10, background=0)
