"""Stack-back by the third rule. A third of the window, a sixth on each side."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer
from halfdrop.drapery.stack.share import of_window
from halfdrop.practice import Practice


def stack_third(window: float, practice: Practice) -> LengthAnswer:
    """Return the total stack [m] of panels that clear a window.

    Source: common practice (rod and home guides); under-reads narrow windows. Checked by: tests/published/drapery_stack_rules.csv.
    """
    return of_window("third", window, "drapery.stack_third_share", practice)
