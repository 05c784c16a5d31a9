"""What a change of mind may be expected to cost: by hand, by simulation, and rising with what makes it dearer."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.color.change_of_mind import chance_in, change_of_mind, resale
from halfdrop.practice import load_practice

US = load_practice("us")


def test_two_years_by_hand() -> None:
    """Over two years at 12 % a year: 0.12 × (1000 − 270) + 0.1056 × (1000 − 229.5), the loud one fetching six tenths."""
    practice = US.shifted("color.mind_horizon", -8)
    found = change_of_mind(1000.0, practice)
    assert found.years == 2
    assert found.loud == pytest.approx(0.12 * (1000 - 270) + 0.12 * 0.88 * (1000 - 229.5))
    assert found.quiet == pytest.approx(0.04 * (1000 - 450) + 0.04 * 0.96 * (1000 - 382.5))
    assert found.accents_expected == pytest.approx(80 * (1 - 0.88**2))


def test_expectation_agrees_with_a_simulation() -> None:
    """A hundred thousand lives of a sofa, drawn year by year, cost on the mean what the formula says."""
    rng = np.random.default_rng(5)
    years = rng.geometric(float(US.number("color.tire_loud")), 100_000)
    found = change_of_mind(1000.0, US)
    lost = np.where(
        years <= found.years,
        1000.0 - float(US.number("color.resale_loud")) * 1000.0 * 0.45 * 0.85 ** (years - 1.0),
        0.0,
    )
    assert lost.mean() == pytest.approx(found.loud, rel=0.01)
    assert (years <= found.years).mean() == pytest.approx(found.tired[0], abs=0.01)


def test_chances_add_to_the_chance_by_then() -> None:
    """The chances of the single years add to that of having tired by the last."""
    assert sum(chance_in(t, 0.12) for t in range(1, 11)) == pytest.approx(1 - 0.88**10)


@given(st.floats(1, 1e6))
def test_loud_costs_more_than_quiet_and_all_grow_with_the_price(price: float) -> None:
    """A loud piece is dearer to tire of than a quiet one, at any price, in proportion to it."""
    found = change_of_mind(price, US)
    assert found.loud > found.quiet > 0
    assert found.loud / price == pytest.approx(change_of_mind(1.0, US).loud)
    assert resale(price, 1, US) > resale(price, 5, US)


@pytest.mark.parametrize(
    ("key", "delta", "sign"),
    [
        ("color.tire_loud", 0.05, 1),
        ("color.resale_first", 0.1, -1),
        ("color.resale_loud", 0.1, -1),
        ("color.mind_horizon", 2, 1),
    ],
)
def test_what_makes_it_dearer(key: str, delta: float, sign: int) -> None:
    """It rises with the chance of tiring and the years, and falls with what a used one fetches."""
    before, after = change_of_mind(1000.0, US), change_of_mind(1000.0, US.shifted(key, delta))
    assert (after.loud - before.loud) * sign > 0


def test_a_price_of_nothing_is_refused() -> None:
    """There is no change of mind about what costs nothing."""
    with pytest.raises(InputError, match="price is 0"):
        change_of_mind(0.0, US)
