"""Plain cloth: each cut takes its own length."""

from __future__ import annotations

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.repeats.answer import CutsAnswer
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def plain_cuts(plain: float, count: int, practice: Practice) -> CutsAnswer:
    """Return cuts of their own length [m].

    Source: common practice. Checked by: tests/published/drapery_cuts.csv.
    """
    say = Words(practice)
    if plain <= 0 or count < 1:
        raise InputError(f"{count} cuts of {say(plain)} are nothing to cut")
    working = Working("Cut length, plain")
    working.step("cloth", "cuts × cut", f"{count} × {say(plain)}", say(count * plain))
    return CutsAnswer(plain, 0.0, 0.0, count * plain, "plain", working)
