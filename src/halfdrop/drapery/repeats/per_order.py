"""Half-drop match by the order: whole repeats, and one repeat more for the whole order."""

from __future__ import annotations

from halfdrop.drapery.repeats.answer import CutsAnswer, checked, told, units
from halfdrop.practice import Practice


def per_order(plain: float, repeat: float, count: int, practice: Practice) -> CutsAnswer:
    """Return whole-repeat cuts, and one repeat once for the order [m].

    Source: common practice (a trade note); others want a repeat for every second cut, which is (cuts ÷ 2 − 1) repeats more.
    Checked by: tests/published/drapery_cuts.csv.
    """
    checked(plain, repeat, count, practice)
    cut = units(plain, repeat) * repeat
    return told("per order", plain, repeat, cut, repeat, count, "common practice, no source", practice,
                once="one repeat for the order")  # fmt: skip
