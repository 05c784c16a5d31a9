"""Read one value of practice from what a person wrote."""

from __future__ import annotations

import math
import re
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.base.units import Angle, Area, Length, Mass, Quantity, parse_size
from halfdrop.base.volume import Spread, Volume
from halfdrop.practice.value import Kind, Raw

#: The quantities, in the order their text is tried: `12'` is a length before it is an arc minute.
_QUANTITIES: dict[Kind, type[Quantity]] = {
    "length": Length, "angle": Angle, "area": Area, "mass": Mass, "volume": Volume, "spread": Spread,
}  # fmt: skip

_EXAMPLE: dict[Kind, str] = {
    "length": '"10 in"',
    "angle": '"1.5°"',
    "area": '"12 sq ft"',
    "mass": '"12 lb"',
    "volume": '"1 gal"',
    "spread": '"400 sq ft/gal"',
    "number": "0.67",
    "count": "3",
    "yes or no": "true",
    "text": '"a word"',
    "lengths": '"6 ft, 8 ft"',
    "sizes": '"8x10 ft, 9x12 ft"',
    "box": '"84 x 38 x 34 in"',
}
_BY = re.compile(r"\s*[x×]\s*", re.IGNORECASE)
_UNIT_AT_END = re.compile(r"[^\d\s/.,-]+\s*$")
_COMMA = re.compile(r"\s*;\s*|,\s+")


def kind_of(raw: Raw) -> Kind:
    """Return the kind that a written value has, judged by its text alone."""
    if isinstance(raw, bool):
        return "yes or no"
    if isinstance(raw, int):
        return "count"
    if isinstance(raw, float):
        return "number"
    if not isinstance(raw, str):
        return "sizes" if raw and len(_BY.split(raw[0])) == 2 else "lengths"
    if re.match(r"\s*\d", raw) and len(_BY.split(raw)) == 3:
        return "box"
    for kind, quantity in _QUANTITIES.items():
        try:
            quantity.parse(raw)
        except InputError:
            continue
        return kind
    return "text"


def read_value(raw: Raw, kind: Kind, *, choices: tuple[str, ...] = ()) -> tuple[Any, str]:
    """Return a written value in SI and its text.

    Parameters
    ----------
    raw : str, int, float, bool or list of str
        As written.
    kind : str
        The kind it has to be.
    choices : tuple of str
        For a text: the words allowed (empty: any).

    Raises
    ------
    InputError
        When it is of another kind, negative, not finite, or cannot be read.
    """
    text = written(raw)
    if kind in ("number", "count", "yes or no"):
        return _plain(raw, kind, text), text
    if kind == "text":
        if not isinstance(raw, str) or (choices and raw not in choices):
            words = f"one of {', '.join(choices)}" if choices else "a text"
            example = f'"{choices[0]}"' if choices else _EXAMPLE[kind]
            raise InputError(f"`{text}` is not {words}", hint=f"write it like {example}")
        return raw, text
    if isinstance(raw, int | float) or (not isinstance(raw, str) and kind not in ("lengths", "sizes")):
        raise _wrong(text, kind)
    try:
        if kind in ("lengths", "sizes"):
            return _list(raw, kind, text), text
        if kind == "box":
            return box_of(str(raw)), text
        value = _quantity(str(raw), kind)
    except InputError as error:
        raise InputError(error.message, hint=error.hint or f"write it like {_EXAMPLE[kind]}") from None
    if value < 0:
        raise _negative(text, kind)
    return value, text


def box_of(text: str) -> tuple[Length, Length, Length]:
    """Read `84 x 38 x 34 in`: width, depth and height; the last unit serves those without.

    Raises
    ------
    InputError
        When there are not three lengths above 0.
    """
    parts = _BY.split(text.strip())
    unit = _UNIT_AT_END.search(parts[-1])
    if len(parts) != 3 or unit is None:
        raise InputError(f"`{text}` is not three lengths joined by x with their unit at the end")
    width, depth, height = (
        Length.parse(p if _UNIT_AT_END.search(p) else f"{p} {unit.group().strip()}") for p in parts
    )
    if min(width, depth, height) <= 0:
        raise InputError(f"`{text}` has a side of 0 or less; allowed is more than 0")
    return width, depth, height


def written(raw: Raw) -> str:
    """Return a written value as one text."""
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, int | float):
        return f"{raw:g}"
    return raw if isinstance(raw, str) else ", ".join(raw)


def _quantity(raw: str, kind: Kind) -> Quantity:
    """Read one quantity; where the text is a quantity of another kind, say that it is not this one."""
    try:
        return _QUANTITIES[kind].parse(raw)
    except InputError:
        if kind_of(raw) != "text":
            raise _wrong(raw, kind) from None
        raise


def _list(raw: Raw, kind: Kind, text: str) -> tuple[Any, ...]:
    """Read a list of lengths or sizes, written as a list or as one text with commas."""
    parts = _COMMA.split(raw.strip()) if isinstance(raw, str) else list(raw)  # type: ignore[arg-type]
    values = tuple(Length.parse(p) if kind == "lengths" else parse_size(p) for p in parts)
    if not values or any(isinstance(v, Length) and v <= 0 for v in values):
        raise InputError(f"`{text}` is not a list of {kind} above 0")
    return values


def _plain(raw: Raw, kind: Kind, text: str) -> float | bool:
    """Return a number, a count or a yes or no, which are written as they are, not as text."""
    if kind == "yes or no":
        if not isinstance(raw, bool):
            raise _wrong(text, kind)
        return raw
    if isinstance(raw, bool) or not isinstance(raw, int | float) or not math.isfinite(raw):
        raise _wrong(text, kind)
    if raw < 0:
        raise _negative(text, kind)
    if kind == "count":
        if raw != int(raw):
            raise _wrong(text, kind)
        return int(raw)
    return float(raw)


def _wrong(text: str, kind: Kind) -> InputError:
    article = "an" if kind in ("angle", "area") else "a"
    what = f"a list of {kind}" if kind in ("lengths", "sizes") else f"{article} {kind}"
    return InputError(f"`{text}` is not {what}", hint=f"write it like {_EXAMPLE[kind]}")


def _negative(text: str, kind: Kind) -> InputError:
    return InputError(
        f"`{text}` is less than nothing; allowed is 0 or more", hint=f"write it like {_EXAMPLE[kind]}"
    )
