"""Cans: enough, at the least price there is."""

from __future__ import annotations

from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.units import Money
from halfdrop.base.volume import GALLON, Volume
from halfdrop.practice import load_practice
from halfdrop.practice.words import Words
from halfdrop.walls import CanSize, cheapest_cans

SAY = Words(load_practice("us"))


def _can(text: str, price: str | None = None) -> CanSize:
    return CanSize(text, Volume.parse(text), Money.parse(price) if price else None)


US = [_can("1 qt", "$24"), _can("1 gal", "$62"), _can("5 gal", "$270")]


@pytest.mark.parametrize(
    ("gallons", "cans", "price"),
    [
        (0.25, {"1 qt": 1}, 24), (0.26, {"1 qt": 2}, 48), (0.6, {"1 gal": 1}, 62), (1.0, {"1 gal": 1}, 62),
        (1.2, {"1 gal": 1, "1 qt": 1}, 86), (4.1, {"5 gal": 1}, 270), (4.0, {"1 gal": 4}, 248),
        (5.3, {"5 gal": 1, "1 qt": 2}, 318), (0, {}, None),
    ],
)  # fmt: skip
def test_the_mix_by_hand(gallons: float, cans: dict[str, int], price: int | None) -> None:
    """Three quarts cost $72, a gallon $62: the gallon. Four gallons and a quart cost $272, five gallons $270: the pail."""
    answer = cheapest_cans(gallons * GALLON, US, SAY)
    assert {can.id: n for can, n in answer.cans} == cans
    assert (answer.cost and answer.cost.amount) == price


def test_without_prices_the_least_is_bought() -> None:
    """0.6 gal of unpriced paint: three quarts hold 0.75 gal, a gallon would leave more over."""
    answer = cheapest_cans(0.6 * GALLON, [_can("1 qt"), _can("1 gal")], SAY)
    assert ({can.id: n for can, n in answer.cans}, answer.by, answer.cost) == ({"1 qt": 3}, "volume", None)


def test_unpriced_cans_stand_back_where_others_are_priced() -> None:
    """A pail without a price is not taken for free."""
    answer = cheapest_cans(5 * GALLON, [_can("1 gal", "$62"), _can("5 gal")], SAY)
    assert {can.id: n for can, n in answer.cans} == {"1 gal": 5}


def test_equal_prices_leave_the_least_over_then_the_fewest_cans() -> None:
    """Two litres at twice the price of one: one can of two litres for two, three litres never."""
    cans = [_can("1 L", "€10"), _can("2 L", "€20"), _can("3 L", "€20")]
    answer = cheapest_cans(2e-3, cans, SAY)
    assert {can.id: n for can, n in answer.cans} == {"2 L": 1}


def test_faults_are_told() -> None:
    """Two currencies, no can, and a lake of paint."""
    with pytest.raises(InputError, match="priced in EUR and USD"):
        cheapest_cans(1e-3, [_can("1 L", "€10"), _can("1 qt", "$9")], SAY)
    with pytest.raises(InputError, match="has no can sizes"):
        cheapest_cans(1e-3, [], SAY)
    with pytest.raises(InputError, match="more than 400 of the smallest can"):
        cheapest_cans(1.0, [_can("1 qt")], SAY)


sizes = st.lists(
    st.tuples(st.sampled_from(["1 L", "2.5 L", "0.75 L", "1 qt", "5 L"]), st.integers(1, 40)),
    min_size=1, max_size=3, unique_by=lambda s: s[0],
)  # fmt: skip


@given(sizes, st.integers(1, 8000))
def test_no_other_mix_is_cheaper(rows: list[tuple[str, int]], milliliters: int) -> None:
    """Against every mix tried one by one: enough is bought, and nothing that is enough costs less."""
    cans = [_can(text, f"€{price}") for text, price in rows]
    wanted = milliliters / 1e6
    answer = cheapest_cans(wanted, cans, SAY)
    assert answer.volume >= wanted - 1e-8
    tried = [
        sum(n * Decimal(price) for n, (_, price) in zip(counts, rows, strict=True))
        for counts in product(*(range(int(wanted / float(can.size)) + 2) for can in cans))
        if sum(n * float(can.size) for n, can in zip(counts, cans, strict=True)) >= wanted - 1e-9
    ]
    assert answer.cost is not None
    assert answer.cost.amount == min(tried)


@given(st.integers(1, 30000), st.integers(0, 3000))
def test_more_paint_never_costs_less(milliliters: int, more: int) -> None:
    """The price rises with the volume or stays."""
    less, larger = (cheapest_cans(v / 1e6, US, SAY).cost for v in (milliliters, milliliters + more))
    assert less is not None
    assert larger is not None
    assert less <= larger
