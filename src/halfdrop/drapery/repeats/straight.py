"""Straight match: each cut takes whole repeats."""

from __future__ import annotations

from halfdrop.drapery.repeats.answer import CutsAnswer, checked, told, units
from halfdrop.practice import Practice


def straight(plain: float, repeat: float, count: int, practice: Practice) -> CutsAnswer:
    """Return cuts of ceil(plain ÷ repeat) × repeat [m].

    Source: The Encyclopaedia of Curtains, p. 116 and 117, as secondary pages quote it; workrooms.
    Checked by: tests/published/drapery_cuts.csv.
    """
    checked(plain, repeat, count, practice)
    cut = units(plain, repeat) * repeat
    return told(
        "straight",
        plain,
        repeat,
        cut,
        0.0,
        count,
        "The Encyclopaedia of Curtains, p. 116, as quoted",
        practice,
    )
