"""How sizes and places are written on a shopping list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from math import pi

from halfdrop.base.formats import Units, format_angle, format_length, format_size
from halfdrop.base.tolerance import SAME, SAME_ANGLE
from halfdrop.job.model import At, AtWall, Piece, Rug, corners_of
from halfdrop.job.naming import in_words, rug_name

_TAIL = re.compile(r"[\s,#]+(?:\d{1,2}|[A-Za-z])$")


def box_size(width: float, depth: float, height: float, units: Units) -> str:
    """Print width × depth × height [m] as the trade does: `84 × 36 × 32 in`, `213 × 91 × 81 cm`."""
    if units == "metric":
        sides = [format_length(v, "metric", unit="cm").removesuffix(" cm") for v in (width, depth, height)]
        return f"{' × '.join(sides)} cm"
    sides = [format_length(v, "imperial", feet=False).removesuffix(" in") for v in (width, depth, height)]
    return f"{' × '.join(sides)} in"


def flat_size(width: float, length: float, shape: str, units: Units) -> str:
    """Print the size of a rug or pad [m], the shorter side first: `8 × 10 ft`, `8′ round`."""
    if shape == "round":
        return f"{format_length(width, units)} round"
    text = format_size(min(width, length), max(width, length), units)
    return f"{text} oval" if shape == "oval" else text


def thing_size(thing: Piece | Rug, units: Units) -> str:
    """Print the size of a piece or rug."""
    if isinstance(thing, Rug):
        return flat_size(float(thing.width), float(thing.length), thing.shape, units)
    return box_size(float(thing.width), float(thing.depth), float(thing.height), units)


def thing_name(key: str, thing: Piece | Rug) -> str:
    """Return what to call a thing: its name, else its id in words."""
    return rug_name(key, thing) if isinstance(thing, Rug) else thing.name or in_words(key)


def base_name(name: str) -> str:
    """Return a name without a number or letter at its end: `chair 3` is a chair."""
    return _TAIL.sub("", name) or name


def counted(names: Iterable[str]) -> list[str]:
    """Return names with those alike made one: `chair 1`, `chair 2` are `2 × chair`."""
    alike: dict[str, list[str]] = {}
    for name in names:
        alike.setdefault(base_name(name), []).append(name)
    return [many[0] if len(many) == 1 else f"{len(many)} × {base}" for base, many in alike.items()]


def place(at: At, corners: Sequence[str], units: Units) -> str:
    """Print a place as it is set out by tape.

    Parameters
    ----------
    at : AtWall or AtPoint
        The document's place.
    corners : sequence of str
        The room's corners; a free place is measured from the first, along the wall to the second.
    """
    if isinstance(at, AtWall):
        start = corners_of(at.wall)[0]
        off = f"{format_length(at.off, units)} off it" if at.off > SAME else "against it"
        return f"wall {at.wall}: {format_length(at.along, units)} from {start}, {off}"
    first, second = corners[0], corners[1]
    return (
        f"center {format_length(at.x, units)} along {first}{second} from {first}, "
        f"{format_length(at.y, units)} off {first}{second}"
    )


def turned(before: float, after: float) -> str:
    """Return how far and which way a thing is turned between two turns [rad]; empty where it is not."""
    by = (after - before + pi) % (2 * pi) - pi
    if abs(by) <= SAME_ANGLE:
        return ""
    way = "counterclockwise" if by > 0 else "clockwise"
    return f"turned {format_angle(abs(by))} {way}"
