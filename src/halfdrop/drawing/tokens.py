"""The look as values: inks, pens, type and fonts, read from `tokens.toml`."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Literal

Ink = Literal["paper", "ink", "graphite", "wash", "pencil", "slate"]
Pen = Literal["hair", "thin", "medium", "wide", "heavy"]
Dash = Literal["ghost", "overhead", "fine"]
Font = Literal["lettering", "medium", "strong", "slanted", "prose", "prose-slanted", "prose-strong"]
Size = Literal["small", "body", "lead", "title", "head", "display"]
Ground = Literal["light", "dark"]


@dataclass(frozen=True)
class Face:
    """One face of a family, and the file it is shipped in."""

    family: str
    file: str
    weight: int
    style: str


@dataclass(frozen=True)
class Tokens:
    """Every value of the look.

    Attributes
    ----------
    inks : mapping
        Ground (`light`, `dark`) to ink name to `#RRGGBB`.
    pens, dashes : mapping
        Pen widths and dash patterns [mm].
    sizes : mapping
        Type sizes [mm on paper].
    fonts : mapping
        Faces by role.
    line : float
        Line height, as a multiple of the size.
    measure : int
        Longest line of prose [characters].
    pairs : tuple
        Every (text ink, ground ink) that may meet.
    """

    inks: Mapping[str, Mapping[str, str]]
    pens: Mapping[str, float]
    dashes: Mapping[str, tuple[float, ...]]
    sizes: Mapping[str, float]
    fonts: Mapping[str, Face]
    line: float
    measure: int
    pairs: tuple[tuple[str, str], ...]


def fonts_folder() -> Path:
    """Return the folder of the shipped fonts."""
    return Path(str(files("halfdrop.drawing"))) / "fonts"


@cache
def tokens() -> Tokens:
    """Read `tokens.toml` once."""
    text = (files("halfdrop.drawing") / "tokens.toml").read_text(encoding="utf-8")
    raw = tomllib.loads(text)
    kinds = raw["type"]
    return Tokens(
        inks=raw["ink"],
        pens=raw["pen"],
        dashes={name: tuple(parts) for name, parts in raw["dash"].items()},
        sizes={name: round(px * kinds["px"], 3) for name, px in kinds["scale"].items()},
        fonts={name: Face(**face) for name, face in raw["font"].items()},
        line=kinds["line"],
        measure=kinds["measure"],
        pairs=tuple((t, g) for t in raw["contrast"]["text"] for g in raw["contrast"]["ground"]),
    )


def contrast_ratio(first: str, second: str) -> float:
    """Return the contrast ratio of two sRGB colors, 1 to 21.

    Parameters
    ----------
    first, second : str
        `#RRGGBB`.

    Notes
    -----
    Source: WCAG 2.2, definitions of *contrast ratio* and *relative luminance*.
    Checked by: tests/drawing/test_tokens.py.
    """
    high, low = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(color: str) -> float:
    parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
