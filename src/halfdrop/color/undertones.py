"""Undertones: which way the whites, greys and beiges of a room lean, and which of them clash."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.color.areas import ColorArea, measured
from halfdrop.color.lab import lch_of_lab
from halfdrop.practice import Practice

#: Upper end of each undertone [degrees of h_ab] and its name, from hue 0°. Our choice, no source.
_NAMES = (
    (20.0, "pink"), (60.0, "orange"), (80.0, "gold"), (105.0, "yellow"), (190.0, "green"), (285.0, "blue"), (330.0, "violet"),
    (360.0, "pink"),
)  # fmt: skip


@dataclass(frozen=True)
class Undertone:
    """The undertone of a near-neutral.

    Attributes
    ----------
    of : int
        Which of the areas.
    name : str
        "pink", "orange", "gold", "yellow", "green", "blue", "violet", or "none" where it is too grey to lean.
    hue, chroma : float
        h_ab [degrees] and C*ab.
    """

    of: int
    name: str
    hue: float
    chroma: float


@dataclass(frozen=True)
class Clash:
    """Two near-neutrals that lean apart: which areas, and by how much [degrees of hue]."""

    first: int
    second: int
    degrees: float


def undertone_name(hue: float) -> str:
    """Return the name of the undertone of a hue h_ab [degrees, any]."""
    turned = hue % 360.0
    return next((name for end, name in _NAMES if turned < end), "pink")


def undertones(areas: Sequence[ColorArea], practice: Practice) -> tuple[Undertone, ...]:
    """Return the undertones of the near-neutrals, in the order of the areas.

    Parameters
    ----------
    practice : Practice
        `color.neutral_to` (most chroma of a near-neutral), `color.undertone_from` (least that leans).

    Source: common practice, no source; limits our choice.

    Checked by: tests/color/test_measures.py.
    """
    labs, shares = measured(areas)
    most = practice.number("color.neutral_to") + 1e-9
    least = practice.number("color.undertone_from") - 1e-9
    found = []
    for n, (_, chroma, hue) in enumerate(lch_of_lab(labs).tolist()):
        if shares[n] > 0 and chroma <= most:
            found.append(Undertone(n, undertone_name(hue) if chroma >= least else "none", hue, chroma))
    return tuple(found)


def clashes(areas: Sequence[ColorArea], practice: Practice) -> tuple[Clash, ...]:
    """Return pairs of near-neutrals whose undertones lie further apart than `color.undertone_apart`, the furthest first.

    Source: common practice, no source: a pink beige beside a green grey; the angle is our choice.

    Checked by: tests/color/test_measures.py.
    """
    leaning = [one for one in undertones(areas, practice) if one.name != "none"]
    most = float(practice.number("color.undertone_apart")) + 1e-9
    found = []
    for n, one in enumerate(leaning):
        for two in leaning[n + 1 :]:
            apart = abs((one.hue - two.hue + 180.0) % 360.0 - 180.0)
            if apart > most:
                found.append(Clash(one.of, two.of, apart))
    return tuple(sorted(found, key=lambda c: (-round(c.degrees, 9), c.first, c.second)))
