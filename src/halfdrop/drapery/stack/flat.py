"""Stack-back by the flat rule. A flat 15 % of the window."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer
from halfdrop.drapery.stack.share import of_window
from halfdrop.practice import Practice


def stack_flat(window: float, practice: Practice) -> LengthAnswer:
    """Return the total stack [m] of panels that clear a window.

    Source: common practice (a measuring page). Checked by: tests/published/drapery_stack_rules.csv.
    """
    return of_window("flat", window, "drapery.stack_flat_share", practice)
