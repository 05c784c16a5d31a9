"""Stack-back by make: a share of the window for unlined, lined, blackout or interlined panels, and more for a pile."""

from __future__ import annotations

from typing import Literal

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Make = Literal["unlined", "lined", "blackout", "interlined"]


def stack_percent(window: float, make: Make, practice: Practice, *, pile: bool = False) -> LengthAnswer:
    """Return the total stack [m]: 10, 15, 20 or 25 % of the window, and 5 % more for velvet or chenille.

    Source: common practice (a trade article). Checked by: tests/published/drapery_stack_rules.csv.
    """
    say = Words(practice)
    keys = [f"drapery.stack_percent_{make}"] + (["drapery.stack_percent_pile"] if pile else [])
    share = sum(practice.number(key) for key in keys)
    return one_step("Stack", "percent", share * window, "share by make × window",
                    f"{share:g} × {say(window)}", say.cited(*keys), practice)  # fmt: skip
