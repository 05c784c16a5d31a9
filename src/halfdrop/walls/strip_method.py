"""The strip method: strips round the room, strips from a roll, rolls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.cut_length import CutLength, ceil_steps, floor_steps, half_drop_cut, straight_cut

Match = Literal["free", "straight", "half-drop", "reverse-hung"]
_TRIM = "walls.trim_each_end"


@dataclass(frozen=True)
class StripAnswer:
    """Rolls by the strip method.

    Attributes
    ----------
    strips, per_roll, rolls : int
        Strips to hang, whole strips from one roll, rolls.
    cut : CutLength
        What is cut off the roll for each.
    """

    strips: int
    per_roll: int
    rolls: int
    cut: CutLength
    working: Working


def strips_round(run: float, roll_width: float) -> int:
    """Return how many strips cover a run of wall [m]: ceil(run / roll width).

    Source: trade method, common practice. Checked by: tests/walls/test_strips.py.
    """
    return ceil_steps(run / roll_width)


def strip_method(
    run: float,
    height: float,
    roll: tuple[float, float],
    practice: Practice,
    *,
    match: Match = "free",
    repeat: float = 0.0,
    trim: float | None = None,
) -> StripAnswer:
    """Return the rolls a run of wall wants by strips; openings are not deducted.

    Parameters
    ----------
    run, height : float
        Wall lengths together, and the height covered, above 0 [m].
    roll : (float, float)
        Width and length [m].
    practice : Practice
        `walls.trim_each_end`.
    match, repeat : str, float
        Of the paper; repeat 0 is free [m].
    trim : float, optional
        Top and bottom together [m]; twice practice's where not given.

    Raises
    ------
    InputError
        Where one strip is longer than a roll.

    Source: trade method, common practice: floor(roll / cut) strips a roll, ceil(strips / strips a roll) rolls.

    Checked by: tests/walls/test_strips.py.
    """
    say = Words(practice)
    width, length = roll
    working = Working("Paper by strips")
    strips = strips_round(run, width)
    working.step(
        "strips", "ceil(run / roll width)", f"ceil({say(run)} / {say(width)})", str(strips),
        rounding="up: a part strip is a strip", source="trade method, common practice",
    )  # fmt: skip
    both = 2 * practice.length(_TRIM) if trim is None else trim
    halved = match == "half-drop" and repeat > 0
    cut = (half_drop_cut if halved else straight_cut)(height, both, repeat, say, working)
    per_roll = floor_steps(length / cut.length)
    if per_roll == 0 and cut.needed <= length + 1e-9:
        per_roll = 1
    if per_roll == 0:
        raise InputError(
            f"a strip of {say(cut.needed)} is longer than a roll of {say(length)}",
            hint="take a paper with longer rolls, or cover less height (`bottom`, `top`)",
        )
    rolls = -(-strips // per_roll)
    working.step(
        "strips a roll", "floor(roll / cut)", f"floor({say(length)} / {say(cut.length)})", str(per_roll),
        rounding="down: only whole strips hang", source="trade method, common practice",
    )  # fmt: skip
    working.step(
        "rolls", "ceil(strips / strips a roll)", f"ceil({strips} / {per_roll})", str(rolls),
        rounding="up to whole rolls", source="trade method, common practice",
    )  # fmt: skip
    return StripAnswer(strips, per_roll, rolls, cut, working)
