"""The rug that follows the room: an even border of bare floor all round, the next made size down."""

from __future__ import annotations

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.answer import RugAnswer
from halfdrop.rugs.box import Box
from halfdrop.rugs.sizes import made_sizes, next_size_down


def wanted_border(
    room: Box, practice: Practice, *, border: float | None = None, room_area: float | None = None
) -> RugAnswer:
    """Return the largest made size that leaves a border of bare floor.

    Parameters
    ----------
    room : Box
        The floor, walls to walls [m].
    practice : Practice
        `rugs.bare_floor_target`, in a small room `rugs.bare_floor_min`, in a large one
        `rugs.bare_floor_large_room`; made sizes.
    border : float, optional
        The border, where it is chosen [m].
    room_area : float, optional
        Floor area that tells a small or large room [m²]; by default the box's.

    Source: common practice: room − 2 × border, next made size down.

    Checked by: tests/published/rugs_wanted.csv (room border).
    """
    working = Working("Rug to the room's border")
    say = Words(practice)
    area = room.area if room_area is None else room_area
    key = "rugs.bare_floor_target"
    if area <= practice.area("rugs.small_room_area") + 1e-9:
        key = "rugs.bare_floor_min"
    elif area >= practice.area("rugs.large_room_area") - 1e-9:
        key = "rugs.bare_floor_large_room"
    edge = float(practice.length(key)) if border is None else border
    most = room.grown(-edge)
    source = say.cited(key) if border is None else "border as chosen"
    working.step("largest rug", "room − 2 × border",
                 f"{say.pair(room.across, room.along)} − 2 × {say(edge)}",
                 say.pair(most.across, most.along), source=source)  # fmt: skip
    laid = next_size_down(most.across, most.along, made_sizes(practice))
    if laid is None:
        why = f"no made size lies in {say.pair(most.across, most.along)}"
        working.step("made size", "next made size down", say.pair(most.across, most.along), "none")
        return RugAnswer(most, most, None, None, "none", None, (why,), working)
    lies = Box.sized(laid.across, laid.along, room.center)
    name = laid.size.name(say.units)
    working.step("made size", "next made size down", say.pair(most.across, most.along),
                 f"{name}, lying {say.pair(laid.across, laid.along)}",
                 rounding="down to a made size, so that the border is kept",
                 source=say.cited("rugs.made_sizes_rectangle"))  # fmt: skip
    left, front = lies.x0 - room.x0, lies.y0 - room.y0
    working.step("border as it comes out", "(room − rug) ÷ 2",
                 f"({say.pair(room.across, room.along)} − {say.pair(laid.across, laid.along)}) ÷ 2",
                 f"{say(left)} at the sides, {say(front)} at the ends")  # fmt: skip
    return RugAnswer(most, most, laid, lies, "target", min(left, front), (), working)
