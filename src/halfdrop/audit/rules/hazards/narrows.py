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

#: A gap no wider than this is none [m]: things that touch, to the arithmetic.
SHUT = 1e-3


@dataclass(frozen=True, eq=False)
class Lead:
    """One way to be judged: between which faces, how wide it has to be by which value, whence and whither."""

    start: frozenset[int]
    end: frozenset[int]
    key: str
    places: tuple[Place, Place]


def narrows(case: RoomCase, leads: Iterable[Lead]) -> tuple[tuple[Pinch, ...], tuple[Lead, ...]]:
    """Return the pinches of some ways, once each, and the ways that are shut (what touches leaves no gap)."""
    ground = floor(case)
    finder = PinchFinder(ground)
    shut = []
    for lead in leads:
        way = ground.space.way(lead.start, lead.end)
        if way.width <= SHUT:
            shut.append(lead)
        else:
            finder.note(way.gates, lead.places, case.length(lead.key), lead.key)
    return finder.pinches(), tuple(shut)


def shut_by(case: RoomCase, lead: Lead) -> tuple[StandingPiece, ...]:
    """Return the pieces that shut a way: they touch what stands beside, or part the floor at both its ends."""
    ground = floor(case)
    touching = [g for g in ground.space.way(lead.start, lead.end).gates if g.width <= SHUT]
    if not touching:
        return parting(case.room, ground, lead.start, lead.end)
    pieces = {o.path: o for g in touching for o in ground.makers(g) if isinstance(o, StandingPiece)}
    return tuple(pieces[path] for path in sorted(pieces))


def narrow_finding(case: RoomCase, rule: str, pinch: Pinch, why: str, caution: str) -> Finding:
    """Return the finding of a pinch: how wide it is between what, on the ways from where to the goal."""
    starts, goal = listed(start.name for start, _ in pinch.leads), pinch.leads[0][1].name
    return case.finding(
        rule,
        Grade.HAZARD,
        (pinch.one,) if isinstance(pinch.other, Wall) else (pinch.one, pinch.other),
        f"The way to {goal} from {starts} is {case.say(pinch.width)} wide between {the(pinch.one)} and "
        f"{the(pinch.other)}; {case.say(pinch.wanted, 'up')} is wanted, {why}",
        measured=pinch.width,
        wanted=pinch.wanted,
        sigma=case.room.sigma(pinch.one, pinch.other, pinch.p, pinch.q),
        practice=pinch.key,
        anchor=(pinch.p + pinch.q) / 2,
        marks=((pinch.p, pinch.q),),
        caution=caution,
        name=f"{short(pinch.one)}+{short(pinch.other)}",
    )


def shut_finding(case: RoomCase, rule: str, shut: tuple[Lead, ...], why: str, caution: str) -> Finding:
    """Return one finding for all ways to a goal that are shut, about what shuts the first of them."""
    start, goal = shut[0].places
    by = shut_by(case, shut[0])
    what = (
        f"{listed(f'the {p.name}' for p in by)} shut{'s' if len(by) == 1 else ''} it" if by else "it is shut"
    )
    wanted = case.length(shut[0].key)
    return case.finding(
        rule,
        Grade.HAZARD,
        (*by, *start.things),
        f"There is no way to {goal.name} from {listed(lead.places[0].name for lead in shut)}: {what}. "
        f"{case.say(wanted, 'up')} is wanted, {why}",
        measured=0.0,
        wanted=wanted,
        practice=shut[0].key,
        caution=caution,
        name=f"shut-{goal.things[0].id}",
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
