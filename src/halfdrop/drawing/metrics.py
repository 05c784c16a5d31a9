"""Widths of lettering, measured from the shipped fonts, so that no label's place is a guess."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from fontTools.ttLib import TTFont

from halfdrop.drawing.tokens import Font, fonts_folder, tokens

#: A sixteenth is set as a small raised numerator, a slash and a small denominator: size and rise against the text's size.
FRACTION_SIZE = 0.6
FRACTION_RISE = 0.28
FRACTION_GAP = 0.1
_FRACTION = re.compile(r"(\d+)⁄(\d+)")


@dataclass(frozen=True)
class Run:
    """A piece of a line of lettering: its text, its size, its rise and the gap before it, as parts of the line's size."""

    text: str
    size: float = 1.0
    rise: float = 0.0
    gap: float = 0.0


@dataclass(frozen=True)
class _Face:
    units: int
    widths: dict[str, int]
    ascent: float
    cap: float


@cache
def _face(font: Font) -> _Face:
    file = fonts_folder() / tokens().fonts[font].file
    with TTFont(file, lazy=True) as ttf:
        advances = ttf["hmtx"].metrics
        widths = {chr(code): advances[glyph][0] for code, glyph in ttf.getBestCmap().items()}
        units = ttf["head"].unitsPerEm
        cap = getattr(ttf["OS/2"], "sCapHeight", 0) or 0.7 * units
        return _Face(units, widths, ttf["hhea"].ascent / units, cap / units)


def has_glyph(font: Font, character: str) -> bool:
    """Return whether a face holds a character."""
    return character in _face(font).widths


def cap_height(size: float, font: Font = "lettering") -> float:
    """Return the height of capitals [same unit as size]."""
    return _face(font).cap * size


@lru_cache(maxsize=8192)
def runs(text: str, font: Font = "lettering") -> tuple[Run, ...]:
    """Split a line into runs: fractions the face has no glyph for (`3⁄16`) are built from small figures."""
    out: list[Run] = []
    at = 0
    for match in _FRACTION.finditer(text):
        before = text[at : match.start()]
        if before:
            out.append(Run(before.rstrip()))
        out.append(Run(match[1], FRACTION_SIZE, FRACTION_RISE, FRACTION_GAP if before.endswith(" ") else 0.0))
        out.append(Run("⁄"))
        out.append(Run(match[2], FRACTION_SIZE))
        at = match.end()
    if at < len(text):
        out.append(Run(text[at:]))
    return tuple(out)


@lru_cache(maxsize=8192)
def text_width(text: str, size: float, font: Font = "lettering") -> float:
    """Return the width of a line of lettering [same unit as size]; an unknown character counts as an en."""
    face = _face(font)
    total = 0.0
    for run in runs(text, font):
        total += run.size * sum(face.widths.get(c, face.units // 2) for c in run.text) + run.gap * face.units
    return total * size / face.units


def wrap(text: str, width: float, size: float, font: Font = "prose") -> list[str]:
    """Break text into lines no wider than `width` [same unit as size]; a word wider than that is broken.

    A measure stays in one piece: the blanks inside `12′ 6½″` and `0.9 m` do not break.
    """
    lines: list[str] = []
    for paragraph in text.splitlines() or [""]:
        line = ""
        for word in _words(paragraph):
            trial = f"{line} {word}" if line else word
            if text_width(trial, size, font) <= width:
                line = trial
                continue
            if line:
                lines.append(line)
            while text_width(word, size, font) > width and len(word) > 1:
                cut = next(
                    (n for n in range(len(word) - 1, 1, -1) if text_width(word[:n], size, font) <= width), 1
                )
                lines.append(word[:cut])
                word = word[cut:]
            line = word
        lines.append(line)
    return lines


_MEASURE = re.compile(
    r"(?<=\d)[ \u00a0](?=(?:in|ft|mm|cm|m|m²|sq|lb|kg)\b)|(?<=[′'])[ ](?=\d)|(?<=\d)[ ](?=\d+⁄)"
)


def _words(paragraph: str) -> list[str]:
    held = _MEASURE.sub("\u00a0", paragraph)
    return [word.replace("\u00a0", " ") for word in held.split(" ") if word]
