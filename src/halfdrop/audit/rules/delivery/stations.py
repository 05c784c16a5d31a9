"""The stations a piece passes on its way in: the delivery path in order, then the doors to its room."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from halfdrop.audit.case import RoomCase
from halfdrop.base.working import Working
from halfdrop.geometry.passing import (
    Answer,
    best,
    can_be_raised,
    pass_corridor,
    pass_door,
    pass_lift,
    pass_stairs,
    pass_turn,
)
from halfdrop.geometry.poses import Box
from halfdrop.job.model import Passage
from halfdrop.job.way_out import OUTSIDE, Door, doors_of
from halfdrop.room import StandingPiece, WallOpening


@dataclass(frozen=True, eq=False)
class Station:
    """One station with its answer for one piece.

    Attributes
    ----------
    name : str
        What a message calls it.
    answer : Answer
        Whether the piece passes, and by how much.
    opening : WallOpening or None
        The door of the piece's own room, where it is that.
    raised : bool
        Whether it is where the piece is stood up, having come in lying.
    """

    name: str
    answer: Answer
    opening: WallOpening | None = None
    raised: bool = False


def box_of(case: RoomCase, piece: StandingPiece) -> Box:
    """Return a piece as it travels: as packed where that is written down, else its whole box, an L's too."""
    upright = piece.type == "piano" or not case.practice.flag("delivery.tilt_allowed")
    packed = piece.model.packed
    if packed is not None:
        sides = (float(packed.width), float(packed.depth), float(packed.height))
        return Box(*sides, upright_only=upright)
    return Box(piece.width, piece.depth, piece.height, upright_only=upright)


def stations(case: RoomCase, piece: StandingPiece, box: Box) -> list[Station]:
    """Return every station a piece of this box passes on its way to where it stands, in order."""
    hand = case.length("delivery.clearance_each_side")
    found = [Station(f"the {p.name}", _passed(case, p, box, hand)) for p in case.job.delivery]
    doors = list(_doors(case, box, hand))
    found += doors
    low = min((float(s.opening.model.height) for s in doors if s.opening is not None), default=None)
    ceiling = case.room.clear_height
    if piece.model.packed is None and low is not None and ceiling is not None and box.height > low - hand:
        found.append(
            Station(f"its place in the {case.room.model.name}", can_be_raised(box, ceiling), raised=True)
        )
    return found


def workings(case: RoomCase) -> Iterator[Working]:
    """Yield for each piece that arrives the working of its tightest station, so that a person can check it."""
    for piece in case.room.pieces.values():
        if not piece.model.arrives:
            continue
        passed = stations(case, piece, box_of(case, piece))
        if passed:
            tight = min(passed, key=lambda s: round(s.answer.spare, 6))
            yield tight.answer.working(f"{piece.name} at {tight.name}: {tight.answer.pose}", case.units)


def _passed(case: RoomCase, passage: Passage, box: Box, hand: float) -> Answer:
    width, height = float(passage.width), float(passage.height)
    if passage.kind == "turn":
        return pass_turn(box, width, float(passage.width_after or width), height, hand=hand)
    if passage.kind == "stairs":
        landing = float(passage.landing) if passage.landing is not None else None
        pitch = float(case.practice.angle("delivery.stair_pitch"))
        return pass_stairs(box, width, height, pitch, landing, hand=hand)
    if passage.kind == "lift":
        car = (float(passage.car_width or 0), float(passage.car_depth or 0), float(passage.car_height or 0))
        return pass_lift(box, width, height, car, hand=hand)
    judge: Callable[..., Answer] = pass_door if passage.kind == "door" else pass_corridor
    return judge(box, width, height, hand=hand)


def _doors(case: RoomCase, box: Box, hand: float) -> Iterator[Station]:
    """Yield the doors from the outside to the room by the route with fewest doors too small, then fewest doors.

    Where the doors do not join the room to the outside, the best of its own doors is the one it comes in by.
    """
    judge = partial(pass_door, hand=hand)
    route = _route(case, lambda door: judge(box, door.width, door.height))
    if route is None:
        ways = [o for o in case.room.openings.values() if o.is_way]
        answers = {o.id: judge(box, o.clear, float(o.model.height)) for o in ways}
        if ways:
            chosen = best(answers.values())
            way = next(o for o in ways if answers[o.id] is chosen)
            yield Station(f"the {way.name}", chosen, way)
        return
    for door in route:
        own = next((key for room, key, _ in door.sides if room == case.room.id), None)
        opening = case.room.openings[own] if own is not None else None
        yield Station(_name(case, door), judge(box, door.width, door.height), opening)


def _name(case: RoomCase, door: Door) -> str:
    given = next((o.name for _, _, o in door.sides if o.name), None)
    if given:
        return f"the {given}"
    ends = [
        "the outside" if r == OUTSIDE else f"the {case.job.rooms[r].name.lower()}" for r in (door.a, door.b)
    ]
    return f"the door between {ends[0]} and {ends[1]}"


def _route(case: RoomCase, judge: Callable[[Door], Answer]) -> list[Door] | None:
    """Return the best route of doors from the outside to the room, or None where there is none."""
    near: dict[str, list[tuple[str, Door, bool]]] = {}
    for door in case.memo("delivery: doors", lambda: doors_of(case.job)):
        passes = judge(door).passes
        near.setdefault(door.a, []).append((door.b, door, passes))
        near.setdefault(door.b, []).append((door.a, door, passes))
    queue: list[tuple[int, int, int, str, list[Door]]] = [(0, 0, 0, OUTSIDE, [])]
    done: set[str] = set()
    order = 0
    while queue:
        small, count, _, here, route = heapq.heappop(queue)
        if here == case.room.id:
            return route
        if here in done:
            continue
        done.add(here)
        for there, door, passes in near.get(here, ()):
            if there not in done:
                order += 1
                entry = (small + (not passes), count + 1, order, there, [*route, door])
                heapq.heappush(queue, entry)
    return None
