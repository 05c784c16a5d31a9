"""The rug under a bed: past both sides and the foot, begun clear of the headboard and the nightstands."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.answer import RugAnswer, search, standards
from halfdrop.rugs.box import Box
from halfdrop.rugs.sizes import made_sizes

_START, _START_MOST = "rugs.bed_headboard_start", "rugs.bed_headboard_start_most"


def wanted_bed(
    width: float,
    length: float,
    practice: Practice,
    *,
    nightstand_depth: float = 0.0,
    room: Box | None = None,
    room_area: float | None = None,
) -> RugAnswer:
    """Return the rug a bed wants.

    The frame: the middle of the bed's head is the origin, y runs from the head to the foot.

    Parameters
    ----------
    width, length : float
        The bed's [m].
    practice : Practice
        `rugs.bed_*`, `rugs.nightstand_gap`, bare floor, made sizes.
    nightstand_depth : float
        Depth of the nightstands from the bed's head [m]; 0 without. The rug begins clear of them.
    room : Box, optional
        The clear floor, walls to walls, in the bed's frame. The wall at the head sets no bare floor,
        since the rug begins under the bed.
    room_area : float, optional
        Floor area that tells a small room [m²]; by default the box's.

    Returns
    -------
    RugAnswer
        Where the room does not let the target lie, the floor: `rugs.bed_*_floor`, begun as far down
        the bed as `rugs.bed_headboard_start_most`.

    Source: common practice: width + 2 × side, length − start + foot, next made size up.

    Checked by: tests/published/rugs_wanted.csv (queen, king).
    """
    working = Working("Rug under the bed")
    clear = nightstand_depth + practice.length("rugs.nightstand_gap") if nightstand_depth > 0 else 0.0
    target = _box(width, length, "target", max(practice.length(_START), clear), practice, working)
    floor = _box(width, length, "floor", max(practice.length(_START_MOST), clear), practice, working)
    bed = Box(-width / 2, 0.0, width / 2, length)
    # What a made size has to spare goes to the foot; at the head the rug stays clear of the nightstands.
    spare = (0.0, 3 * length)
    tries = standards(target, floor, practice, core=bed, prefer=spare, room=room, room_area=room_area)
    tries = [replace(one, within=_from_head(one.within, clear)) for one in tries]
    return search(tries, made_sizes(practice), practice, working)


def _box(
    width: float, length: float, standard: str, start: float, practice: Practice, working: Working
) -> Box:
    """Return what has to be covered under one standard, and write it into the working."""
    say = Words(practice)
    side_key, foot_key = f"rugs.bed_side_{standard}", f"rugs.bed_foot_{standard}"
    side, foot = practice.length(side_key), practice.length(foot_key)
    start = min(start, length)
    word = "as aimed for" if standard == "target" else "the least"
    working.step(f"across the bed, {word}", "bed + 2 × side", f"{say(width)} + 2 × {say(side)}",
                 say(width + 2 * side), source=say.cited(side_key))  # fmt: skip
    working.step(f"along the bed, {word}", "bed − start + foot",
                 f"{say(length)} − {say(start)} + {say(foot)}",
                 say(length - start + foot),
                 source=say.cited(_START if standard == "target" else _START_MOST, foot_key))  # fmt: skip
    return Box(-width / 2 - side, start, width / 2 + side, length + foot)


def _from_head(within: Box | None, clear: float) -> Box:
    """Let the box the rug stays in begin at the head, clear of the nightstands."""
    if within is None:
        return Box(-inf, clear, inf, inf)
    return Box(within.x0, clear, within.x1, within.y1)
