"""Volumes of paint and how far they spread, as cans are labeled: `1 gal`, `2.5 L`, `400 sq ft/gal`, `11 m²/L`."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Self

from halfdrop.base.errors import InputError
from halfdrop.base.formats import Units, trimmed
from halfdrop.base.notation import LONGEST, Notation, normal, shown
from halfdrop.base.units import Area, Quantity

_LITER = Fraction(1, 1000)
#: One US liquid gallon [m³]: 231 cubic inches, exact by definition.
_GALLON = 231 * Fraction(254, 10000) ** 3
#: One litre and one US gallon [m³], and one square foot [m²].
LITER = 1e-3
GALLON = float(_GALLON)
SQUARE_FOOT = 0.3048**2

_UNITS: dict[str, tuple[str, Fraction]] = {
    word: (mark, size)
    for mark, size, words in (
        ("gal", _GALLON, "gal gals gallon gallons"),
        ("qt", _GALLON / 4, "qt qts quart quarts"),
        ("pt", _GALLON / 8, "pt pts pint pints"),
        ("L", _LITER, "l litre litres liter liters"),
        ("mL", _LITER / 1000, "ml millilitre millilitres milliliter milliliters"),
        ("m³", Fraction(1), "cbm cubicmeter cubicmeters cubicmetre cubicmetres"),
    )
    for word in words.split()
}
VOLUME = Notation(
    name="volume",
    units=_UNITS,
    example="write a volume as 1 gal, 1 qt or 2.5 L",
    bare="write {n} gal or {n} L",
)
_PER = re.compile(r"\s+(?:per|a)\s+", re.IGNORECASE)
_SPREAD = "write a spread as 400 sq ft/gal or 11 m²/L"


class Volume(Quantity):
    """A volume [m³]: `1 gal`, `5 gal`, `1 qt`, `2.5 L`, `750 mL`; US liquid gallons; printed to 1 mL."""

    __slots__ = ()
    notation = VOLUME

    @classmethod
    def print(cls, value: float) -> str:
        """Return the volume in litres, to 0.001 L."""
        return f"{trimmed(value * 1000, 3)} L"


class Spread(Quantity):
    """How far paint goes [m² per m³]: `400 sq ft/gal`, `11 m²/L`, `11 m2 per litre`; printed to 0.001 m²/L."""

    __slots__ = ()
    notation = VOLUME

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read an area over a volume.

        Raises
        ------
        InputError
            Where it is not an area over a volume above 0, with a hint what to write.
        """
        if len(text) > LONGEST:
            raise InputError(f"spread `{shown(text)}` is {len(text)} characters long", hint=_SPREAD)
        area, over, volume = (part.strip() for part in _PER.sub("/", normal(text)).rpartition("/"))
        if not over or not area:
            raise InputError(f"spread `{shown(text)}` is not an area over a volume", hint=_SPREAD)
        per = Volume.parse(volume if volume[:1].isdigit() else f"1 {volume}")
        if per <= 0:
            raise InputError(f"spread `{shown(text)}` is over a volume of 0", hint=_SPREAD)
        return cls(float(Area.parse(area)) / float(per), text)

    @classmethod
    def print(cls, value: float) -> str:
        """Return the spread in square metres a litre, to 0.001."""
        return f"{trimmed(value / 1000, 3)} m²/L"


def format_volume(x: float, units: Units, *, digits: int = 2) -> str:
    """Print a volume [m³] in US gallons or litres to `digits` decimals."""
    if units == "imperial":
        return f"{trimmed(x / GALLON, digits)} gal"
    return f"{trimmed(x / LITER, digits)} L"


def format_spread(x: float, units: Units) -> str:
    """Print a spread [m²/m³] in whole square feet a US gallon, or in square metres a litre to 0.1."""
    if units == "imperial":
        return f"{trimmed(x * GALLON / SQUARE_FOOT, 0)} sq ft/gal"
    return f"{trimmed(x * LITER, 1)} m²/L"
