"""How a pinch of a way, and a place no way comes to, are told and remedied: for the main and the secondary ways."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rules.circulation.shared import (
    listed,
    making_room,
    pieces_in,
    shape,
    sharing_room,
    short,
    taking_out,
    the,
    turning,
    ways,
)
from halfdrop.room import StandingPiece, Wall
from halfdrop.room.ways import Pinch, Shut, main_way


def is_main(pinch: Pinch) -> bool:
    """Return whether a main way passes this pinch."""
    return any(main_way(place, pinch.key) for _, place in pinch.leads)


def pinch_finding(case: RoomCase, rule: str, grade: Grade, pinch: Pinch, kind: str) -> Finding:
    """Return the finding of a pinch: what pinches, how wide it is, whence and whither it leads."""
    room, one, other = case.room, pinch.one, pinch.other
    places = listed(place.name for _, place in pinch.leads)
    doors = listed(door.name for door, _ in pinch.leads)
    wide = f"is {case.say(pinch.width)} wide" if pinch.width > 1e-3 else "is shut"
    sigma = room.sigma(one, other, pinch.p, pinch.q) if pinch.width > 1e-3 else None
    things = (one,) if isinstance(other, Wall) else (one, other)
    return case.finding(
        rule,
        grade,
        things,
        f"The way from {doors} to {places} {wide} between {the(one)} and {the(other)}; "
        f"{case.say(pinch.wanted, 'up')} is wanted {kind}.",
        measured=pinch.width,
        wanted=pinch.wanted,
        sigma=sigma,
        practice=pinch.key,
        anchor=(pinch.p + pinch.q) / 2,
        marks=((pinch.p, pinch.q),),
        name=f"{short(one)}+{short(other)}",
    )


def shut_finding(case: RoomCase, rule: str, grade: Grade, shut: Shut, kind: str) -> Finding:
    """Return the finding of a place no way comes to: the pieces before it are named first."""
    place = shut.place
    blockers = f" past {listed(the(p) for p in shut.by[:2])}" if shut.by else ""
    if shut.width > 0.01:
        message = f"Only {case.say(shut.width)} is free to come to {place.name}{blockers}"
    else:
        message = f"No way comes to {place.name}{blockers}"
    return case.finding(
        rule,
        grade,
        (*shut.by[:2], place.things[0]),
        f"{message}; {case.say(shut.wanted, 'up')} is wanted {kind}.",
        measured=shut.width,
        wanted=shut.wanted,
        practice=shut.key,
        anchor=place.things[0].center,
        name=f"to-{place.things[0].id}",
    )


def shut_once(shuts: Iterator[Shut]) -> Iterator[Shut]:
    """Yield the worst of each thing's shut places: a bed is one thing, whichever of its sides."""
    worst: dict[str, Shut] = {}
    for shut in shuts:
        key = shut.place.things[0].path
        if key not in worst or shut.width < worst[key].width:
            worst[key] = shut
    yield from worst.values()


def way_remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move what pinches, alone or with what belongs to it, or both halves apart; turn it; take it out."""
    for pinch in ways(case).pinches:
        if finding.id.endswith(f"/{short(pinch.one)}+{short(pinch.other)}"):
            yield from widening(case, pinch)
            return
    pieces = pieces_in(case, finding)
    place = next(
        (s.place for s in ways(case).shut if finding.id.endswith(f"/to-{s.place.things[0].id}")), None
    )
    if place is None:
        return
    wanted = finding.wanted or 0.0
    target = place.zone if place.zone is not None else place.things[0].approach(wanted)  # type: ignore[union-attr]
    walls = [shape(w) for w in case.room.walls]
    for piece in pieces:
        if piece.path != place.things[0].path:
            yield from making_room(case, piece, target)
        for other in [*(p.footprint for p in pieces if p is not piece), *walls]:
            if piece.footprint.distance(other) < wanted:
                yield from making_room(case, piece, other, wanted)
    for piece in pieces:
        yield from turning(case, piece)
        if piece.path != place.things[0].path:
            yield from taking_out(case, piece)


def widening(case: RoomCase, pinch: Pinch) -> Iterator[Proposal]:
    """Yield what widens a pinch: one side moves, or both; one is turned or placed elsewhere, or leaves."""
    one, other = pinch.one, pinch.other
    gap = pinch.p - pinch.q
    away = gap / pinch.width if pinch.width > 1e-6 else one.front
    yield from making_room(case, one, shape(other), pinch.wanted)
    if isinstance(other, StandingPiece):
        yield from making_room(case, other, shape(one), pinch.wanted)
        yield from sharing_room(case, one, other, pinch.wanted - pinch.width, np.asarray(away))
    for piece in (one, other):
        if isinstance(piece, StandingPiece):
            yield from turning(case, piece)
            yield from taking_out(case, piece)
