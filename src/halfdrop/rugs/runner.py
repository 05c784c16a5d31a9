"""The runner in a hall: bare floor on both sides, short of both ends."""

from __future__ import annotations

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.answer import RugAnswer
from halfdrop.rugs.box import Box
from halfdrop.rugs.sizes import made_sizes, next_size_down

_SIDE, _END = "rugs.runner_bare_side", "rugs.runner_bare_end"


def wanted_runner(width: float, length: float, practice: Practice) -> RugAnswer:
    """Return the largest made runner that a hall takes; the frame is the hall's middle, y along it.

    Parameters
    ----------
    width, length : float
        The hall's, walls to walls [m].
    practice : Practice
        `rugs.runner_bare_side`, `rugs.runner_bare_end`, made runners.

    Source: common practice.

    Checked by: tests/rugs/test_wanted.py.
    """
    working = Working("Runner in the hall")
    say = Words(practice)
    side, end = practice.length(_SIDE), practice.length(_END)
    most = Box.sized(width - 2 * side, length - 2 * end)
    working.step("largest width", "hall − 2 × bare side", f"{say(width)} − 2 × {say(side)}",
                 say(most.across), source=say.cited(_SIDE))  # fmt: skip
    working.step("largest length", "hall − 2 × bare end", f"{say(length)} − 2 × {say(end)}",
                 say(most.along), source=say.cited(_END))  # fmt: skip
    along = [s for s in made_sizes(practice, "runner") if s.width <= most.across + 1e-9]
    laid = next_size_down(most.across, most.along, along)
    asked = say.pair(most.across, most.along)
    if laid is None:
        working.step("made size", "next made size down", asked, "none")
        return RugAnswer(most, most, None, None, "none", None, (f"no made runner lies in {asked}",), working)
    working.step("made size", "next made size down", asked, laid.size.name(say.units),
                 rounding="down to a made size, so that the bare floor is kept",
                 source=say.cited("rugs.made_sizes_runner"))  # fmt: skip
    bare = (width - laid.across) / 2
    return RugAnswer(most, most, laid, Box.sized(laid.across, laid.along), "target", bare, (), working)
