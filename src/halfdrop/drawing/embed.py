"""Fonts inside an SVG, so that a sheet opened anywhere is lettered as it was measured."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterable
from functools import lru_cache

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from halfdrop.drawing.tokens import Font, fonts_folder, tokens
from halfdrop.drawing.verbs import Dimension, Text, Verb


def font_rules(verbs: Iterable[Verb]) -> str:
    """Return `@font-face` rules holding just the glyphs that a sheet letters, the same bytes each time."""
    used: dict[Font, set[str]] = {}
    for verb in verbs:
        if isinstance(verb, Text):
            used.setdefault(verb.font, set()).update(verb.text)
        elif isinstance(verb, Dimension):
            used.setdefault("lettering", set()).update(verb.text)
    rules = []
    for name in sorted(used):
        face = tokens().fonts[name]
        data = base64.b64encode(_subset(face.file, "".join(sorted(used[name])))).decode("ascii")
        rules.append(
            f"@font-face{{font-family:'{face.family}';font-weight:{face.weight};font-style:{face.style};"
            f"src:url(data:font/ttf;base64,{data})}}"
        )
    return "".join(rules)


@lru_cache(maxsize=64)
def _subset(file: str, characters: str) -> bytes:
    """Return a shipped face cut down to some characters, its fractions and figures kept."""
    options = Options(layout_features=["*"], hinting=False, notdef_outline=True, recalc_timestamp=False)
    with TTFont(fonts_folder() / file, recalcTimestamp=False, lazy=True) as font:  # only what stays is read
        cut = Subsetter(options)
        cut.populate(text=characters)
        cut.subset(font)
        stream = io.BytesIO()
        font.save(stream)
    return stream.getvalue()
