"""Half-drop match, cuts one after another: the least multiple of half a repeat that holds the cut."""

from __future__ import annotations

from halfdrop.drapery.repeats.answer import CutsAnswer, checked, told, units
from halfdrop.practice import Practice


def consecutive(plain: float, repeat: float, count: int, practice: Practice) -> CutsAnswer:
    """Return the least cloth for cuts of which every second one is half a repeat further.

    Where that multiple is an odd one, n + ½ repeats, each cut begins half a repeat past the last and they alternate by themselves.
    Where it is even, whole repeats, the cuts of one half are taken first and half a repeat is taken once before the others.

    Source: worked out here. Checked by: tests/published/drapery_cuts.csv and tests/drapery/test_repeats.py.
    """
    checked(plain, repeat, count, practice)
    half = repeat / 2
    halves = units(plain, half)
    extra = half if halves % 2 == 0 and count > 1 else 0.0
    return told("consecutive", plain, repeat, halves * half, extra, count, "worked out here", practice,
                once="half a repeat between the cuts of the two halves")  # fmt: skip
