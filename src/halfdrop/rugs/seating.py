"""The rug under a seating group: the front legs of every major seat on it, and past the sofa's ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.answer import RugAnswer, search, standards
from halfdrop.rugs.box import Box, Point
from halfdrop.rugs.sizes import made_sizes

_DEPTH, _DEPTH_FLOOR, _ENDS = "rugs.front_legs_depth", "rugs.front_legs_floor", "rugs.sofa_end_extension"


@dataclass(frozen=True, slots=True)
class SeatFront:
    """What of one seat a rug has to reach, in the frame the rug lies square to.

    Attributes
    ----------
    legs : tuple of (x, y)
        Where the front legs stand [m].
    facing : (x, y)
        Unit vector out of the seat's front.
    ends : tuple of (x, y)
        The outer faces of a sofa's two arms, at the legs' line [m]; empty for a seat whose ends
        the rug need not pass (an armchair).
    """

    legs: tuple[Point, ...]
    facing: Point
    ends: tuple[Point, ...] = ()

    def reach(self, depth: float, past: float) -> list[Point]:
        """Return the points a rug covers that runs `depth` behind the legs and `past` the ends [m]."""
        fx, fy = self.facing
        points = [*self.legs, *((x - fx * depth, y - fy * depth) for x, y in self.legs)]
        if len(self.ends) == 2:
            (ax, ay), (bx, by) = self.ends
            span = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
            ux, uy = (bx - ax) / span * past, (by - ay) / span * past
            points += [(ax - ux, ay - uy), (bx + ux, by + uy)]
        return points


def wanted_seating(
    seats: Sequence[SeatFront],
    practice: Practice,
    *,
    room: Box | None = None,
    room_area: float | None = None,
) -> RugAnswer:
    """Return the rug a seating group wants.

    Parameters
    ----------
    seats : sequence of SeatFront
        The major upholstered pieces of the group, one at least.
    practice : Practice
        `rugs.front_legs_depth` (what is aimed for), `rugs.front_legs_floor` (the leg just stands on it),
        `rugs.sofa_end_extension`, bare floor, made sizes.
    room : Box, optional
        The clear floor, walls to walls [m]; then the rug also keeps the bare floor of practice.
    room_area : float, optional
        Floor area that tells a small room [m²]; by default the box's.

    Raises
    ------
    InputError
        Without a seat.

    Source: common practice.

    Checked by: tests/rugs/test_wanted.py.
    """
    if not seats:
        raise InputError(
            "a seating group without a seat wants no rug", hint="give the group at least one seat"
        )
    working = Working("Rug under the seating group")
    say = Words(practice)
    boxes = []
    for word, depth_key, past_key in (("as aimed for", _DEPTH, _ENDS), ("the least", _DEPTH_FLOOR, None)):
        depth = practice.length(depth_key)
        past = practice.length(past_key) if past_key else 0.0
        points = [p for seat in seats for p in (seat.reach(depth, past) if past_key else _legs(seat, depth))]
        box = Box.around(points)
        boxes.append(box)
        working.step(
            f"wanted, {word}",
            "box round all front legs, behind them by the depth"
            + (", past the sofa's ends" if past_key else ""),
            f"{sum(len(s.legs) for s in seats)} legs, {say(depth)} behind"
            + (f", {say(past)} past the ends" if past_key else ""),
            say.pair(box.across, box.along),
            source=say.cited(*filter(None, (depth_key, past_key))),
        )
    target, floor = boxes
    tries = standards(target, floor, practice, prefer=target.center, room=room, room_area=room_area)
    return search(tries, made_sizes(practice), practice, working)


def _legs(seat: SeatFront, depth: float) -> list[Point]:
    return SeatFront(seat.legs, seat.facing).reach(depth, 0.0)
