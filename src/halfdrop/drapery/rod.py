"""Rod length: past the glass by the stack, as far as the wall lets it."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.drapery.stack import StackAnswer
from halfdrop.job.treatments import Draw
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_LEAST, _TARGET = "drapery.extension_least", "drapery.extension_target"


@dataclass(frozen=True)
class RodAnswer:
    """The rod over a window.

    Attributes
    ----------
    length : float
        End to end without finials [m].
    left, right : float
        Past the glass on each side [m].
    covered : float
        Glass that the stack still covers, because the wall ends [m]; 0 where all of it is clear.
    working : Working
        The steps.
    """

    length: float
    left: float
    right: float
    covered: float
    working: Working


def rod_for(
    glass: float,
    stack: StackAnswer | None,
    practice: Practice,
    *,
    draw: Draw = "pair",
    room_left: float = inf,
    room_right: float = inf,
) -> RodAnswer:
    """Return the rod whose stack clears the glass.

    Parameters
    ----------
    glass : float
        What is to be clear when the panels are drawn back [m].
    stack : StackAnswer or None
        The stack of both panels, or of the one of a one-way draw; not needed for fixed panels.
    practice : Practice
        `drapery.extension_least`, `drapery.extension_target`.
    draw : {"pair", "left", "right", "fixed"}
        A pair stacks half on each side; a one-way draw on the side it is named for; fixed panels stay.
    room_left, room_right : float
        Wall beside the glass that a rod with its finial may take [m].

    Source: common practice: the stack decides; the extensions by eye are for panels that stay.
    Checked by: tests/drapery/test_rod.py.
    """
    say = Words(practice)
    least, target = float(practice.length(_LEAST)), float(practice.length(_TARGET))
    total = 0.0 if stack is None or draw == "fixed" else stack.total
    shares = {"pair": (0.5, 0.5), "left": (1.0, 0.0), "right": (0.0, 1.0), "fixed": (0.0, 0.0)}[draw]
    floor = target if draw == "fixed" else least
    wanted = [max(floor, share * total) for share in shares]
    rooms = (max(0.0, room_left), max(0.0, room_right))
    got = [min(want, room) for want, room in zip(wanted, rooms, strict=True)]
    covered = sum(
        max(0.0, share * total - have) for share, have in zip(shares, got, strict=True)
        if not at_least(have, share * total)
    )  # fmt: skip
    length = glass + got[0] + got[1]
    working = Working("Rod length")
    if stack is not None:
        working.steps.extend(stack.working.steps)
    for side, want, have in zip(("left", "right"), wanted, got, strict=True):
        cut = "" if have == want else f"; the wall leaves {say(have)}"
        working.step(f"past the glass, {side}", "its share of the stack, or the least", f"{say(want)}{cut}", say(have),
                     source=say.cited(_TARGET if draw == "fixed" else _LEAST))  # fmt: skip
    working.step("rod", "glass + left + right", f"{say(glass)} + {say(got[0])} + {say(got[1])}", say(length))
    if covered:
        working.step("glass still covered", "stack − what the wall leaves", say(covered), say(covered))
    return RodAnswer(length, got[0], got[1], covered, working)
