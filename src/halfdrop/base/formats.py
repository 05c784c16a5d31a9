"""Printing quantities for people: rounded once, in a stated direction, in the units of the job.

Whatever is printed here with plain or typographic marks, `base.units` reads back.
"""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from halfdrop.base.money import SYMBOLS, Money, minor_digits

Units = Literal["imperial", "metric"]
RoundTo = Literal["nearest", "up", "down"]
Marks = Literal["typographic", "plain"]

#: A value this near to a printed step [steps] stands on it: arithmetic noise never costs a whole step.
NOISE = Fraction(1, 10**5)

_GLYPHS = {
    Fraction(1, 2): "½",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
}


def trimmed(value: float, digits: int) -> str:
    """Return `value` to at most `digits` decimals, without trailing zeros and never `-0`."""
    text = f"{value:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def steps(value: float, step: Fraction, round_to: RoundTo = "nearest") -> int:
    """Return how many whole `step` stand for `value`, rounded in the direction asked for.

    `up` is towards plus infinity, `down` towards minus infinity; `nearest` takes halves away from zero.
    """
    count = Fraction(value) / step
    nearest = math.floor(abs(count) + Fraction(1, 2)) * (-1 if count < 0 else 1)
    if round_to == "nearest" or abs(count - nearest) <= NOISE:
        return nearest
    return math.ceil(count) if round_to == "up" else math.floor(count)


def format_length(
    x: float,
    units: Units,
    *,
    step: Fraction | float | None = None,
    round_to: RoundTo = "nearest",
    marks: Marks = "typographic",
    feet: bool = True,
    zero_inches: bool = False,
    unit: Literal["mm", "cm", "m"] | None = None,
) -> str:
    """Print a length.

    Parameters
    ----------
    x : float
        Length [m].
    units : {"imperial", "metric"}
        The job's units.
    step : Fraction or float, optional
        Finest step printed: in inches for imperial (default 1/16), in millimetres for metric (default 1).
    round_to : {"nearest", "up", "down"}
        `up` is towards plus infinity.
    marks : {"typographic", "plain"}
        `12′ 6½″` or `12' 6 1/2"`.
    feet : bool
        False prints inches only, as the workrooms write them: `150 1/2 in`.
    zero_inches : bool
        True prints whole feet as drawings do: `12′ 0″`.
    unit : {"mm", "cm", "m"}, optional
        Metric unit; by default millimetres under 10 m, metres from there.
    """
    return _length(x, units, step, round_to, marks, feet, zero_inches, unit)


@lru_cache(maxsize=1 << 14)
def _length(
    x: float,
    units: Units,
    step: Fraction | float | None,
    round_to: RoundTo,
    marks: Marks,
    feet: bool,
    zero_inches: bool,
    unit: Literal["mm", "cm", "m"] | None,
) -> str:
    """Print a length; the same few are printed over and over while remedies are proven."""
    minus = "−" if marks == "typographic" else "-"
    if units == "metric":
        size = Fraction(step).limit_denominator(10**6) if step is not None else Fraction(1)
        count = steps(x, size / 1000, round_to)
        return (minus if count < 0 else "") + _metric(abs(count) * size, unit)
    size = Fraction(step).limit_denominator(10**6) if step is not None else Fraction(1, 16)
    count = steps(x, size * Fraction(254, 10000), round_to)
    return (minus if count < 0 else "") + _imperial(abs(count) * size, marks, feet, zero_inches)


def _metric(mm: Fraction, unit: Literal["mm", "cm", "m"] | None) -> str:
    unit = unit or ("mm" if mm < 10_000 else "m")
    scale, digits = {"mm": (1, 3), "cm": (10, 4), "m": (1000, 6)}[unit]
    return f"{trimmed(float(mm / scale), digits)} {unit}"


def _imperial(inches: Fraction, marks: Marks, feet: bool, zero_inches: bool) -> str:
    foot, inch = ("′", "″") if marks == "typographic" else ("'", '"')
    if not feet:
        return f"{_mixed(inches, marks)} in"
    whole, left = divmod(inches, 12)
    if not whole:
        return _mixed(left, marks) + inch
    if not left and not zero_inches:
        return f"{whole}{foot}"
    lead = "0" if 0 < left < 1 and marks == "typographic" else "0 " if 0 < left < 1 else ""
    if lead == "0" and left not in _GLYPHS:
        lead = "0 "
    return f"{whole}{foot} {lead}{_mixed(left, marks)}{inch}"


def _mixed(value: Fraction, marks: Marks) -> str:
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    if marks == "plain":
        return f"{whole} {part}" if whole else str(part)
    if part in _GLYPHS:
        return f"{whole or ''}{_GLYPHS[part]}"
    fraction = f"{part.numerator}⁄{part.denominator}"
    return f"{whole} {fraction}" if whole else fraction


def format_size(width: float, length: float, units: Units, *, marks: Marks = "typographic") -> str:
    """Print a made size [m] as the trade does: `8 × 10 ft`, `8′ 6″ × 11′`, `240 × 340 cm`."""
    sign = "×" if marks == "typographic" else "x"
    if units == "metric":
        a, b = (trimmed(steps(v, Fraction(1, 1000)) / 10, 1) for v in (width, length))
        return f"{a} {sign} {b} cm"
    sixteenths = [steps(v, Fraction(254, 160000)) for v in (width, length)]
    if all(n % 192 == 0 for n in sixteenths):
        return f"{sixteenths[0] // 192} {sign} {sixteenths[1] // 192} ft"
    return f" {sign} ".join(format_length(v, "imperial", marks=marks) for v in (width, length))


def format_area(x: float, units: Units, *, digits: int = 1, round_to: RoundTo = "nearest") -> str:
    """Print an area [m²] in square feet or square metres to `digits` decimals."""
    size = Fraction(9290304, 10**8) if units == "imperial" else Fraction(1)
    text = _decimal(x, size, digits, round_to)
    return f"{text} sq ft" if units == "imperial" else f"{text} m²"


def format_angle(x: float, *, digits: int = 1, round_to: RoundTo = "nearest") -> str:
    """Print an angle [rad] in degrees to `digits` decimals: `89.5°`."""
    return f"{_decimal(math.degrees(x), Fraction(1), digits, round_to)}°"


def format_mass(x: float, units: Units, *, round_to: RoundTo = "nearest") -> str:
    """Print a mass [kg]: pounds and ounces to 1 oz, or kilograms to 0.1 kg (grams under 1 kg)."""
    if units == "metric":
        grams = steps(x, Fraction(1, 1000), round_to)
        return f"{grams} g" if 0 < abs(grams) < 1000 else f"{_decimal(x, Fraction(1), 1, round_to)} kg"
    ounces = steps(x, Fraction(45359237, 16 * 10**8), round_to)
    pounds, left = divmod(abs(ounces), 16)
    text = " ".join(part for part in (f"{pounds} lb" if pounds else "", f"{left} oz" if left else "") if part)
    return ("-" if ounces < 0 else "") + (text or "0 lb")


def _decimal(value: float, size: Fraction, digits: int, round_to: RoundTo) -> str:
    count = steps(value, size / 10**digits, round_to)
    return trimmed(float(Fraction(count, 10**digits)), digits)


def format_money(money: Money, *, cents: bool | None = None) -> str:
    """Print an amount: `$1,250`, `$1,250.50`, `CHF 1,250`.

    Parameters
    ----------
    money : Money
        What to print.
    cents : bool, optional
        True always prints the minor unit, False rounds it away; by default it is printed
        where it is not zero.
    """
    digits = minor_digits(money.currency)
    minor = cents if cents is not None else money.amount % 1 != 0 or digits > 2
    amount = abs(money.amount).quantize(Decimal(1).scaleb(-digits if minor else 0))
    sign = "-" if money.amount < 0 and amount else ""
    symbol = SYMBOLS.get(money.currency)
    lead = symbol if symbol else f"{money.currency} "
    return f"{sign}{lead}{amount:,}"
