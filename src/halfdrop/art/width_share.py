"""How wide a work or a group is against what it hangs over: a piece, or an empty wall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Over = Literal["piece", "wall"]
Verdict = Literal["too narrow", "narrow", "as wanted", "wide"]
_KEYS: dict[str, tuple[str | None, str, str]] = {
    "piece": ("art.over_width_least", "art.over_width_low", "art.over_width_high"),
    "wall": (None, "art.wall_width_low", "art.wall_width_high"),
}


@dataclass(frozen=True)
class WidthShare:
    """How wide it is, and how wide it wants to be.

    Attributes
    ----------
    share : float
        Width of the work ÷ width below it, or of the wall.
    wanted : (float, float)
        Widths of a work that go with it [m].
    verdict : str
        "too narrow" (under the least), "narrow", "as wanted" or "wide".
    working : Working
        The steps.
    """

    share: float
    wanted: tuple[float, float]
    verdict: Verdict
    working: Working


def width_share(width: float, over: float, practice: Practice, *, kind: Over = "piece") -> WidthShare:
    """Return the share of a width that a work or group takes.

    Parameters
    ----------
    width : float
        Of the frame, or of the whole group [m].
    over : float
        Width of the piece below, or free width of the wall [m]; above 0.
    practice : Practice
        `art.over_width_least`, `_low`, `_high`; or `art.wall_width_low`, `_high`.
    kind : {"piece", "wall"}
        What it is measured against.

    Raises
    ------
    InputError
        Where there is no width to measure against.

    Source: common practice, from memory. Checked by: tests/art/test_height.py, tests/published/art_height.csv.
    """
    if over <= 0:
        raise InputError(f"the {kind} is {over:g} m wide; allowed is above 0")
    say = Words(practice)
    least_key, low_key, high_key = _KEYS[kind]
    low, high = practice.number(low_key) * over, practice.number(high_key) * over
    least = practice.number(least_key) * over if least_key else 0.0
    verdict: Verdict = "as wanted"
    if width < least - SAME:
        verdict = "too narrow"
    elif width < low - SAME:
        verdict = "narrow"
    elif width > high + SAME:
        verdict = "wide"
    working = Working(f"Width against the {kind}")
    working.step("share", f"width ÷ width of the {kind}", f"{say(width)} ÷ {say(over)}", f"{width / over:.3f}",
                 rounding="to three digits")  # fmt: skip
    working.step("wanted", f"least to most × width of the {kind}",
                 f"{practice.number(low_key):g} to {practice.number(high_key):g} × {say(over)}",
                 f"{say(low)} to {say(high)}: {verdict}",
                 source=say.cited(*filter(None, (least_key, low_key, high_key))))  # fmt: skip
    return WidthShare(width / over, (low, high), verdict, working)
