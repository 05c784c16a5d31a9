"""What can be put into a room: piece types with honest default sizes, opening and fitting kinds; and typed measures read."""

from __future__ import annotations

from functools import cache
from typing import Any, get_args

from halfdrop.base.errors import UsageError, did_you_mean
from halfdrop.base.formats import Units, format_angle, format_length, format_money
from halfdrop.base.money import Money
from halfdrop.base.units import Angle, Length, parse_size
from halfdrop.job.model import Fitting, Opening, PieceType, RoomUse
from halfdrop.practice import Practice, load_practice, piece_key
from halfdrop.services.elevation_types import treatment_types

#: A first size for what is fixed, to be typed over (width, depth, bottom, height) [in, cm]: common practice, no source.
_FITTINGS: dict[str, tuple[tuple[float, float, float, float], tuple[float, float, float, float]]] = {
    "radiator": ((40, 6, 4, 22), (100, 15, 10, 60)),
    "heater": ((36, 4, 2, 14), (90, 10, 5, 35)),
    "hearth": ((48, 0, 0, 48), (120, 0, 0, 120)),
    "outlet": ((3, 0, 14, 5), (8, 0, 30, 8)),
    "switch": ((3, 0, 42, 5), (8, 0, 105, 8)),
    "thermostat": ((4, 1, 58, 4), (10, 2, 145, 10)),
    "sconce": ((6, 4, 60, 12), (15, 10, 150, 30)),
    "beam": ((72, 6, 90, 6), (180, 15, 230, 15)),
    "column": ((12, 12, 0, 96), (30, 30, 0, 240)),
    "closet": ((60, 24, 0, 96), (150, 60, 0, 240)),
    "counter": ((72, 25, 0, 36), (180, 60, 0, 90)),
    "sink": ((22, 18, 20, 14), (55, 45, 50, 35)),
    "bath": ((60, 30, 0, 20), (170, 75, 0, 55)),
    "shower": ((36, 36, 0, 80), (90, 90, 0, 205)),
    "toilet": ((16, 28, 0, 30), (40, 70, 0, 75)),
    "stair head": ((36, 12, 0, 0), (90, 30, 0, 0)),
    "smoke alarm": ((5, 5, 94, 2), (12, 12, 240, 5)),
    "register": ((12, 0, 0, 6), (30, 0, 0, 15)),
}


def _text(value: float, units: Units) -> str:
    if units == "imperial":
        return format_length(value, "imperial", marks="plain", feet=False)
    return format_length(value, "metric", marks="plain", unit="mm")


def types(units: Units = "imperial") -> dict[str, Any]:
    """Return what a page offers to put in, each with the document to begin from.

    Parameters
    ----------
    units : {"imperial", "metric"}
        Of the job; sizes are those of its practice set.
    """
    return _types(units)


@cache
def _types(units: Units) -> dict[str, Any]:
    practice = load_practice("metric" if units == "metric" else "us")
    return {
        "pieces": [_piece(kind, practice, units) for kind in get_args(PieceType)],
        "openings": [_opening(kind, units) for kind in get_args(Opening.model_fields["kind"].annotation)],
        "fittings": [_fitting(kind, units) for kind in get_args(Fitting.model_fields["kind"].annotation)],
        "rugs": [_rug(w, d, units) for w, d in practice.size_list("rugs.made_sizes_rectangle")],
        "treatments": treatment_types(),
        "rooms": list(get_args(RoomUse)),
    }


def _piece(kind: str, practice: Practice, units: Units) -> dict[str, Any]:
    key = piece_key(kind, "size")
    width, depth, height = practice.box(key)
    start: dict[str, Any] = {
        "type": kind,
        "width": _text(float(width), units),
        "depth": _text(float(depth), units),
        "height": _text(float(height), units),
    }
    if (seats := piece_key(kind, "seats")) in practice:
        start["seats"] = practice.count(seats)
    if (high := piece_key(kind, "seat_height")) in practice:
        start["seat_height"] = _text(float(practice.length(high)), units)
    value = practice[key]
    return {
        "type": kind,
        "size": [float(width), float(depth), float(height)],
        "size_text": value.text,
        "source": f"{value.source}; {value.sure}",
        "document": start,
    }


def _rug(width: float, length: float, units: Units) -> dict[str, Any]:
    return {
        "size": [float(width), float(length)],
        "document": {"width": _text(float(width), units), "length": _text(float(length), units)},
    }


def _opening(kind: str, units: Units) -> dict[str, Any]:
    metric = units == "metric"
    width, height = {
        "door": (32 * 0.0254, 80 * 0.0254) if not metric else (0.83, 2.04),
        "window": (36 * 0.0254, 48 * 0.0254) if not metric else (1.00, 1.25),
        "cased opening": (48 * 0.0254, 80 * 0.0254) if not metric else (1.20, 2.10),
    }[kind]
    start: dict[str, Any] = {"kind": kind, "width": _text(width, units), "height": _text(height, units)}
    if kind == "window":
        start["sill"] = _text(0.9 if metric else 30 * 0.0254, units)
    if kind == "door":
        start |= {"leaf": "hinged", "opens": "in"}
    return {"kind": kind, "source": "common practice, no source", "document": start}


def _fitting(kind: str, units: Units) -> dict[str, Any]:
    inches, centimetres = _FITTINGS[kind]
    size = [v * 0.0254 for v in inches] if units == "imperial" else [v / 100 for v in centimetres]
    keys = ("width", "depth", "bottom", "height")
    start: dict[str, Any] = {"kind": kind}
    start |= {key: _text(v, units) for key, v in zip(keys, size, strict=True) if v or key == "width"}
    return {"kind": kind, "source": "common practice, no source", "document": start}


KINDS = ("length", "size", "angle", "money")


def parsed(kind: str, text: str, units: Units = "imperial") -> dict[str, Any]:
    """Read a measure as typed, in any notation.

    Returns
    -------
    dict
        `value` in SI, `text` to keep in the document, `typographic` to show.

    Raises
    ------
    InputError
        Where it is not such a measure; the hint says how to write it.
    """
    text = text.strip()
    if kind == "length":
        length = Length.parse(text)
        return {
            "kind": kind,
            "value": float(length),
            "text": text,
            "typographic": format_length(float(length), units),
        }
    if kind == "size":
        sides = parse_size(text)
        shown = " × ".join(format_length(float(side), units) for side in sides)
        return {"kind": kind, "value": [float(side) for side in sides], "text": text, "typographic": shown}
    if kind == "angle":
        angle = Angle.parse(text)
        return {"kind": kind, "value": float(angle), "text": text, "typographic": format_angle(float(angle))}
    if kind == "money":
        money = Money.parse(text)
        return {"kind": kind, "value": str(money.amount), "text": text, "typographic": format_money(money)}
    raise UsageError(f"measures of kind `{kind[:40]}` are not read", hint=did_you_mean(kind, KINDS))
