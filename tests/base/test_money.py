"""Money as typed, added, compared and printed."""

from __future__ import annotations

import pickle
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.money import CODES, minor_digits
from halfdrop.base.units import Money, format_money, sum_money


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("$1,250", "1250", "USD"),
        ("$1,250.00", "1250", "USD"),
        ("$ 1250.5", "1250.5", "USD"),
        ("USD 1250", "1250", "USD"),
        ("usd 1250", "1250", "USD"),
        ("1250 EUR", "1250", "EUR"),
        ("€1.250,00", "1250", "EUR"),
        ("€1.250", "1250", "EUR"),
        ("1.250.000,5 €", "1250000.5", "EUR"),
        ("1\u00a0250,00 EUR", "1250", "EUR"),
        ("CHF 1'250.00", "1250", "CHF"),
        ("£420", "420", "GBP"),
        ("¥12,000", "12000", "JPY"),
        ("CA$40", "40", "CAD"),
        ("$40 CAD", "40", "CAD"),
        ("KWD 1.250", "1.25", "KWD"),
        ("-$5", "-5", "USD"),
        ("$-5", "-5", "USD"),
        ("−5 EUR", "-5", "EUR"),
    ],
)
def test_an_amount_is_read_with_its_currency(text: str, amount: str, currency: str) -> None:
    """Signs and codes on either side, thousands and decimals marked in either way; the text is kept."""
    money = Money.parse(text)
    assert money == Money(Decimal(amount), currency)
    assert money.text == text


@pytest.mark.parametrize(
    ("text", "fault", "hint"),
    [
        ("1250", "has no currency", "$1,250.00"),
        ("$", "has no digits", "$1,250.00"),
        ("", "has no digits", "$1,250.00"),
        ("$1.2345", "has 4 decimals; the currency has 2", "$1,250.00"),
        ("$0.500", "has 3 decimals; the currency has 2", "$1,250.00"),
        ("¥12.5", "has 1 decimals; the currency has 0", "$1,250.00"),
        ("$12,34,567", "not understood", "$1,250.00"),
        ("$1.250,000.50", "not understood", "$1,250.00"),
        ("$12 50", "not understood", "$1,250.00"),
        ("KWD 1,250", "two ways", "write 1.250 or 1250"),
        ("USX 4", "unknown currency `USX`", "did you mean"),
        ("$40 EUR", "two currencies, USD and EUR", "$1,250.00"),
        ("$$40", "not understood", "$1,250.00"),
        ("1250 bucks", "not understood at `bucks`", "$1,250.00"),
        ("$" + "1" * 50, "51 characters long", "$1,250.00"),
    ],
)
def test_what_is_no_amount_is_refused(text: str, fault: str, hint: str) -> None:
    """Each refusal says what is wrong and how to write it."""
    with pytest.raises(InputError) as caught:
        Money.parse(text)
    assert fault in caught.value.message
    assert hint in (caught.value.hint or "")


@given(st.text(max_size=50))
def test_any_text_is_an_amount_or_an_input_error(text: str) -> None:
    """No text whatever makes the reader fail in any other way."""
    try:
        assert Money.parse(text).text == text
    except InputError:
        return


def test_arithmetic_is_exact_and_stays_in_one_currency() -> None:
    """Ten cents thrice are thirty cents; dollars and euros are never mixed."""
    dime, euro = Money.parse("$0.10"), Money.parse("€1")
    assert dime * 3 == 3 * dime == sum_money([dime, dime, dime]) == Money.parse("$0.30")
    assert (dime - dime * 2) == -dime
    assert dime < dime * 2 <= dime * 2
    assert dime != euro
    for mixed in (lambda: dime + euro, lambda: dime - euro, lambda: dime < euro, lambda: dime >= euro):
        with pytest.raises(InputError, match="USD and EUR"):
            mixed()
    with pytest.raises(InputError, match="USD and EUR"):
        sum_money([dime, euro])


def test_a_sum_of_nothing_needs_its_currency() -> None:
    """Nothing in a known currency is zero; in no currency it is a fault of ours."""
    assert sum_money([], "EUR") == Money(Decimal(0), "EUR")
    with pytest.raises(ValueError, match="currency"):
        sum_money([])


def test_the_text_does_not_count_in_comparing_and_survives_pickle() -> None:
    """The same amount typed twice in different ways is the same money."""
    a, b = Money.parse("$1,250"), Money.parse("USD 1250.00")
    assert a == b
    assert hash(a) == hash(b)
    assert pickle.loads(pickle.dumps(a)).text == "$1,250"
    assert str(a) == "$1,250"


def test_a_currency_that_is_none_is_refused() -> None:
    """An amount in an unknown currency cannot be made."""
    with pytest.raises(InputError, match="`DOLLAR`"):
        Money(Decimal(1), "DOLLAR")
    with pytest.raises(ValueError, match="finite"):
        Money(Decimal("NaN"), "USD")


def test_amounts_print_with_thousands_and_cents_where_they_count() -> None:
    """Cents are printed where they are not zero, or always, or never."""
    assert format_money(Money.parse("$1250")) == "$1,250"
    assert format_money(Money.parse("$1250.5")) == "$1,250.50"
    assert format_money(Money.parse("$1250"), cents=True) == "$1,250.00"
    assert format_money(Money.parse("$1250.50"), cents=False) == "$1,250"
    assert format_money(Money.parse("-CHF 1250")) == "-CHF 1,250"
    assert format_money(Money(Decimal("-0.001"), "USD")) == "$0.00"
    assert format_money(Money(Decimal(12000), "JPY")) == "¥12,000"


@given(st.integers(-(10**12), 10**12), st.sampled_from(sorted(CODES)), st.sampled_from([None, True]))
def test_a_printed_amount_reads_back(count: int, currency: str, cents: bool | None) -> None:
    """Every amount in whole minor units of every currency reads back from its print."""
    money = Money(Decimal(count).scaleb(-minor_digits(currency)), currency)
    assert Money.parse(format_money(money, cents=cents)) == money
