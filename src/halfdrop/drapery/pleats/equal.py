"""Pleats as wide as their spaces, by a goblet-making guide: finished width shared by the number of pleats."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from halfdrop.base.errors import InputError
from halfdrop.base.units import INCH
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

#: The guide's step: a quarter of an inch [m].
QUARTER = INCH / 4


@dataclass(frozen=True)
class EqualAnswer:
    """Space as reckoned and as marked, what is left over, the cloth of one pleat [m], and the steps."""

    exact: float
    space: float
    lost: float
    pleat: float
    working: Working


def pleats_equal(
    finished: float, pleats: int, practice: Practice, *, fullness: float = 2.0, step: float = QUARTER
) -> EqualAnswer:
    """Return space and pleat where each pleat has one space beside it.

    Parameters
    ----------
    finished : float
        Finished width [m].
    pleats : int
        How many.
    practice : Practice
        For the units of the working.
    fullness : float
        Ratio; at 2 a pleat takes as much as a space.
    step : float
        What a space is rounded down to [m].

    Raises
    ------
    InputError
        Where there is no width, no pleat, or no fullness.

    Source: common practice (a goblet-making guide). Checked by: tests/published/drapery_pleats.csv.
    """
    say = Words(practice)
    if finished <= 0 or pleats < 1 or fullness < 1:
        raise InputError(f"{pleats} pleats in {say(finished)} at a fullness of {fullness:g} cannot be spaced")
    exact = finished / pleats
    space = float(math.floor(Fraction(exact) / Fraction(step) + Fraction(1, 10**6)) * Fraction(step))
    lost, pleat = finished - pleats * space, (fullness - 1) * space
    working = Working("Pleats, equal")
    working.step(
        "space",
        "finished ÷ pleats",
        f"{say(finished)} ÷ {pleats}",
        say(space),
        rounding="down to what is marked",
    )
    working.step(
        "left over", "finished − pleats × space", f"{say(finished)} − {pleats} × {say(space)}", say(lost)
    )
    working.step("pleat", "(fullness − 1) × space", f"({fullness:g} − 1) × {say(space)}", say(pleat))
    return EqualAnswer(exact, space, lost, pleat, working)
