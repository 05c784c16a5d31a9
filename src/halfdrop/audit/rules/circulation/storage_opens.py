"""Drawers, doors and recliners open, with room for the person before them.

Why: A drawer that opens against the bed, a wardrobe one cannot step back from, a footrest in the table.
Source: practice values circulation.drawer_body (added to what opens), circulation.dresser_front and
    circulation.wardrobe_front (where the document does not say how it opens).
Fails: square before the front, the next thing or wall is nearer than what opens takes and a standing body behind it;
    for a recliner, than the footrest takes; where nothing is said of a dresser's, a chest's, a wardrobe's or a closet's
    opening, than the front value.
Passes exactly: at the value.
Silent: for open shelves, and cabinets of which nothing is said; for chairs, stools and ottomans before it: they are
    drawn aside; for the sides.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import (
    making_room,
    pieces_in,
    shape,
    short,
    taking_out,
    the,
    turning,
)
from halfdrop.base.tolerance import at_least
from halfdrop.room import FixedFitting, StandingPiece, Thing, Wall
from halfdrop.room.ahead import ahead

GRADE = Grade.FAULT
PRACTICE = ("circulation.drawer_body", "circulation.dresser_front", "circulation.wardrobe_front")

#: What a person draws aside to open something.
_LIGHT = frozenset({"dining chair", "desk chair", "stool", "ottoman"})
_FRONT = {
    "dresser": "circulation.dresser_front",
    "chest": "circulation.dresser_front",
    "closet": "circulation.dresser_front",
    "wardrobe": "circulation.wardrobe_front",
}


def _wanted(case: RoomCase, thing: Thing) -> tuple[float, str | None, str] | None:
    """Return what is wanted before a front [m], by which practice value, and why; None where nothing opens."""
    opens = thing.model.opens if isinstance(thing, StandingPiece) else None
    if opens is not None:
        reach = float(opens.reach)
        if opens.kind == "recline":
            return reach, None, "so that the footrest comes up"
        body = case.length("circulation.drawer_body")
        return (
            reach + body,
            "circulation.drawer_body",
            f"{case.say(reach)} for what opens and {case.say(body)} to stand",
        )
    kind = (
        thing.type
        if isinstance(thing, StandingPiece)
        else thing.model.kind
        if isinstance(thing, FixedFitting)
        else ""
    )
    if kind not in _FRONT:
        return None
    return case.length(_FRONT[kind]), _FRONT[kind], "to open it and stand before it"


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each front that cannot be opened with a person before it."""
    room = case.room
    light = {p.path for p in room.floor_pieces.values() if p.type in _LIGHT}
    for thing in (*room.floor_pieces.values(), *room.fittings.values()):
        limit = _wanted(case, thing)
        if limit is None:
            continue
        wanted, key, why = limit
        found = ahead(room, thing, "front", wanted, ignore=light)
        if found.blocker is None or at_least(found.gap, wanted):
            continue
        other = found.blocker
        movable = [t for t in (thing, other) if isinstance(t, StandingPiece)]
        subjects = [*movable, *(t for t in (thing, other) if isinstance(t, FixedFitting))]
        gap = max(found.gap, 0.0)
        yield case.finding(
            rule_id(__name__),
            GRADE,
            subjects,
            f"{case.say(gap)} before {the(thing)}, to {the(other)}; {case.say(wanted, 'up')} is wanted, {why}.",
            measured=gap,
            wanted=wanted,
            sigma=room.sigma(thing, other, found.p, found.q) if gap > 1e-3 else None,
            practice=key,
            anchor=(found.p + found.q) / 2,
            marks=((found.p, found.q),),
            name=f"{thing.id}+{short(other)}",
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the piece back or what stands before it away, turn it, or take one out."""
    pieces = pieces_in(case, finding)
    wanted = finding.wanted or 0.0
    things = {t.id: t for t in (*case.room.floor_pieces.values(), *case.room.fittings.values())}
    walls = {short(w): w for w in case.room.walls}
    front_id, _, other_id = finding.id.rpartition("/")[2].partition("+")
    front = things[front_id]
    other: Thing | Wall = things[other_id] if other_id in things else walls[other_id]
    if isinstance(front, StandingPiece):
        yield from making_room(case, front, shape(other), wanted)
    if isinstance(other, StandingPiece):
        yield from making_room(case, other, front.footprint, wanted)
    for piece in pieces:
        yield from turning(case, piece)
        yield from taking_out(case, piece)
