"""Money: an exact decimal amount in one currency, as typed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from functools import total_ordering

from halfdrop.base.errors import InputError, near
from halfdrop.base.notation import shown

#: Currency codes in use. Source: ISO 4217 list one (from memory, unverified).
_IN_USE = (
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD "
    "CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD "
    "GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT "
    "LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR "
    "NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP "
    "STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF "
    "XPF YER ZAR ZMW "
)
CODES = frozenset(_IN_USE.split())
_WITHOUT_MINOR = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF"
_WITH_MILS = "BHD IQD JOD KWD LYD OMR TND"

#: The symbol printed before an amount; a currency without one is printed with its code.
SYMBOLS = {
    "USD": "$",
    "EUR": "€",
    "GBP": "£",
    "JPY": "¥",
    "CAD": "CA$",
    "AUD": "A$",
    "NZD": "NZ$",
    "INR": "₹",
    "ILS": "₪",
    "KRW": "₩",
}
_BY_SYMBOL = {symbol: code for code, symbol in SYMBOLS.items()} | {"US$": "USD", "C$": "CAD", "AU$": "AUD"}
_SIGN = re.compile(r"[A-Z]{0,2}[$€£¥₹₪₩]", re.IGNORECASE)
_CODE = re.compile(r"[A-Z]{3}", re.IGNORECASE)
#: Thousands marked alike all through, then perhaps the other mark and decimals; or no thousands marked.
_GROUPED = re.compile(
    r"(?P<whole>[1-9][0-9]{0,2}([.,' ])[0-9]{3}(?:\2[0-9]{3})*)(?:(?!\2)[.,](?P<part>[0-9]+))?"
)
_PLAIN = re.compile(r"(?P<whole>[0-9]+)(?:[.,](?P<part>[0-9]+))?")
_AMOUNT = re.compile(r"[0-9][0-9.,'’\s]*")
_EXAMPLE = "write an amount as $1,250.00, USD 1250 or 1250 EUR"
_LONGEST = 40


def _written(amount: Decimal, currency: str) -> str:
    """Write an amount with its sign where its currency has one (`$83.60`), else with its code; `parse` reads it back."""
    if currency in SYMBOLS:
        return f"{'-' if amount < 0 else ''}{SYMBOLS[currency]}{abs(amount):f}"
    return f"{currency} {amount:f}"


def minor_digits(currency: str) -> int:
    """Return how many decimals an amount of this currency has (ISO 4217)."""
    if currency in _WITHOUT_MINOR.split():
        return 0
    return 3 if currency in _WITH_MILS.split() else 2


@total_ordering
@dataclass(frozen=True, eq=False)
class Money:
    """An amount in one currency.

    Parameters
    ----------
    amount : Decimal
        Exact, finite.
    currency : str
        ISO 4217 code.
    text : str
        As typed; made from the amount where nobody typed one.
    """

    amount: Decimal
    currency: str
    text: str = field(default="")

    def __post_init__(self) -> None:
        if self.currency not in CODES:
            raise InputError(
                f"currency `{shown(self.currency)}` is not known", hint=_currency_hint(self.currency)
            )
        if not self.amount.is_finite():
            raise ValueError(f"an amount must be finite, not {self.amount}")
        if not self.text:
            object.__setattr__(self, "text", _written(self.amount, self.currency))

    @classmethod
    def parse(cls, text: str) -> Money:
        """Read an amount: `$1,250`, `USD 1250`, `1250 EUR`, `€1.250,00`, `£420`.

        Raises
        ------
        InputError
            Where it is not an amount, has no currency or more decimals than its currency.
        """
        if len(text) > _LONGEST:
            raise _fault(text, f"is {len(text)} characters long, at most {_LONGEST} are read")
        found = _AMOUNT.search(text)
        if found is None:
            raise _fault(text, "has no digits")
        before, after = text[: found.start()].strip(), text[found.end() :].strip()
        negative = "-" in before or "−" in before
        around = [part for part in (re.sub(r"[-−\s]+", "", before), after) if part]
        currency = _currency(text, around)
        amount = _amount(text, found[0].strip(), minor_digits(currency))
        return cls(-amount if negative else amount, currency, text)

    def _same(self, other: Money, doing: str) -> None:
        if self.currency != other.currency:
            raise InputError(
                f"`{self.text}` and `{other.text}` cannot be {doing}: {self.currency} and {other.currency}",
                hint=f"give both in {self.currency}",
            )

    def __add__(self, other: Money) -> Money:
        self._same(other, "added")
        return Money(self.amount + other.amount, self.currency)

    def __sub__(self, other: Money) -> Money:
        self._same(other, "subtracted")
        return Money(self.amount - other.amount, self.currency)

    def __mul__(self, count: int) -> Money:
        return Money(self.amount * count, self.currency)

    __rmul__ = __mul__

    def __neg__(self) -> Money:
        return Money(-self.amount, self.currency)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Money):
            return NotImplemented
        return (self.amount, self.currency) == (other.amount, other.currency)

    def __hash__(self) -> int:
        return hash((self.amount, self.currency))

    def __lt__(self, other: Money) -> bool:
        self._same(other, "compared")
        return self.amount < other.amount

    def __str__(self) -> str:
        return self.text


def sum_money(amounts: Iterable[Money], currency: str | None = None) -> Money:
    """Return the sum of amounts of one currency.

    Parameters
    ----------
    amounts : iterable of Money
        May be empty where `currency` is given.
    currency : str, optional
        The currency all of them must have.

    Raises
    ------
    InputError
        Where currencies differ.
    ValueError
        Where there is nothing to sum and no currency.
    """
    items = list(amounts)
    if currency is None:
        if not items:
            raise ValueError("a sum of no amounts needs a currency")
        currency = items[0].currency
    total = Money(Decimal(0), currency)
    for item in items:
        total = total + item
    return total


def _fault(text: str, fault: str, hint: str = _EXAMPLE) -> InputError:
    return InputError(f"amount `{shown(text)}` {fault}", hint=hint)


def _currency_hint(word: str) -> str:
    best = near(word.upper(), CODES)
    return f"did you mean `{best}`?" if best else _EXAMPLE


def _currency(text: str, around: list[str]) -> str:
    if not around:
        raise _fault(text, "has no currency")
    codes = [part.upper() for part in around if _CODE.fullmatch(part)]
    signs = [part.upper() for part in around if _SIGN.fullmatch(part)]
    if len(codes) + len(signs) != len(around) or len(codes) > 1 or len(signs) > 1:
        raise _fault(text, f"is not understood at `{shown(around[-1])}`")
    by_sign = _BY_SYMBOL.get(signs[0]) if signs else None
    if signs and by_sign is None:
        raise _fault(text, f"has an unknown currency sign `{shown(signs[0])}`")
    if codes and codes[0] not in CODES:
        raise _fault(text, f"has an unknown currency `{codes[0]}`", _currency_hint(codes[0]))
    if codes and by_sign and codes[0] != by_sign and not (signs[0] == "$" and codes[0].endswith("D")):
        raise _fault(text, f"has two currencies, {by_sign} and {codes[0]}")
    return codes[0] if codes else by_sign or ""


def _amount(text: str, typed: str, digits: int) -> Decimal:
    number = " ".join(typed.replace("’", "'").split())
    grouped, plain = _GROUPED.fullmatch(number), _PLAIN.fullmatch(number)
    if grouped and plain and digits == 3:
        if "," in number:
            hint = f"write {number.replace(',', '.')} or {number.replace(',', '')}"
            raise _fault(text, f"can be read two ways: `{number}`", hint)
        grouped = None
    if grouped:
        whole, part = re.sub(r"[^0-9]", "", grouped["whole"]), grouped["part"]
    elif plain:
        whole, part = plain["whole"], plain["part"]
    else:
        raise _fault(text, f"is not understood at `{shown(number)}`")
    if part and len(part) > digits:
        raise _fault(text, f"has {len(part)} decimals; the currency has {digits}")
    return Decimal(f"{whole}.{part}" if part else whole)
