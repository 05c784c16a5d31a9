"""Stack-back as a share: of the window, or of the rod itself."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def of_window(method: str, window: float, key: str, practice: Practice) -> LengthAnswer:
    """Return a share of the window [m]."""
    say, share = Words(practice), practice.number(key)
    return one_step(
        "Stack",
        method,
        share * window,
        "share × window",
        f"{share:g} × {say(window)}",
        say.cited(key),
        practice,
    )


def stack_of_rod(window: float, practice: Practice, *, wave: bool = False) -> LengthAnswer:
    """Return the stack [m] where it is a share k of the rod: rod = window ÷ (1 − k).

    Source: algebra; the shares are common practice, from memory. Checked by: tests/drapery/test_stack.py.
    """
    key = "drapery.stack_share_wave" if wave else "drapery.stack_share_pleated"
    say, share = Words(practice), practice.number(key)
    rod = window / (1 - share)
    return one_step("Stack", "share of the rod", rod - window, "window ÷ (1 − share) − window",
                    f"{say(window)} ÷ {1 - share:g} − {say(window)}", say.cited(key), practice)  # fmt: skip
