"""Two rings or plates straight on two hooks, without a wire: mirrors and heavy frames."""

from __future__ import annotations

from halfdrop.art.wire import Hang, check_drop
from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def two_rings(width: float, height: float, down: float, hangers: float, practice: Practice) -> Hang:
    """Return how a frame hangs by two rings, each on a hook of its own.

    Parameters
    ----------
    width, height : float
        Of the frame [m].
    down : float
        Top of the frame down to the inner upper edge of the rings, where the hooks bear [m].
    hangers : float
        Between the rings [m]; above 0, less than `width`.
    practice : Practice
        `art.hook_below_top`.

    Raises
    ------
    InputError
        Where the rings, or the hooks, would stand outside the frame.

    Source: statics: each hook carries half, upright. Checked by: tests/art/test_wire.py.
    """
    say = Words(practice)
    if not 0 < hangers < width:
        raise InputError(
            f"the rings are {say(hangers)} apart on a frame {say(width)} wide; they have to be on the frame"
        )
    notes = check_drop(down, height, practice)
    working = Working("Two rings on two hooks")
    working.step(
        "top of the frame to the hooks",
        "as measured, to the inner upper edge of the rings",
        say(down),
        say(down),
    )
    working.step("pull on one hook", "weight ÷ 2", "1 ÷ 2", "0.500 × the weight", source="statics")
    return Hang("two rings", down, (-hangers / 2, hangers / 2), None, None, 0.5, notes, working)
