"""Color rendering and temperature of lamps."""

from __future__ import annotations

import pytest

from halfdrop.color.light import light
from halfdrop.color.rendering import rendering
from tests.color.published import rows


@pytest.mark.parametrize("row", rows("color_illuminants.csv"), ids=lambda r: r["light"])
def test_temperature_and_rendering_are_the_published_ones(row: dict[str, str]) -> None:
    """Correlated color temperature to 10 K, Ra to the whole number printed."""
    found = rendering(light(row["light"]))
    assert found.kelvin == pytest.approx(float(row["kelvin"]), abs=10 if float(row["kelvin"]) < 6700 else 40)
    if row["ra"]:
        assert round(found.ra) == pytest.approx(float(row["ra"]), abs=1)


def test_three_bands_flatter_and_strong_red_tells() -> None:
    """A halophosphate tube shows strong red badly (R9 far below 0); a violet-pumped LED shows it well."""
    tube, full = rendering(light("cool white fluorescent")), rendering(light("warm violet LED"))
    assert tube.r9 < -50 < 90 < full.r9
    assert tube.rf < full.rf <= 100
    assert rendering(light("incandescent")).rf == pytest.approx(100, abs=1e-3)
