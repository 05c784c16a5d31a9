"""Flat width by the lump: one figure for overlap and returns of a pair, made full."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_LUMP = "drapery.lump_pair"


def flat_lump(rod: float, fullness: float, practice: Practice) -> LengthAnswer:
    """Return (rod + lump) × fullness; `drapery.lump_pair` is 12 in.

    Source: common practice, two US workrooms alike. Checked by: tests/published/drapery_widths.csv.
    """
    say = Words(practice)
    lump = practice.length(_LUMP)
    flat = (rod + lump) * fullness
    return one_step("Flat width", "lump", flat, "(rod + lump) × fullness",
                    f"({say(rod)} + {say(lump)}) × {fullness:g}", say.cited(_LUMP), practice)  # fmt: skip
