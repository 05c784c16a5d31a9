"""Widths of lettering, measured from the shipped fonts, so that no label's place is a guess."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from fontTools.ttLib import TTFont

from halfdrop.drawing.tokens import Font, fonts_folder, tokens

#: Shapers set figures round a fraction slash as numerator and denominator by themselves.
_FRACTION = re.compile(r"\d+⁄\d+")
#: A glyph whose advance runs further past its ink than this is drawn in [em]: the prime of one family
#: stands far off.
BEARING = 0.06


@dataclass(frozen=True)
class Run:
    """A piece of a line of lettering, and the gap before it as a part of the line's size."""

    text: str
    gap: float = 0.0


@dataclass(frozen=True)
class _Face:
    units: int
    widths: dict[str, int]
    over: dict[str, int]
    under: dict[str, int]
    cap: float
    prime: float


@cache
def _face(font: Font) -> _Face:
    file = fonts_folder() / tokens().fonts[font].file
    with TTFont(file, lazy=True) as ttf:
        advances = ttf["hmtx"].metrics
        names = ttf.getBestCmap()
        widths = {chr(code): advances[glyph][0] for code, glyph in names.items()}
        units = ttf["head"].unitsPerEm
        cap = getattr(ttf["OS/2"], "sCapHeight", 0) or 0.7 * units
        small = [
            {chr(c): advances[swap[names[c]]][0] for c in map(ord, "0123456789") if names[c] in swap}
            for swap in (_swaps(ttf, "numr"), _swaps(ttf, "dnom"))
        ]
        prime = names[ord("′")]
        loose = (advances[prime][0] - ttf["glyf"][prime].xMax) / units - BEARING
        return _Face(units, widths, small[0], small[1], cap / units, -max(loose, 0.0))


def _swaps(ttf: TTFont, tag: str) -> dict[str, str]:
    """Return which glyph a feature puts for which."""
    table = ttf["GSUB"].table
    wanted = {
        i
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == tag
        for i in record.Feature.LookupListIndex
    }
    out: dict[str, str] = {}
    for i in sorted(wanted):
        for part in table.LookupList.Lookup[i].SubTable:
            out.update(getattr(getattr(part, "ExtSubTable", part), "mapping", {}))
    return out


def has_glyph(font: Font, character: str) -> bool:
    """Return whether a face holds a character."""
    return character in _face(font).widths


def cap_height(size: float, font: Font = "lettering") -> float:
    """Return the height of capitals [same unit as size]."""
    return _face(font).cap * size


@lru_cache(maxsize=8192)
def runs(text: str, font: Font = "lettering") -> tuple[Run, ...]:
    """Split a line where its face needs a correction: after a prime that stands too far off."""
    prime = _face(font).prime
    if not prime or "′" not in text.rstrip("′"):
        return (Run(text),)
    parts = re.split(r"(?<=′ )|(?<=′)(?! )", text)
    return tuple(Run(part, prime if k else 0.0) for k, part in enumerate(parts) if part)


@lru_cache(maxsize=8192)
def text_width(text: str, size: float, font: Font = "lettering") -> float:
    """Return the width of a line of lettering [same unit as size]; an unknown character counts as an en."""
    face = _face(font)
    en = face.units // 2
    total = sum(face.widths.get(c, en) for c in text) + sum(run.gap for run in runs(text, font)) * face.units
    for match in _FRACTION.finditer(text):
        above, below = match[0].split("⁄")
        total += sum(face.over.get(c, face.widths[c]) - face.widths[c] for c in above)
        total += sum(face.under.get(c, face.widths[c]) - face.widths[c] for c in below)
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
