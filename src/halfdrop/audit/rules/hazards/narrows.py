"""Pinches on a way out, for the exit path and the stair head: found on the room's one cut floor."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rules.circulation.shared import (
    floor,
    listed,
    making_room,
    shape,
    short,
    taking_out,
    the,
    turning,
)
from halfdrop.room import StandingPiece, Wall
from halfdrop.room.places import Place
from halfdrop.room.ways import Pinch, PinchFinder, parting


@dataclass(frozen=True, eq=False)
class Lead:
    """One way to be judged: between which faces, how wide it has to be by which value, whence and whither."""

    start: frozenset[int]
    end: frozenset[int]
    key: str
    places: tuple[Place, Place]


def narrows(case: RoomCase, leads: Iterable[Lead]) -> tuple[tuple[Pinch, ...], tuple[Lead, ...]]:
    """Return the pinches of some ways, once each, and the ways that do not exist at all."""
    ground = floor(case)
    finder = PinchFinder(ground)
    shut = []
    for lead in leads:
        way = ground.space.way(lead.start, lead.end)
        finder.note(way.gates, lead.places, case.length(lead.key), lead.key)
        if way.width <= 0 and not way.gates:
            shut.append(lead)
    return finder.pinches(), tuple(shut)


def shut_by(case: RoomCase, lead: Lead) -> tuple[StandingPiece, ...]:
    """Return the pieces that shut a way: they part the floor it begins on from the floor it leads to."""
    return parting(case.room, floor(case), lead.start, lead.end)


def narrow_finding(case: RoomCase, rule: str, pinch: Pinch, goal: str, why: str, caution: str) -> Finding:
    """Return the finding of a pinch: how wide it is between what, on the ways from where to the goal."""
    open_ = pinch.width > 1e-3
    wide = f"is {case.say(pinch.width)} wide" if open_ else "is shut"
    return case.finding(
        rule,
        Grade.HAZARD,
        (pinch.one,) if isinstance(pinch.other, Wall) else (pinch.one, pinch.other),
        f"The way to {goal} from {listed(start.name for start, _ in pinch.leads)} {wide} between "
        f"{the(pinch.one)} and {the(pinch.other)}; {case.say(pinch.wanted, 'up')} is wanted, {why}",
        measured=pinch.width,
        wanted=pinch.wanted,
        sigma=case.room.sigma(pinch.one, pinch.other, pinch.p, pinch.q) if open_ else None,
        practice=pinch.key,
        anchor=(pinch.p + pinch.q) / 2,
        marks=((pinch.p, pinch.q),),
        caution=caution,
        name=f"{short(pinch.one)}+{short(pinch.other)}",
    )


def opening_up(case: RoomCase, pieces: Iterable[StandingPiece], wanted: float) -> Iterator[Proposal]:
    """Yield what opens a way that pieces shut: each moves clear of its neighbors and walls, is turned, or leaves."""
    shutting = list(pieces)
    for piece in shutting:
        others = [p.footprint for p in case.room.floor_pieces.values() if p is not piece]
        for near in (*others, *(shape(w) for w in case.room.walls)):
            if piece.footprint.distance(near) < wanted:
                yield from making_room(case, piece, near, wanted)
    for piece in shutting:
        yield from turning(case, piece)
        yield from taking_out(case, piece)
