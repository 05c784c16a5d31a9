"""Finished length at each end of a panel, over a floor that may run off."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.job.treatments import LengthStyle
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_STYLE = {
    "clear": ("drapery.floor_clear", -1.0),
    "kiss": ("drapery.floor_kiss", -1.0),
    "break": ("drapery.floor_break", 1.0),
    "puddle": ("drapery.floor_puddle", 1.0),
    "apron": ("drapery.apron_below", 1.0),
    "sill": ("drapery.sill_clear", -1.0),
}
_LEAST_RUN = "drapery.floor_run_least"


@dataclass(frozen=True)
class PanelLength:
    """The finished length of one panel at its left and right edge [m]."""

    left: float
    right: float

    @property
    def longest(self) -> float:
        """What it is cut to."""
        return max(self.left, self.right)


@dataclass(frozen=True)
class LengthsAnswer:
    """The panels' lengths from left to right, and the steps."""

    panels: tuple[PanelLength, ...]
    working: Working

    @property
    def longest(self) -> float:
        """What all panels are cut to [m]."""
        return max(panel.longest for panel in self.panels)


def drop_at(x: float, points: Sequence[tuple[float, float]]) -> float:
    """Return a measure between the points where it was taken, by straight lines; beyond them it stays as at the last [m]."""
    ordered = sorted(points)
    if x <= ordered[0][0]:
        return ordered[0][1]
    for (a, p), (b, q) in itertools.pairwise(ordered):
        if x <= b:
            return p + (q - p) * (x - a) / (b - a)
    return ordered[-1][1]


def finished_lengths(
    drops: Sequence[tuple[float, float]],
    panels: Sequence[tuple[float, float]],
    style: LengthStyle,
    practice: Practice,
    *,
    shorter: float = 0.0,
) -> LengthsAnswer:
    """Return each panel's finished length at its two edges.

    Parameters
    ----------
    drops : sequence of (float, float)
        Where along the wall, and how far it is there from the top of the cloth to the floor, or to the sill for sill and apron
        length [m].
    panels : sequence of (float, float)
        Left and right edge of each panel, shut, on the same scale [m].
    style : {"clear", "kiss", "break", "puddle", "apron", "sill"}
        Where the hem lies.
    practice : Practice
        The style's value; a run of less than `drapery.floor_run_least` is not followed, the least drop counts.
    shorter : float
        Taken off besides, as for a sheer behind [m].

    Raises
    ------
    InputError
        Where nothing was measured, or what is left is no length.

    Source: common practice; kiss is our choice. Checked by: tests/drapery/test_lengths.py.
    """
    say = Words(practice)
    if not drops or not panels:
        raise InputError(
            "no drop was measured", hint="give the hardware's `height`, or `measured: floor` at three points"
        )
    key, sign = _STYLE[style]
    value = float(practice.length(key))
    low, high = min(d for _, d in drops), max(d for _, d in drops)
    level = high - low < float(practice.length(_LEAST_RUN))
    found = []
    working = Working("Finished length")
    for number, edges in enumerate(panels, 1):
        ends = [(low if level else drop_at(x, drops)) + sign * value - shorter for x in edges]
        if min(ends) <= 0:
            raise InputError(f"panel {number} would be {say(min(ends))} long")
        found.append(PanelLength(*ends))
        drop = " and ".join(dict.fromkeys(say(low if level else drop_at(x, drops)) for x in edges))
        less = f" − {say(shorter)}" if shorter else ""
        working.step(f"panel {number}", f"drop {'+' if sign > 0 else '−'} {style}" + (" − shorter" if shorter else ""),
                     f"{drop} {'+' if sign > 0 else '−'} {say(value)}{less}",
                     say(ends[0]) if say(ends[0]) == say(ends[1]) else f"{say(ends[0])} left, {say(ends[1])} right",
                     source=say.cited(key))  # fmt: skip
    run = f"{say(low)} to {say(high)}"
    working.step("floor", "level where it runs off by less than the least that is followed", run,
                 "level" if level else "followed", source=say.cited(_LEAST_RUN))  # fmt: skip
    return LengthsAnswer(tuple(found), working)
