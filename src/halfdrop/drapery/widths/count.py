"""How many widths of cloth make a flat width."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

#: Widths nearer than this to a whole or a half are that: arithmetic noise joins no width.
_NOISE = 1e-6


@dataclass(frozen=True)
class WidthsAnswer:
    """Widths of cloth.

    Attributes
    ----------
    exact : float
        Flat width over usable width.
    widths : float
        In all; halves where a width is split between the panels of a pair.
    per_panel : float
        Widths of one panel.
    cuts : int
        Full widths to cut.
    working : Working
        The steps.
    """

    exact: float
    widths: float
    per_panel: float
    cuts: int
    working: Working


def count_widths(
    flat: float,
    usable: float,
    practice: Practice,
    *,
    panels: int = 2,
    method: Literal["half", "whole"] | None = None,
) -> WidthsAnswer:
    """Return the widths that a flat width takes.

    Parameters
    ----------
    flat : float
        Flat width of all panels together [m].
    usable : float
        Usable width of the cloth, selvages and seams off [m].
    practice : Practice
        `drapery.widths_method`.
    panels : int
        1 or 2.
    method : {"half", "whole"}, optional
        `half`: each panel of a pair to the next half width (4.07 widths are billed as 5); `whole`: all panels to the next whole
        width. One panel takes whole widths by either; by default practice's.

    Raises
    ------
    InputError
        Where a width or the number of panels is not above 0.

    Source: common practice (workrooms). Checked by: tests/published/drapery_widths.csv.
    """
    say = Words(practice)
    if usable <= 0 or flat <= 0 or panels not in (1, 2):
        raise InputError(f"{say(flat)} of cloth {say(usable)} wide for {panels} panels cannot be counted")
    how = method or practice.text("drapery.widths_method")
    exact = flat / usable
    if panels == 2 and how == "half":
        per_panel = max(0.5, math.ceil(exact - 2 * _NOISE) / 2)
        widths = 2 * per_panel
        rounding = "each panel up to the next half width"
    else:
        widths = float(max(1, math.ceil(exact - _NOISE)))
        per_panel = widths / panels
        rounding = "up to the next whole width"
    working = Working("Widths")
    working.step("widths", "flat width ÷ usable width", f"{say(flat)} ÷ {say(usable)} = {exact:.2f}",
                 f"{widths:g}, {per_panel:g} to a panel", rounding=rounding,
                 source=say.cited("drapery.widths_method") if method is None else "as chosen")  # fmt: skip
    return WidthsAnswer(exact, widths, per_panel, math.ceil(widths - _NOISE), working)
