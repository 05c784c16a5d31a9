"""The width of a shade inside an opening: the smallest of three, and whether the opening takes one at all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_ROUND, _SQUARE, _DEPTH = "drapery.shade_round", "drapery.shade_out_of_square", "drapery.shade_depth_least"


@dataclass(frozen=True)
class InsideWidth:
    """What to order for an inside mount.

    Attributes
    ----------
    width : float
        The smallest width, rounded down [m]; the maker takes his deduction from it, so nobody deducts twice.
    out_of_square : float
        Largest less smallest width [m].
    square, deep : bool
        Whether that is allowed; whether the recess is deep enough (also where its depth is unknown).
    working : Working
        The steps.
    """

    width: float
    out_of_square: float
    square: bool
    deep: bool
    working: Working


def inside_width(widths: Sequence[float], practice: Practice, *, depth: float | None = None) -> InsideWidth:
    """Return the width to order from the clear widths at top, middle and bottom.

    Parameters
    ----------
    widths : sequence of float
        Clear widths [m].
    practice : Practice
        `drapery.shade_round`, `drapery.shade_out_of_square`, `drapery.shade_depth_least`.
    depth : float, optional
        Of the recess [m].

    Raises
    ------
    InputError
        Where a width is missing or not above 0.

    Source: common practice (makers). Checked by: tests/drapery/test_shades.py.
    """
    say = Words(practice)
    if not widths or min(widths) <= 0:
        raise InputError(
            "a shade inside needs the clear width of its opening", hint="tape it at top, middle and bottom"
        )
    step = Fraction(float(practice.length(_ROUND)))
    width = float(math.floor(Fraction(min(widths)) / step + Fraction(1, 10**6)) * step)
    run = max(widths) - min(widths)
    working = Working("Shade inside")
    working.step("width", "the smallest of three, rounded down", ", ".join(say(w) for w in widths), say(width),
                 rounding="down, so that it goes in", source=say.cited(_ROUND))  # fmt: skip
    square = at_most(run, practice.length(_SQUARE))
    working.step("out of square", "largest − smallest", say(run), "within what is allowed" if square else "more than is allowed",
                 source=say.cited(_SQUARE))  # fmt: skip
    deep = depth is None or at_least(depth, practice.length(_DEPTH))
    if depth is not None:
        working.step(
            "recess",
            "at least",
            say(depth),
            "deep enough" if deep else "too shallow",
            source=say.cited(_DEPTH),
        )
    return InsideWidth(width, run, square, deep, working)
