"""Tones of a picture: its own colors, and what they become on walls, large pieces and ceilings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.from_art.place import Lab, Role, Style
from halfdrop.color.lab import lab_of_lch, lch_of_lab
from halfdrop.practice import Practice

#: L* of the neutrals that large pieces are offered, light to dark; our choice, no source.
_NEUTRALS = (90.0, 80.0, 70.0, 60.0, 48.0, 36.0, 26.0)
#: Chroma of a tuned neutral: enough to lean with the art, too little to be a color; our choice, no source.
_LEAN = 5.0
#: L* of a ceiling and of trim; our choice, no source.
_CEILING, _TRIM = (97.0, 95.0, 92.0), (96.0, 92.0, 86.0)


@dataclass(frozen=True)
class ArtColor:
    """One color of the art and the share of the picture it has, 0 to 1."""

    lab: Lab
    share: float


@dataclass(frozen=True)
class Tone:
    """A color that a place may wear.

    Attributes
    ----------
    lab : (float, float, float)
        What is looked for among the swatches.
    of : int
        Which of the art's colors it comes from.
    how : str
        "as it is", "tint", "shade", "greyed" or "neutral tuned to it".
    cost : float
        How far it is from what the style asks of this role, in steps of CIEDE2000 or so; 0 is asked for.
    """

    lab: Lab
    of: int
    how: str
    cost: float


def walls_range(style: Style, practice: Practice) -> tuple[float, float, float]:
    """Return least L*, most L* and most chroma of walls in a style (practice `color.walls_dark_…` and so on)."""
    low = float(practice.number(f"color.walls_dark_{style}"))
    high = float(practice.number(f"color.walls_light_{style}"))
    return low, high, float(practice.number(f"color.walls_chroma_{style}"))


def tones(art: Sequence[ArtColor], role: Role, style: Style, practice: Practice) -> tuple[Tone, ...]:
    """Return the tones that a role may wear in a style, in the order of the art's colors.

    Parameters
    ----------
    art : sequence of ArtColor
        The largest share first.
    practice : Practice
        `color.neutral_to`, and `color.walls_dark_…`, `color.walls_light_…`, `color.walls_chroma_…`, `color.second_chroma_…`
        of the style.

    Source: our choice, no source; that long-lived pieces stay neutral and the play goes to what is cheap to change is common
    practice.

    Checked by: tests/color/from_art/test_tones.py.
    """
    found: list[Tone] = []
    for n, color in enumerate(art):
        lch = lch_of_lab(color.lab)
        small = (1.0 - color.share) * 2.0  # of two colors that do alike, the one the picture has more of
        for lightness, chroma, how, cost in _asked(lch, role, style, practice):
            lab = lab_of_lch([lightness, chroma, lch[2]])
            found.append(Tone((float(lab[0]), float(lab[1]), float(lab[2])), n, how, cost + small))
    return tuple(found)


def _asked(
    lch: np.ndarray, role: Role, style: Style, practice: Practice
) -> list[tuple[float, float, str, float]]:
    """Return lightness, chroma, name and cost of what a color becomes in a role."""
    L, C = float(lch[0]), float(lch[1])
    lean = min(C, _LEAN)
    if role in ("ceiling", "trim"):
        steps = _CEILING if role == "ceiling" else _TRIM
        return [(v, min(lean, 3.0), "neutral tuned to it", 2.0 * n) for n, v in enumerate(steps)]
    if role in ("large", "floor"):
        wanted = 62.0 if role == "large" else 42.0
        return [(v, lean, "neutral tuned to it", abs(v - wanted) / 12.0) for v in _NEUTRALS]
    if role == "walls":
        low, high, most = walls_range(style, practice)
        middle = (low + high) / 2
        chroma = min(C, most)
        at = [(v, chroma) for v in (low, middle, high)]
        tinted = [(v, c, _how(v, c, L, C), abs(v - middle) / 10.0 + _dull(c, style)) for v, c in at]
        inside = low <= L <= high and most >= C
        return [*([(L, C, "as it is", _dull(C, style))] if inside else []), *tinted]
    most = float(practice.number(f"color.second_chroma_{style}"))
    if role == "medium":
        chroma = min(C, most)
        at = [(L, chroma), (min(90.0, L + 20.0), chroma * 0.7), (max(25.0, L - 20.0), chroma * 0.8)]
        return [(v, c, _how(v, c, L, C), 2.0 * n + _dull(c, style)) for n, (v, c) in enumerate(at)]
    greyed = [] if style == "bold" else [(L, C * 0.6, "greyed", 3.0 if style == "balanced" else 0.0)]
    return [(L, C, "as it is", 0.0), *greyed]


def _dull(chroma: float, style: Style) -> float:
    """Return what it costs a color to say too little: a bold scheme asks for some, a quiet one for none."""
    if style == "quiet":
        return chroma / 10.0
    return max(0.0, (22.0 if style == "bold" else 8.0) - chroma) / 2.0


def _how(lightness: float, chroma: float, L: float, C: float) -> str:
    if abs(lightness - L) < 4.0 and chroma > C - 3.0:
        return "as it is"
    if lightness > L + 4.0:
        return "tint"
    return "shade" if lightness < L - 4.0 else "greyed"
