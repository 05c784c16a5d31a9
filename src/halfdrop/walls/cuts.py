"""Every length of paper a run wants: whole strips, and the short ones over and under openings, each with its phase."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.tolerance import SAME
from halfdrop.walls.setting_out import Column, SettingOut
from halfdrop.walls.strip_method import Match

Where = Literal["whole", "above", "below"]


@dataclass(frozen=True)
class Cut:
    """One length of paper.

    Attributes
    ----------
    id : str
        `AB-BC-CD-DA/-2`, with `/above door` or `/below window-1` for a short one.
    column : int
        Its strip's index in the setting-out.
    where : {"whole", "above", "below"}
        A whole strip, or the length over or under an opening.
    bottom, top : float
        What it covers, above the floor [m].
    length : float
        Cut off the roll: what it covers and its trim at both ends [m].
    phase : float
        Where in the pattern its top edge lies, downward from the mark [m], 0 … repeat; 0 where there is no repeat.
    turned : bool
        Whether it hangs head down (reverse-hung paper, every second strip).
    """

    id: str
    column: int
    where: Where
    bottom: float
    top: float
    length: float
    phase: float
    turned: bool = False


def cuts_of(
    out: SettingOut,
    *,
    match: Match = "free",
    repeat: float = 0.0,
    trim: float = 0.0,
    bottom: float = 0.0,
    top: float | None = None,
) -> tuple[Cut, ...]:
    """Return the lengths that a run set out wants.

    A strip is left out, or only its part over or under an opening is cut, where one opening takes its whole width;
    an opening that takes part of a strip is cut out of it and saves nothing.

    Parameters
    ----------
    out : SettingOut
        The run.
    match, repeat : str, float
        Of the paper [m]. The mark of the pattern stands at the highest ceiling of the run, level all round; half-drop
        strips stand half a repeat lower by turns. A reverse-hung paper is cut alike for all strips.
    trim : float
        At each end [m].
    bottom, top : float, optional
        The band that is covered [m].

    Source: common practice, no source.

    Checked by: tests/walls/test_cuts.py.
    """
    chain = out.chain
    datum = chain.highest if top is None else min(chain.highest, top)
    found: list[Cut] = []
    for column in out.columns:
        roof = chain.ceiling(column.start, column.end)
        roof = roof if top is None else min(roof, top)
        drop = repeat / 2 if match == "half-drop" and column.index % 2 else 0.0
        for where, low, high, name in _parts(out, column, bottom, roof):
            phase = (datum - high - trim + drop) % repeat if repeat else 0.0
            phase = 0.0 if repeat - phase < 1e-7 else phase
            key, long = f"{chain.name}/{column.index}{name}", high - low + 2 * trim
            turned = match == "reverse-hung" and column.index % 2 == 1
            found.append(Cut(key, column.index, where, low, high, long, phase, turned))
    return tuple(found)


def _parts(
    out: SettingOut, column: Column, bottom: float, roof: float
) -> Sequence[tuple[Where, float, float, str]]:
    """Return what of a strip is hung: all of it, or what an opening over its whole width leaves."""
    if roof - bottom <= SAME:
        return []
    chain = out.chain
    for hole, start, end in chain.holes:
        if not any(a <= column.start + SAME and column.end <= b + SAME for a, b in chain.spans(start, end)):
            continue
        parts: list[tuple[Where, float, float, str]] = []
        if roof - hole.top > SAME:
            parts.append(("above", max(hole.top, bottom), roof, f"/above {hole.id}"))
        if hole.bottom - bottom > SAME:
            parts.append(("below", bottom, min(hole.bottom, roof), f"/below {hole.id}"))
        return parts
    return [("whole", bottom, roof, "")]
