"""Flat width, overlap and returns as built: what the cloth covers, all of it made full."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def flat_as_built(
    rod: float, overlap: float, returns: float, fullness: float, practice: Practice
) -> LengthAnswer:
    """Return (rod + overlap + returns) × fullness.

    Parameters
    ----------
    rod : float
        Rod or track, end to end without finials [m].
    overlap, returns : float
        In all, both panels and both ends together [m].
    fullness : float
        Ratio.
    practice : Practice
        For the units of the working.

    Source: common practice (US workrooms). Checked by: tests/published/drapery_widths.csv.
    """
    say = Words(practice)
    flat = (rod + overlap + returns) * fullness
    values = f"({say(rod)} + {say(overlap)} + {say(returns)}) × {fullness:g}"
    return one_step("Flat width", "as built", flat, "(rod + overlap + returns) × fullness", values,
                    "common practice: overlap and returns made full with the rest", practice)  # fmt: skip
