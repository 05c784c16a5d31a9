"""Light reflectance values against lightness."""

from __future__ import annotations

import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.lrv import lightness_of_lrv, lrv_of_lab, lrv_of_lightness
from tests.color.published import rows


@pytest.mark.parametrize("row", rows("color_lrv.csv"), ids=lambda r: r["lrv"])
def test_the_table_comes_out(row: dict[str, str]) -> None:
    """L* of each value to three digits, and back; it is the Y of the color, whatever its hue."""
    lightness = lightness_of_lrv(float(row["lrv"]))
    assert f"{float(lightness):.3f}" == row["lightness"]
    assert lrv_of_lightness(lightness) == pytest.approx(float(row["lrv"]), abs=1e-9)
    assert lrv_of_lab([float(lightness), 30, -20]) == pytest.approx(float(row["lrv"]), abs=1e-9)


@pytest.mark.parametrize("value", [-0.1, 100.1, float("nan")])
def test_outside_0_to_100_is_refused(value: float) -> None:
    """No finish reflects less than nothing or more than all."""
    with pytest.raises(InputError, match="allowed is 0 to 100"):
        lightness_of_lrv(value)
    with pytest.raises(InputError, match="allowed is 0 to 100"):
        lrv_of_lightness(value)
