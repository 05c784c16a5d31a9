"""The lining: its own widths, its own cut."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.drapery.widths import WidthsAnswer, count_widths
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_ALLOWANCE = "drapery.lining_allowance"


@dataclass(frozen=True)
class LiningAnswer:
    """Cut [m], widths and total [m] of a lining, and the steps."""

    cut: float
    widths: WidthsAnswer
    total: float
    working: Working


def lining_for(
    finished: float, flat: float, usable: float, practice: Practice, *, panels: int = 2
) -> LiningAnswer:
    """Return the lining of panels with a finished length and a flat width [m].

    Parameters
    ----------
    finished, flat : float
        Of the face cloth [m].
    usable : float
        Usable width of the lining [m].
    practice : Practice
        `drapery.lining_allowance`.
    panels : int
        1 or 2.

    Source: common practice (a US workroom: 10 in for hem and heading). Checked by: tests/published/drapery_cuts.csv.
    """
    say = Words(practice)
    allowance = practice.length(_ALLOWANCE)
    cut = finished + allowance
    widths = count_widths(flat, usable, practice, panels=panels)
    working = Working("Lining")
    working.step(
        "cut",
        "finished + hem and heading",
        f"{say(finished)} + {say(allowance)}",
        say(cut),
        source=say.cited(_ALLOWANCE),
    )
    working.steps.extend(widths.working.steps)
    working.step("lining", "widths cut × cut", f"{widths.cuts} × {say(cut)}", say(widths.cuts * cut))
    return LiningAnswer(cut, widths, widths.cuts * cut, working)
