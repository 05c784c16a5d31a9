"""The rug under a dining table: table and extension on every side, the chairs pulled out."""

from __future__ import annotations

from collections.abc import Sequence

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.answer import RugAnswer, search, standards
from halfdrop.rugs.box import Box, Point
from halfdrop.rugs.sizes import made_sizes

_FLOOR, _TARGET, _PULL = "rugs.dining_extension_floor", "rugs.dining_extension_target", "rugs.dining_pullout"


def wanted_dining(
    table: Box,
    practice: Practice,
    *,
    pulled_out: Sequence[Point] = (),
    room: Box | None = None,
    room_area: float | None = None,
) -> RugAnswer:
    """Return the rug a rectangular dining table wants.

    Parameters
    ----------
    table : Box
        The table top, in the frame the rug lies square to [m].
    practice : Practice
        Extension (`rugs.dining_extension_target`, `_floor`), pull-out, bare floor, made sizes.
    pulled_out : sequence of (x, y)
        Back legs of the chairs pulled out, in the same frame [m]; the target holds them all.
    room : Box, optional
        The clear floor, walls to walls; then the rug also keeps the bare floor of practice.
    room_area : float, optional
        Floor area that tells a small room [m²]; by default the box's.

    Source: common practice: table + 2 × extension, next made size up.

    Checked by: tests/published/rugs_wanted.csv (dining).
    """
    working = Working("Rug under the dining table")
    say = Words(practice)
    reach = max(practice.length(_TARGET), practice.length(_PULL))
    target = table.grown(reach)
    floor = table.grown(practice.length(_FLOOR))
    size = say.pair(table.across, table.along)
    working.step("wanted, as aimed for", "table + 2 × the larger of extension and pull-out",
                 f"{size} + 2 × {say(reach)}", say.pair(target.across, target.along),
                 source=say.cited(_TARGET, _PULL))  # fmt: skip
    if pulled_out:
        target = target.with_points(pulled_out)
        legs = f"{len(pulled_out)} back legs"
        working.step("with the chairs pulled out", "box of both", legs, say.pair(target.across, target.along))
    working.step("wanted, the least", "table + 2 × extension",
                 f"{size} + 2 × {say(practice.length(_FLOOR))}",
                 say.pair(floor.across, floor.along), source=say.cited(_FLOOR))  # fmt: skip
    tries = standards(
        target, floor, practice, core=table, prefer=table.center, room=room, room_area=room_area
    )
    return search(tries, made_sizes(practice), practice, working)


def wanted_round_table(
    diameter: float,
    practice: Practice,
    *,
    center: Point = (0.0, 0.0),
    room: Box | None = None,
    room_area: float | None = None,
) -> RugAnswer:
    """Return the round rug a round dining table wants.

    Parameters
    ----------
    diameter : float
        The table's [m].
    practice : Practice
        `rugs.round_table_extra_target`, `_floor`; made sizes.
    center : (x, y)
        The table's [m].
    room, room_area
        As for `wanted_dining`.

    Source: common practice: rug diameter = table diameter + 48 to 60 in.

    Checked by: tests/published/rugs_wanted.csv (round table).
    """
    working = Working("Round rug under the round table")
    say = Words(practice)
    boxes = []
    for word, key in (
        ("as aimed for", "rugs.round_table_extra_target"),
        ("the least", "rugs.round_table_extra_floor"),
    ):
        extra = practice.length(key)
        boxes.append(Box.sized(diameter + extra, diameter + extra, center))
        working.step(f"diameter wanted, {word}", "table + extra", f"{say(diameter)} + {say(extra)}",
                     say(diameter + extra), source=say.cited(key))  # fmt: skip
    target, floor = boxes
    tries = standards(target, floor, practice, prefer=center, room=room, room_area=room_area)
    return search(tries, made_sizes(practice, "round"), practice, working)
