"""Weights of cloth as mills label them: `320 g/m²`, `320 gsm`, `9.4 oz/sq yd`."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Self

from halfdrop.base.errors import InputError
from halfdrop.base.formats import Units, trimmed
from halfdrop.base.notation import LONGEST, Notation, normal, read, shown
from halfdrop.base.units import Quantity

_OUNCE = Fraction(45359237, 16 * 10**8)
_SQUARE_FOOT = Fraction(3048, 10000) ** 2
#: One ounce a square yard [kg/m²].
OUNCE_PER_SQUARE_YARD = float(_OUNCE / (9 * _SQUARE_FOOT))

_NOTATION = Notation(
    name="cloth weight",
    units={
        word: (mark, size)
        for mark, size, words in (
            ("g/m²", Fraction(1, 1000), "gsm gperm2 gpersqm"),
            ("kg/m²", Fraction(1), "kgperm2 kgpersqm"),
            ("oz/sq yd", _OUNCE / (9 * _SQUARE_FOOT), "ozpersqyd ozperyd2"),
            ("oz/sq ft", _OUNCE / _SQUARE_FOOT, "ozpersqft ozperft2"),
        )
        for word in words.split()
    },
    example="write the weight of a cloth as 320 g/m² or 9.4 oz/sq yd",
    bare="write {n} g/m² or {n} oz/sq yd",
)
_PER = re.compile(r"([A-Za-z]+)\.?\s*(?:/|\bper\b)\s*(sq\.?\s*)?([A-Za-z]+[2²]?)")


class ClothWeight(Quantity):
    """The mass of a square of cloth [kg/m²]; printed to 0.1 g/m²."""

    __slots__ = ()
    notation = _NOTATION

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read a typed weight of cloth.

        Raises
        ------
        InputError
            Where it is none, with a hint what to write.
        """
        if len(text) > LONGEST:
            raise InputError(
                f"cloth weight `{shown(text)}` is {len(text)} characters long", hint=_NOTATION.example
            )
        joined = _PER.sub(lambda m: f"{m[1]}per{'sq' if m[2] else ''}{m[3]}", normal(text), count=1)
        try:
            value, _ = read(joined, _NOTATION)
        except InputError as error:
            raise InputError(error.message.replace(shown(joined), shown(text)), hint=error.hint) from None
        return cls(float(value), text)

    @classmethod
    def print(cls, value: float) -> str:
        """Return the weight in grams a square meter, to 0.1 g."""
        return f"{trimmed(value * 1000, 1)} g/m²"


def format_cloth_weight(x: float, units: Units) -> str:
    """Print a weight of cloth [kg/m²] in ounces a square yard to 0.1, or in whole grams a square meter."""
    if units == "imperial":
        return f"{trimmed(x / OUNCE_PER_SQUARE_YARD, 1)} oz/sq yd"
    return f"{trimmed(x * 1000, 0)} g/m²"
