"""Munsell notation, both ways."""

from __future__ import annotations

import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.adapt import adapted
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import xyz_of_lab
from halfdrop.color.munsell import lab_of_munsell, lrv_of_value, munsell_of_lab
from halfdrop.color.white import D65, white_point
from tests.color.published import rows


@pytest.mark.parametrize("row", rows("color_munsell_value.csv"), ids=lambda r: r["value"])
def test_values_come_out(row: dict[str, str]) -> None:
    """The quintic to four digits; the 1943 table stands on another white and is 2.57 % higher."""
    assert f"{lrv_of_value(float(row['value'])):.4f}" == row["lrv"]


@pytest.mark.parametrize("row", rows("color_munsell.csv"), ids=lambda r: r["notation"])
def test_the_renotation_comes_out_and_comes_back(row: dict[str, str]) -> None:
    """Chromaticity and Y under illuminant C as printed; the notation comes back from Lab."""
    lab = lab_of_munsell(row["notation"])
    x, y, z = adapted(xyz_of_lab(lab), D65, white_point("C"))
    total = x + y + z
    printed = [float(row[k]) for k in ("x", "y", "Y")]
    assert [x / total, y / total, y / 100] == pytest.approx(printed, abs=6e-5)
    back = munsell_of_lab(lab)
    assert float(delta_e(lab, lab_of_munsell(back))) < 0.3


def test_a_notation_comes_back_as_it_was_written() -> None:
    """5R 5/10 → Lab → 5R 5/10; lower case and loose spaces are read."""
    assert munsell_of_lab(lab_of_munsell("5R 5/10")) == "5R 5/10"
    assert lab_of_munsell(" 5r 5 / 10 ") == pytest.approx(lab_of_munsell("5R 5/10"))


@pytest.mark.parametrize("text", ["red", "5R", "5R 5/60", "5R 12/2", "5Q 5/5", "", "N 11"])
def test_what_is_no_notation_is_refused(text: str) -> None:
    """A word, half a notation, or a chip that there is not."""
    with pytest.raises(InputError, match="Munsell"):
        lab_of_munsell(text)


def test_a_color_no_surface_has_is_refused() -> None:
    """A dark color of chroma 150 has no notation."""
    with pytest.raises(InputError, match="has no Munsell notation"):
        munsell_of_lab([30, 140, 60])
    with pytest.raises(InputError, match="allowed is 0 to 10"):
        lrv_of_value(11)
