"""Volumes and spreads as cans are labeled."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.volume import GALLON, Spread, Volume, format_spread, format_volume


@pytest.mark.parametrize(
    ("text", "liters"),
    [("1 gal", 3.785411784), ("1 qt", 0.946352946), ("5 gallons", 18.92705892), ("2.5 L", 2.5),
     ("2,5 l", 2.5), ("750 ml", 0.75), ("1/2 gal", 1.892705892)],
)  # fmt: skip
def test_a_can_is_read_as_labeled(text: str, liters: float) -> None:
    """A US gallon is 231 cubic inches, a quart its fourth; the text is kept."""
    assert float(Volume.parse(text)) * 1000 == pytest.approx(liters, rel=1e-12)
    assert Volume.parse(text).text == text


@pytest.mark.parametrize(
    ("text", "m2_per_liter"),
    [("1 sq ft/gal", 0.02454), ("400 sq ft/gal", 9.817), ("350 ft2 per gallon", 8.590), ("11 m²/L", 11.0),
     ("11 m2 per litre", 11.0), ("55 m²/5 L", 11.0), ("11,5 m2/l", 11.5)],
)  # fmt: skip
def test_a_spread_is_an_area_over_a_volume(text: str, m2_per_liter: float) -> None:
    """One square foot a US gallon is 0.02454 m²/L, as the trade's tables print it."""
    assert float(Spread.parse(text)) / 1000 == pytest.approx(m2_per_liter, rel=1e-3)


@pytest.mark.parametrize("text", ["400", "400 sq ft", "400 gal/sq ft", "11 m²/0 L", "x/gal", "1/2", "9" * 90])
def test_what_is_no_spread_is_refused_with_a_hint(text: str) -> None:
    """Area and volume are both wanted, in that order."""
    with pytest.raises(InputError) as caught:
        Spread.parse(text)
    assert caught.value.hint


@given(st.integers(1, 100_000))
def test_a_printed_volume_is_read_back(milliliters: int) -> None:
    """The canonical texts of volume and spread read as the same number."""
    volume = Volume(milliliters / 1e6)
    assert float(Volume.parse(volume.text)) == pytest.approx(float(volume))
    spread = Spread(milliliters / 1.0)
    assert float(Spread.parse(spread.text)) == pytest.approx(float(spread))


def test_people_are_told_gallons_or_liters() -> None:
    """Printed in the job's units."""
    assert format_volume(2 * GALLON, "imperial") == "2 gal"
    assert format_volume(0.00764, "metric") == "7.64 L"
    assert format_spread(Spread.parse("375 sq ft/gal"), "imperial") == "375 sq ft/gal"
    assert format_spread(Spread.parse("11 m²/L"), "metric") == "11 m²/L"
