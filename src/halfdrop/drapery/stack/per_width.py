"""Stack-back by the cloth itself: so much for each width in the stack."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_EACH = "drapery.stack_per_width"


def stack_per_width(widths: float, practice: Practice) -> LengthAnswer:
    """Return the total stack [m] of that many widths of cloth.

    Source: common practice (a note of a cloth merchant: 5 to 6 in a width). Checked by: tests/drapery/test_stack.py.
    """
    say, each = Words(practice), practice.length(_EACH)
    return one_step("Stack", "per width", widths * each, "widths × stack of one", f"{widths:g} × {say(each)}",
                    say.cited(_EACH), practice)  # fmt: skip
