"""One value of practice: its kind, read from its text, and where it comes from."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, cast, get_args

from halfdrop.base.errors import InputError
from halfdrop.base.units import Angle, Area, Length, Mass

Kind = Literal[
    "length", "angle", "area", "mass", "number", "count", "yes or no", "text", "lengths", "sizes", "box"
]
Sure = Literal["read", "memory", "common practice", "computed", "standard", "our choice"]

KINDS: tuple[Kind, ...] = get_args(Kind)
#: How sure a value is. `read`: a page quoting its source was read. `memory`: unverified. `standard`: the
#: standard's own text. `common practice`: the trade's habit. `computed`: worked out from other values.
#: `our choice`: nobody publishes one, so halfdrop chose it.
SURENESS: tuple[Sure, ...] = get_args(Sure)

#: What a person writes in TOML or in the job.
Raw = str | int | float | bool | Sequence[str]

_BY_UNIT = (
    ("area", Area, re.compile(r"(sq\.?\s*(ft|in|yd|m)|(ft|in|yd|m|cm|mm)\s*(2|²))\s*$", re.I)),
    ("mass", Mass, re.compile(r"[\d½¼¾⅛⅜⅝⅞]\s*(kg|g|lbs?|oz)\.?\s*$", re.I)),
    ("angle", Angle, re.compile(r"(°|\d\s*(deg|degrees|rad)\b|°.*['′])", re.I)),
    (
        "length",
        Length,
        re.compile(
            r"[\d½¼¾⅛⅜⅝⅞]\s*(mm|cm|m|in|inch|inches|ft|feet|foot|yd)\.?\s*$|['\"′″]\s*$|^\s*0\s*$", re.I
        ),
    ),
)
_SIDE_MARK = re.compile(r"\s*[x×]\s*", re.I)
_UNIT_AT_END = re.compile(r"[^\d\s/.,-]+\s*$")
_EXAMPLE: dict[str, str] = {
    "length": "10 in",
    "angle": "1.5°",
    "area": "12 sq ft",
    "mass": "12 lb",
    "number": "0.67",
    "count": "3",
    "yes or no": "true",
    "text": "a word",
    "lengths": "6 ft, 8 ft",
    "sizes": "8x10 ft, 9x12 ft",
    "box": "84 x 38 x 34 in",
}


@dataclass(frozen=True, slots=True)
class PracticeValue:
    """One value a decorator works to.

    Attributes
    ----------
    key : str
        Its name, such as `rugs.dining_extension_floor`.
    kind : str
        One of `KINDS`.
    value : Any
        In SI: [m], [rad], [m²], [kg], a number, a text, or a tuple of lengths or sizes.
    text : str
        As it was written.
    what, how : str
        What it limits; how it is measured.
    source, sure : str
        Where it comes from; how sure that is (one of `SURENESS`).
    range : tuple
        Least and most of the published values, in the units of `value`; empty where only one is published.
    range_text : tuple of str
        The same, as written.
    note : str
        Why this value was chosen.
    origin : str
        "us", "metric", "house (file ...)", "house (job)" or "shifted".
    choices : tuple of str
        For a text that is one of a few words: those words.
    """

    key: str
    kind: Kind
    value: Any
    text: str
    what: str
    how: str
    source: str
    sure: Sure
    range: tuple[Any, ...] = ()
    range_text: tuple[str, ...] = ()
    note: str = ""
    origin: str = ""
    choices: tuple[str, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """Return the value as a JSON-compatible object, SI number beside the written text."""
        return {
            "key": self.key,
            "kind": self.kind,
            "value": _plain(self.value),
            "text": self.text,
            "what": self.what,
            "how": self.how,
            "source": self.source,
            "sure": self.sure,
            "range": list(self.range_text),
            "note": self.note,
            "origin": self.origin,
        }


def kind_of(raw: Raw) -> Kind:
    """Return the kind that a written value has, judged by its text alone."""
    if isinstance(raw, bool):
        return "yes or no"
    if isinstance(raw, int):
        return "count"
    if isinstance(raw, float):
        return "number"
    if not isinstance(raw, str):
        return "sizes" if raw and len(_SIDE_MARK.split(raw[0])) == 2 else "lengths"
    if re.match(r"\s*[\d.]", raw) and len(_SIDE_MARK.split(raw)) == 3:
        return "box"
    if re.match(r"\s*-?[\d.½¼¾⅛⅜⅝⅞]", raw):
        for kind, _, pattern in _BY_UNIT:
            if pattern.search(raw):
                return cast(Kind, kind)
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
        When it is of another kind, negative, or cannot be read.
    """
    text = ", ".join(raw) if not isinstance(raw, str | int | float) else _written(raw)
    if kind in ("number", "count", "yes or no"):
        return _read_plain(raw, kind, text), text
    if kind == "text":
        if not isinstance(raw, str) or (choices and raw not in choices):
            words = f"one of {', '.join(choices)}" if choices else "a text"
            raise InputError(
                f"`{text}` is not {words}", hint=f"write {_quoted(choices[0] if choices else _EXAMPLE[kind])}"
            )
        return raw, text
    if isinstance(raw, int | float):
        raise _wrong(text, kind)
    try:
        if kind in ("lengths", "sizes"):
            parts = re.split(r"\s*;\s*|,\s+", raw.strip()) if isinstance(raw, str) else list(raw)
            return tuple(Length.parse(p) if kind == "lengths" else sides_of(p, 2) for p in parts), text
        if not isinstance(raw, str):
            raise _wrong(text, kind)
        if kind == "box":
            return sides_of(raw, 3), text
        if kind_of(raw) not in (kind, "text"):
            raise _wrong(text, kind)
        parse = next(parser for name, parser, _ in _BY_UNIT if name == kind).parse
        value = parse(raw)
    except InputError as error:
        raise InputError(
            error.message, hint=error.hint or f"write it like {_quoted(_EXAMPLE[kind])}"
        ) from None
    if value < 0:
        raise InputError(
            f"`{text}` is less than nothing; allowed is 0 or more",
            hint=f"write it like {_quoted(_EXAMPLE[kind])}",
        )
    return value, text


def sides_of(text: str, count: int) -> tuple[Length, ...]:
    """Read `84 x 38 x 34 in` or `8x10 ft`: lengths joined by x; the last unit serves those without.

    Raises
    ------
    InputError
        When there are not `count` of them, or one cannot be read.
    """
    parts = _SIDE_MARK.split(text.strip())
    unit = _UNIT_AT_END.search(parts[-1])
    if len(parts) != count or unit is None:
        raise InputError(
            f"`{text}` is not {count} lengths joined by x with their unit at the end",
            hint=f"write it like {_quoted(_EXAMPLE['box' if count == 3 else 'sizes'].split(',')[0])}",
        )
    return tuple(Length.parse(p if _UNIT_AT_END.search(p) else f"{p} {unit.group().strip()}") for p in parts)


def _read_plain(raw: Raw, kind: Kind, text: str) -> Any:
    """Return a number, a count or a yes or no, which are written as they are, not as text."""
    if kind == "yes or no":
        if not isinstance(raw, bool):
            raise _wrong(text, kind)
        return raw
    if isinstance(raw, bool) or not isinstance(raw, int | float) or (kind == "count" and raw != int(raw)):
        raise _wrong(text, kind)
    if raw < 0:
        raise InputError(
            f"`{text}` is less than nothing; allowed is 0 or more", hint=f"write it like {_EXAMPLE[kind]}"
        )
    return int(raw) if kind == "count" else float(raw)


def _wrong(text: str, kind: Kind) -> InputError:
    example = _EXAMPLE[kind] if kind in ("number", "count", "yes or no") else _quoted(_EXAMPLE[kind])
    article = "an" if kind in ("angle", "area") else "a"
    plural = kind in ("lengths", "sizes")
    return InputError(
        f"`{text}` is not {'a list of ' + kind if plural else f'{article} {kind}'}",
        hint=f"write it like {example}",
    )


def _written(raw: str | int | float | bool) -> str:
    return (
        ("true" if raw else "false")
        if isinstance(raw, bool)
        else (raw if isinstance(raw, str) else f"{raw:g}")
    )


def _quoted(text: str) -> str:
    return f'"{text}"'


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return float(value) if isinstance(value, float) else value
