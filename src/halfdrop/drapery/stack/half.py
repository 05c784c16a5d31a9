"""Stack-back by the half rule. Half the window: rod = 1.5 × window, the stack a third of the drapery's width."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer
from halfdrop.drapery.stack.share import of_window
from halfdrop.practice import Practice


def stack_half(window: float, practice: Practice) -> LengthAnswer:
    """Return the total stack [m] of panels that clear a window.

    Source: common practice (a household article). Checked by: tests/published/drapery_stack_rules.csv.
    """
    return of_window("half", window, "drapery.stack_half_share", practice)
