"""Weights of cloth: read as mills write them, printed and read back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.cloth import OUNCE_PER_SQUARE_YARD, ClothWeight, format_cloth_weight
from halfdrop.base.errors import InputError


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("320 g/m²", 320),
        ("320 gsm", 320),
        ("320 g / sq m", 320),
        ("0,32 kg/m2", 320),
        ("9.4 oz/sq yd", 9.4 * 33.90575),
        ("9.4 oz per sq. yd", 9.4 * 33.90575),
        ("1 oz/ft2", 305.1517),
    ],
)
def test_weights_are_read_as_mills_write_them(text: str, grams: float) -> None:
    """Grams a square meter, ounces a square yard; the text is kept."""
    weight = ClothWeight.parse(text)
    assert float(weight) * 1000 == pytest.approx(grams, rel=1e-6)
    assert weight.text == text


@pytest.mark.parametrize("text", ["", "320", "320 g", "320 g/m3", "-3 gsm", "heavy", "1 gsm " + "x" * 90])
def test_what_is_no_weight_of_cloth_is_refused_with_an_example(text: str) -> None:
    """The message shows what was typed and the hint what to write."""
    with pytest.raises(InputError, match="cloth weight") as caught:
        ClothWeight.parse(text)
    assert caught.value.hint


@given(st.floats(0.001, 3))
def test_what_is_printed_is_read_back(weight: float) -> None:
    """To what is printed: 0.05 g/m², half a gram or 0.05 oz."""
    assert float(ClothWeight.parse(ClothWeight.print(weight))) == pytest.approx(weight, abs=6e-5)
    assert float(ClothWeight.parse(format_cloth_weight(weight, "metric"))) == pytest.approx(weight, abs=6e-4)
    ounces = format_cloth_weight(weight, "imperial")
    assert float(ClothWeight.parse(ounces)) == pytest.approx(weight, abs=0.051 * OUNCE_PER_SQUARE_YARD)
