"""The way out is wide enough, from where people sleep and sit to the door that leads out.

Why: In smoke or in the dark nobody squeezes sideways, and whoever is carried out needs the width of two.
Source: practice values hazards.exit_path (IRC R311.6, the hallway's width, from memory), hazards.exit_place
    (the handbooks' least way in a furnished room) and hazards.exit_door (IRC R311.2, from memory); the local
    code decides. The width is that of the widest disk that gets through (geometry/freespace.py).
Fails: the widest way inside the room passes a gap made by a piece that is narrower than exit_path, on the
    way from a door through which rooms farther in are left to a door that leads out; or narrower than
    exit_place, on the way from a bed or a seat, from whichever of its free sides is best. A door to the
    outside whose clear width is less than exit_door is told as a matter of taste in the grade only, for the
    house made it.
Passes exactly: at each value.
Silent: in a room without doors; for gaps that the house makes; for a bed or a seat that no one could stand
    beside at all, which the circulation rules tell. Which doors lead out is read from the openings' `to`,
    across rooms; where that is not written down every door may be the way out, the best of them counts, and
    no rooms are taken to lie farther in.
Caution: the local code says what a way out must be; keep it free and lit, and the door free to open.
"""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.pinches import widening
from halfdrop.audit.rules.circulation.shared import floor, short
from halfdrop.audit.rules.hazards.narrows import (
    Lead,
    narrow_finding,
    narrows,
    opening_up,
    shut_by,
    shut_finding,
)
from halfdrop.base.tolerance import at_least
from halfdrop.job.way_out import OUTSIDE, exits, inward
from halfdrop.room.places import Place
from halfdrop.room.things import BEDS, SEATING
from halfdrop.room.ways import Pinch

GRADE = Grade.HAZARD
PRACTICE = ("hazards.exit_path", "hazards.exit_place", "hazards.exit_door")
CAUTION = "The local code decides what a way out must be; keep it free, and the door free to open."
WHY = "so that everyone gets out in the dark."
#: A person who stands up from a bed or a seat takes this much floor at least [m]; common practice, no source.
BODY = 0.45
#: How far round a bed or a seat its own floor reaches [m].
_BESIDE = 0.05


def _leads(case: RoomCase) -> Iterator[Lead]:
    """Yield the ways to judge: from doors that lead farther in, from beds and from seats."""
    ground, room = floor(case), case.room
    out = exits(case.job, room.id)
    end = frozenset[int]().union(*(ground.doors[i] for i in out))
    doors = tuple(room.openings[i] for i in out)
    goal = Place("door", " or ".join(f"the {d.name}" for d in doors), doors, None)
    for key in inward(case.job, room.id):
        door = room.openings[key]
        place = Place("door", f"the {door.name}", (door,), None)
        yield Lead(ground.doors[key], end, "hazards.exit_path", (place, goal))
    for piece in room.floor_pieces.values():
        if piece.type not in BEDS | SEATING:
            continue
        sides = [piece.front_zone(_BESIDE), piece.side_zone(1, _BESIDE), piece.side_zone(-1, _BESIDE)]
        start = ground.space.faces_touching(shapely.union_all(sides), BODY)
        if start:
            place = Place("bed" if piece.type in BEDS else "seat", f"the {piece.name}", (piece,), None)
            yield Lead(start, end, "hazards.exit_place", (place, goal))


def found(case: RoomCase) -> tuple[tuple[Pinch, ...], tuple[Lead, ...]]:
    """Return the pinches of the ways out, and the ways that are shut."""
    if not exits(case.job, case.room.id):
        return (), ()
    return case.memo("exit path", lambda: narrows(case, _leads(case)))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield what pinches or shuts a way out, and an outside door that is narrow."""
    pinches, shut = found(case)
    for pinch in pinches:
        yield narrow_finding(case, rule_id(__name__), pinch, WHY, CAUTION)
    if shut:
        yield shut_finding(case, rule_id(__name__), shut, WHY, CAUTION)
    wanted = case.length("hazards.exit_door")
    for door in case.room.openings.values():
        if door.model.to == OUTSIDE and not at_least(door.clear, wanted):
            yield case.finding(
                rule_id(__name__),
                Grade.TASTE,
                (door,),
                f"The {door.name} is {case.say(door.clear)} wide, clear; {case.say(wanted, 'up')} is usual "
                "for the door out of a home. Ask what the local code wants of it.",
                measured=door.clear,
                wanted=wanted,
                sigma=case.length("survey.tape_sigma"),
                practice="hazards.exit_door",
                caution=CAUTION,
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Widen the pinch; where a way is shut, open it up."""
    pinches, shut = found(case)
    if "/shut-" in finding.id:
        yield from opening_up(case, shut_by(case, shut[0]), finding.wanted or 0.0)
    for pinch in pinches:
        if finding.id.endswith(f"/{short(pinch.one)}+{short(pinch.other)}"):
            yield from widening(case, pinch)
