"""Papers and scales: what a sheet is drawn on, and how large."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.base.formats import Units


@dataclass(frozen=True)
class Paper:
    """A paper as it lies: its name and its size [mm]."""

    name: str
    width: float
    height: float


@dataclass(frozen=True)
class Scale:
    """A drawing scale: how it is written, and paper to true length."""

    name: str
    ratio: float


#: Upright papers [mm]. Source: ANSI/ASME Y14.1 (letter, tabloid = ANSI B, ANSI C), US architectural sizes,
#: ISO 216.
_PAPERS: dict[str, tuple[float, float]] = {
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
    "ansi b": (279.4, 431.8),
    "ansi c": (431.8, 558.8),
    "arch a": (228.6, 304.8),
    "arch b": (304.8, 457.2),
    "arch c": (457.2, 609.6),
    "arch d": (609.6, 914.4),
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "a1": (594.0, 841.0),
    "phone": (90.0, 160.0),
}

_TITLES = {"ansi b": "ANSI B", "ansi c": "ANSI C"}


def paper(name: str) -> Paper:
    """Return a paper by name: `tabloid`, `A3 portrait`, `ARCH C landscape`; landscape where not said
    (phone: portrait).

    Raises
    ------
    InputError
        Where there is no such paper.
    """
    words = " ".join(name.replace("-", " ").lower().split())
    way = None
    for suffix in ("portrait", "landscape"):
        if words.endswith(" " + suffix):
            words, way = words[: -len(suffix) - 1], suffix
    if words not in _PAPERS:
        raise InputError(f"paper `{name}` is not known", hint=did_you_mean(words, _PAPERS))
    short, long = _PAPERS[words]
    title = _TITLES.get(words, words.upper() if words.startswith(("arch", "a")) else words.capitalize())
    upright = way == "portrait" or (way is None and words == "phone")
    return Paper(title, short, long) if upright else Paper(title, long, short)


def _feet_scale(inches: str) -> Scale:
    return Scale(f"{inches}″ = 1′-0″", float(Fraction(_GLYPH.get(inches, inches)) / 12))


_GLYPH = {"⅛": "1/8", "¼": "1/4", "⅜": "3/8", "½": "1/2", "¾": "3/4", "1½": "3/2"}
#: Standard scales, the largest first. Source: common drafting practice (architect's and metric scale rules).
IMPERIAL: tuple[Scale, ...] = tuple(_feet_scale(i) for i in ("1", "¾", "½", "⅜", "¼", "⅛"))
METRIC: tuple[Scale, ...] = tuple(Scale(f"1:{n}", 1 / n) for n in (10, 20, 25, 50, 100))
#: The last resort for a room that no standard scale of the job's units fits; reduction scales of the same
#: rules.
_SMALL = {
    "imperial": (Scale("1/16″ = 1′-0″", 1 / 192), Scale("1/32″ = 1′-0″", 1 / 384)),
    "metric": (Scale("1:200", 1 / 200), Scale("1:500", 1 / 500)),
}

_IMPERIAL_TEXT = re.compile(
    r"^(\d+ \d+/\d+|\d+/\d+|\d+)\s*(?:\"|in)?\s*=\s*1\s*(?:'|ft)?(?:\s*-?\s*0\s*(?:\"|in)?)?$"
)


def scale(text: str) -> Scale:
    """Return a scale from its text: `1/4" = 1'-0"`, `1/4 in`, `1:50`.

    Raises
    ------
    InputError
        Where it is no scale from 1:1 to 1:1000.
    """
    plain = text.strip().replace("″", '"').replace("′", "'")
    for glyph, fraction in _GLYPH.items():
        plain = plain.replace(glyph, fraction)
    ratio: Fraction | None = None
    try:
        if match := re.match(r"^1\s*:\s*(\d+(?:\.\d+)?)$", plain):
            ratio = 1 / Fraction(match[1])
        elif match := _IMPERIAL_TEXT.match(plain):
            ratio = sum((Fraction(part) for part in match[1].split()), Fraction(0)) / 12
        elif match := re.match(r"^(\d+/\d+|\d+)\s*(?:\"|in)$", plain):
            ratio = Fraction(match[1]) / 12
    except ZeroDivisionError:
        ratio = None
    if ratio is None or not Fraction(1, 1000) <= ratio <= 1:
        raise InputError(
            f"scale `{text}` is not one from 1:1 to 1:1000", hint='write 1/4" = 1\'-0", 1/2 in or 1:50'
        )
    for known in (*IMPERIAL, *METRIC, *_SMALL["imperial"], *_SMALL["metric"]):
        if abs(known.ratio - float(ratio)) < 1e-9 and (":" in text) == (":" in known.name):
            return known
    if ":" in plain:
        return Scale(f"1:{float(1 / ratio):g}", float(ratio))
    return Scale(f"{ratio * 12}″ = 1′-0″", float(ratio))


def largest_scale(
    size: Sequence[float],
    space: Sequence[float],
    units: Units,
    *,
    around: float = 0.0,
    part: Literal["standard", "any"] = "any",
) -> Scale:
    """Return the largest standard scale at which a thing fits.

    Parameters
    ----------
    size : (width, height)
        Of the thing [m].
    space : (width, height)
        On the paper [mm].
    units : {"imperial", "metric"}
        Which family of scales.
    around : float
        Room kept on each side for dimensions [mm].
    part : {"standard", "any"}
        Whether the small reduction scales count too.

    Raises
    ------
    InputError
        Where even the smallest scale is too large.
    """
    family = IMPERIAL if units == "imperial" else METRIC
    if part == "any":
        family = family + _SMALL[units]
    for candidate in family:
        wanted = [side * 1000 * candidate.ratio + 2 * around for side in size]
        if all(w <= s + 1e-9 for w, s in zip(wanted, space, strict=True)):
            return candidate
    raise InputError(
        f"{size[0]:.1f} × {size[1]:.1f} m does not fit {space[0]:.0f} × {space[1]:.0f} mm "
        f"at {family[-1].name}",
        hint="choose a larger paper, for instance --paper 'ARCH C'",
    )
