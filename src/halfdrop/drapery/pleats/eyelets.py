"""Eyelets: an even number, evenly spaced, half a space to each edge, so that both edges turn to the wall."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.pleats.share import shared
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_SPACE = "drapery.eyelet_space_target"


@dataclass(frozen=True)
class EyeletsAnswer:
    """Centers of the eyelets from the panel's left edge [mm], laid flat, and the steps."""

    at: tuple[int, ...]
    working: Working


def eyelets(flat: float, practice: Practice) -> EyeletsAnswer:
    """Return where the eyelets of a panel sit.

    Parameters
    ----------
    flat : float
        Width of the panel hemmed, laid flat [m].
    practice : Practice
        `drapery.eyelet_space_target`.

    Raises
    ------
    InputError
        Where the panel has no width.

    Source: common practice. Checked by: tests/drapery/test_pleats.py.
    """
    say = Words(practice)
    total, target = round(1000 * flat), 1000 * float(practice.length(_SPACE))
    if total <= 0:
        raise InputError(f"a panel {say(flat)} wide takes no eyelets")
    count = max(2, 2 * round(total / target / 2))
    halves = shared(total, 2 * count)
    at = tuple(sum(halves[: 2 * i + 1]) for i in range(count))
    working = Working("Eyelets")
    working.step("eyelets", "flat ÷ aim, nearest even number", f"{total} ÷ {target:.0f} mm", f"{count}",
                 rounding="to an even number", source=say.cited(_SPACE))  # fmt: skip
    working.step(
        "space", "flat ÷ eyelets; half of it at each edge", f"{total} ÷ {count}", f"{total / count:.1f} mm"
    )
    return EyeletsAnswer(at, working)
