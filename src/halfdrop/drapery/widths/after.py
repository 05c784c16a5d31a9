"""Flat width with overlap, returns and side hems added flat, after the fullness."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def flat_after(rod: float, added: float, fullness: float, practice: Practice) -> LengthAnswer:
    """Return rod × fullness + what is added flat: overlap, returns, side hems [m].

    Source: common practice (a UK measuring guide). Checked by: tests/published/drapery_widths.csv.
    """
    say = Words(practice)
    return one_step("Flat width", "after", rod * fullness + added, "rod × fullness + added flat",
                    f"{say(rod)} × {fullness:g} + {say(added)}", "common practice: added flat", practice)  # fmt: skip
