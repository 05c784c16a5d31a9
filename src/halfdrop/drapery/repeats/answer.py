"""What a cut comes to once the pattern is matched."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

#: A cut this near to a whole number of repeats is that [repeats].
_NOISE = 1e-6


@dataclass(frozen=True)
class CutsAnswer:
    """Cuts of one length from one bolt, by a hand rule.

    Attributes
    ----------
    cut : float
        What is reckoned for one cut [m].
    repeats : float
        How many repeats that is; 0 for plain cloth.
    extra : float
        Taken once besides [m].
    total : float
        All cuts and what is taken once [m].
    method : str
        The rule by name.
    working : Working
        The steps.
    """

    cut: float
    repeats: float
    extra: float
    total: float
    method: str
    working: Working


def units(plain: float, unit: float) -> int:
    """Return how many whole `unit` [m] a plain cut [m] takes."""
    return math.ceil(plain / unit - _NOISE)


def checked(plain: float, repeat: float, count: int, practice: Practice) -> None:
    """Raise where there is nothing to match.

    Raises
    ------
    InputError
        Where cut or repeat is not above 0, or no cut is wanted.
    """
    say = Words(practice)
    if plain <= 0 or repeat <= 0 or count < 1:
        raise InputError(f"{count} cuts of {say(plain)} with a repeat of {say(repeat)} cannot be matched")


def told(method: str, plain: float, repeat: float, cut: float, extra: float, count: int, source: str, practice: Practice,
         *, once: str = "") -> CutsAnswer:  # fmt: skip
    """Return cuts with their working."""
    say = Words(practice)
    working = Working(f"Cut length, {method}")
    n = cut / repeat
    working.step("cut", "repeats that hold the cut × repeat",
                 f"{say(plain)} ÷ {say(repeat)} = {plain / repeat:.2f}; {n:g} × {say(repeat)}", say(cut),
                 rounding=f"up, {say(cut - plain)} of waste", source=source)  # fmt: skip
    if extra:
        working.step("once", once, say(extra), say(extra), source=source)
    total = count * cut + extra
    sum_ = f"{count} × {say(cut)}" + (f" + {say(extra)}" if extra else "")
    working.step("cloth", "cuts × cut, and what is taken once", sum_, say(total))
    return CutsAnswer(cut, n, extra, total, method, working)
