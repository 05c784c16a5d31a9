"""Lengths, areas, angles, masses and money as people type them: exact inside, the typed text kept.

Values are SI (metres, radians, square metres, kilograms). Inches are exact (25.4 mm): a text is read as a
fraction and becomes a float once, at the end.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import ClassVar, Self

from halfdrop.base.errors import InputError
from halfdrop.base.formats import (
    Marks,
    RoundTo,
    Units,
    format_angle,
    format_area,
    format_length,
    format_mass,
    format_money,
    format_size,
    trimmed,
)
from halfdrop.base.money import Money, sum_money
from halfdrop.base.notation import LONGEST, Notation, normal, read, shown

__all__ = [
    "FOOT",
    "INCH",
    "Angle",
    "Area",
    "Length",
    "Marks",
    "Mass",
    "Money",
    "Quantity",
    "RoundTo",
    "Units",
    "format_angle",
    "format_area",
    "format_length",
    "format_mass",
    "format_money",
    "format_size",
    "parse_size",
    "sum_money",
]

#: One inch and one foot [m], exact by definition.
INCH = 0.0254
FOOT = 0.3048

_IN = Fraction(254, 10000)
_FT = 12 * _IN
_YD = 36 * _IN
_MM = Fraction(1, 1000)
_LB = Fraction(45359237, 100000000)


def _spellings(*rows: tuple[str, Fraction, str]) -> dict[str, tuple[str, Fraction]]:
    return {word: (mark, size) for mark, size, words in rows for word in words.split()}


LENGTH = Notation(
    name="length",
    units=_spellings(
        ("'", _FT, "' ft feet foot"),
        ('"', _IN, "\" '' in inch inches"),
        ("yd", _YD, "yd yds yard yards"),
        ("m", Fraction(1), "m metre metres meter meters"),
        ("cm", 10 * _MM, "cm centimetre centimetres centimeter centimeters"),
        ("mm", _MM, "mm millimetre millimetres millimeter millimeters"),
    ),
    chains=((("'", 1), ('"', 12)),),
    example="write a length as 12' 6 1/2\", 150 1/2 in or 3.81 m",
    bare="write {n}' or {n} in or {metres} m",
    signed=True,
    words={"'": ("foot", "feet"), '"': ("inch", "inches"), "yd": ("yard", "yards")},
)
ANGLE = Notation(
    name="angle",
    units=_spellings(
        ("°", Fraction(1), "° deg degs degree degrees"),
        ("'", Fraction(1, 60), "' min arcmin"),
        ('"', Fraction(1, 3600), "\" '' sec arcsec"),
        ("rad", Fraction(1), "rad radian radians"),
    ),
    chains=((("°", 1), ("'", 60), ('"', 60)),),
    example="write an angle as 89.5°, 89° 30' or 1.57 rad",
    bare="write {n}° or {n} deg",
    signed=True,
    words={"°": ("degree", "degrees"), "'": ("minute", "minutes"), '"': ("second", "seconds")},
)
AREA = Notation(
    name="area",
    units=_spellings(
        ("sq ft", _FT**2, "sqft ft2 sqfoot sqfeet squarefeet squarefoot squareft"),
        ("sq in", _IN**2, "sqin in2 sqinch sqinches squareinch squareinches squarein"),
        ("sq yd", _YD**2, "sqyd yd2 sqyds sqyard sqyards squareyard squareyards squareyd"),
        ("m²", Fraction(1), "m2 sqm squaremetre squaremetres squaremeter squaremeters"),
        ("cm²", (10 * _MM) ** 2, "cm2 sqcm"),
        ("mm²", _MM**2, "mm2 sqmm"),
    ),
    example="write an area as 12 sq ft or 1.1 m²",
    bare="write {n} sq ft or {n} m²",
)
MASS = Notation(
    name="mass",
    units=_spellings(
        ("lb", _LB, "lb lbs pound pounds"),
        ("oz", _LB / 16, "oz ounce ounces"),
        ("kg", Fraction(1), "kg kilogram kilograms kilo kilos"),
        ("g", _MM, "g gram grams"),
    ),
    chains=((("lb", 1), ("oz", 16)),),
    example="write a mass as 12 lb 4 oz or 5.5 kg",
    bare="write {n} lb or {n} kg",
    words={"lb": ("pound", "pounds"), "oz": ("ounce", "ounces")},
)


class Quantity(float):
    """A number in SI that remembers the text a person typed.

    Arithmetic on it gives plain floats: a computed number was typed by nobody.

    Parameters
    ----------
    value : float
        In the SI unit of the class; finite.
    text : str, optional
        As typed; made from the value where nobody typed one.

    Raises
    ------
    ValueError
        Where the value is not finite.
    """

    __slots__ = ("text",)
    notation: ClassVar[Notation]
    text: str

    def __new__(cls, value: float, text: str | None = None) -> Self:
        if not math.isfinite(value):
            raise ValueError(f"{cls.__name__} must be finite, not {value}")
        self = super().__new__(cls, value)
        self.text = cls.print(value) if text is None else text
        return self

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read a typed text; the text is kept as it was typed.

        Raises
        ------
        InputError
            Where it is no such quantity, with a hint what to write.
        """
        value, mark = read(text, cls.notation)
        return cls(cls._si(value, mark), text)

    @classmethod
    def print(cls, value: float) -> str:
        """Return the canonical text of a value, which `parse` reads back."""
        raise TypeError(
            f"{cls.__name__} has no notation of its own: make a Length, an Angle, an Area or a Mass"
        )

    @classmethod
    def _si(cls, value: Fraction, mark: str | None) -> float:
        return float(value)

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"

    def __reduce__(self) -> tuple[type[Self], tuple[float, str]]:
        return type(self), (float(self), self.text)


class Length(Quantity):
    """A length [m]: `12' 6 1/2"`, `12ft 6-1/2in`, `150.5 in`, `3.81 m`, `3,81 m`; printed to 0.1 mm."""

    __slots__ = ()
    notation = LENGTH

    @classmethod
    def print(cls, value: float) -> str:
        """Return the length in millimetres, to 0.1 mm."""
        return f"{trimmed(value * 1000, 1)} mm"


class Angle(Quantity):
    """An angle [rad]: `90°`, `89.5 deg`, `89° 30'`, `1.57 rad`; printed to 0.0001°."""

    __slots__ = ()
    notation = ANGLE

    @classmethod
    def print(cls, value: float) -> str:
        """Return the angle in degrees, to 0.0001°."""
        return f"{trimmed(math.degrees(value), 4)}°"

    @classmethod
    def _si(cls, value: Fraction, mark: str | None) -> float:
        return float(value) if mark == "rad" else math.radians(float(value))


class Area(Quantity):
    """An area [m²]: `12 sq ft`, `12 ft²`, `1.1 m2`, `3 sq yd`; printed to 1 cm²."""

    __slots__ = ()
    notation = AREA

    @classmethod
    def print(cls, value: float) -> str:
        """Return the area in square metres, to 0.0001 m²."""
        return f"{trimmed(value, 4)} m²"


class Mass(Quantity):
    """A mass [kg]: `5.5 kg`, `800 g`, `12 lb`, `12 lb 4 oz`; printed to 1 g."""

    __slots__ = ()
    notation = MASS

    @classmethod
    def print(cls, value: float) -> str:
        """Return the mass in kilograms, to 0.001 kg."""
        return f"{trimmed(value, 3)} kg"


_SIZE_SIGN = re.compile(r"\s*(?:[x×]|\bby\b)\s*", re.IGNORECASE)
_LAST_UNIT = re.compile(r"[0-9]\s*('{1,2}|\"|[a-z]+\.?)$", re.IGNORECASE)


def parse_size(text: str) -> tuple[Length, Length]:
    """Read a size of two measures, in the order typed: `8x10 ft`, `8' 6" × 11'`, `240 x 340 cm`.

    A first measure without a unit takes the second one's, where that has only one.

    Raises
    ------
    InputError
        Where it is not two positive lengths.
    """
    example = "write a size as 8x10 ft, 8' 6\" x 11' or 240 x 340 cm"
    if len(text) > 2 * LONGEST:
        raise InputError(f"size `{shown(text)}` is {len(text)} characters long", hint=example)
    parts = _SIZE_SIGN.split(normal(text))
    if len(parts) != 2:
        raise InputError(f"size `{shown(text)}` has {len(parts)} measures, 2 are wanted", hint=example)
    first, second = parts
    unit = _LAST_UNIT.search(second)
    if re.fullmatch(r"[0-9./, -]+", first) and unit and re.fullmatch(r"[0-9./, -]+", second[: unit.start(1)]):
        first = f"{first} {unit[1]}" if unit[1][0].isalpha() else first + unit[1]
    width, length = Length.parse(first), Length.parse(second)
    if min(width, length) <= 0:
        raise InputError(f"size `{shown(text)}` has a measure that is not above 0", hint=example)
    return width, length
