"""How long a strip is cut: the height with its trim, up to the next place where the pattern is right again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.working import Working
from halfdrop.practice.words import Words

Step = Literal["free", "whole repeats", "half step"]
#: Shares of a repeat nearer than this are arithmetic noise.
_NOISE = 1e-7


@dataclass(frozen=True)
class CutLength:
    """A cut length by the trade's formula.

    Attributes
    ----------
    needed : float
        Height and trim [m].
    length : float
        From the top of one strip to the top of the next on the roll [m].
    step : str
        How it came about.
    """

    needed: float
    length: float
    step: Step


def ceil_steps(x: float) -> int:
    """Return `x` rounded up, arithmetic noise aside."""
    return math.ceil(x - _NOISE)


def floor_steps(x: float) -> int:
    """Return `x` rounded down, arithmetic noise aside."""
    return math.floor(x + _NOISE)


def straight_cut(height: float, trim: float, repeat: float, say: Words, working: Working) -> CutLength:
    """Return the cut of a straight match: whole repeats; of a free match (`repeat` 0): height and trim.

    Parameters
    ----------
    height, trim : float
        Wall and both trims together [m].
    repeat : float
        Vertical repeat [m]; 0 where there is none.

    Source: trade method, from memory, unverified: ceil((height + trim) / repeat) × repeat.

    Checked by: tests/walls/test_strips.py.
    """
    needed = height + trim
    working.step("strip with trim", "height + trim", f"{say(height)} + {say(trim)}", say(needed))
    if not repeat:
        return CutLength(needed, needed, "free")
    count = ceil_steps(needed / repeat)
    working.step(
        "cut, whole repeats", "ceil(strip / repeat) × repeat",
        f"ceil({say(needed)} / {say(repeat)}) × {say(repeat)} = {count} × {say(repeat)}", say(count * repeat),
        rounding="up to whole repeats, so that every strip begins at the same place in the pattern",
        source="trade method, from memory, unverified",
    )  # fmt: skip
    return CutLength(needed, count * repeat, "whole repeats")


def half_drop_cut(height: float, trim: float, repeat: float, say: Words, working: Working) -> CutLength:
    """Return the cut of a half-drop match: A and B strips cut in turn, each an odd number of half repeats.

    Where whole repeats are shorter, all A strips come off one roll and all B strips off another.

    Parameters
    ----------
    height, trim : float
        Wall and both trims together [m].
    repeat : float
        Vertical repeat, above 0 [m].

    Source: trade method, from memory, unverified: (k + 1/2) × repeat of at least height and trim, cut alternately.

    Checked by: tests/walls/test_strips.py.
    """
    whole = straight_cut(height, trim, repeat, say, working)
    k = max(ceil_steps(whole.needed / repeat - 0.5), 0)
    half = (k + 0.5) * repeat
    working.step(
        "cut, half step", "least (k + ½) × repeat of at least the strip",
        f"({k} + ½) × {say(repeat)} for {say(whole.needed)}", say(half),
        rounding="up to an odd number of half repeats, so that A and B strips follow each other on one roll",
        source="trade method, from memory, unverified",
    )  # fmt: skip
    if half < whole.length - 1e-9:
        return CutLength(whole.needed, half, "half step")
    working.step("the shorter", "least of the two", f"{say(whole.length)}, {say(half)}", say(whole.length))
    return whole
