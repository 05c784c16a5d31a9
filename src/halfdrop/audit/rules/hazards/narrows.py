"""Narrow places on a way out, for exit path and stair head, found on the room's one free-space analysis."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rules.circulation.shared import (
    Owner,
    floor,
    listed,
    making_room,
    shape,
    sharing_room,
    short,
    taking_out,
    the,
    turning,
)
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.freespace import Gate
from halfdrop.room import StandingPiece, Wall, WallOpening
from halfdrop.room.ways import WayFloor


@dataclass(frozen=True)
class Lead:
    """One way to be judged: between which faces, how wide it has to be by which value, where it begins."""

    start: frozenset[int]
    end: frozenset[int]
    key: str
    name: str


@dataclass(frozen=True, eq=False)
class Narrow:
    """A gap on a way out that a piece makes narrower than is wanted.

    Attributes
    ----------
    width, wanted : float
        The gap, and the most that a way through it wants [m].
    key : str
        The practice value wanted.
    one, other : StandingPiece; Thing, Wall or WallOpening
        What makes it.
    p, q : Array (2,)
        The closest points, on `one` and on `other` [m].
    leads : tuple of str
        Where the ways through it begin.
    """

    width: float
    wanted: float
    key: str
    one: StandingPiece
    other: Owner
    p: np.ndarray
    q: np.ndarray
    leads: tuple[str, ...]


def narrows(case: RoomCase, leads: Iterable[Lead]) -> tuple[list[Narrow], list[Lead]]:
    """Return the gaps too narrow on these ways, once each, and the ways that do not exist at all.

    What the house makes by itself counts as it is: two walls are no narrow place of the furniture's, and at a doorway
    no more is wanted than its clear width.
    """
    ground = floor(case)
    passed: dict[tuple[str, str], tuple[Gate, float, str, list[str]]] = {}
    shut = []
    for lead in leads:
        way = ground.space.way(lead.start, lead.end)
        if way.width <= 0:
            shut.append(lead)
        for gate in way.gates:
            owners = ground.makers(gate)
            want = min([case.length(lead.key), *(o.clear for o in owners if isinstance(o, WallOpening))])
            if at_least(gate.width, want) or not any(isinstance(o, StandingPiece) for o in owners):
                continue
            first, second = sorted(map(short, owners))
            old = passed.get((first, second))
            if old is None:
                passed[first, second] = (gate, want, lead.key, [lead.name])
                continue
            best = min(old[0], gate, key=lambda g: g.width)
            key = lead.key if want > old[1] + 1e-9 else old[2]
            passed[first, second] = (best, max(want, old[1]), key, [*old[3], lead.name])
    found = [_narrow(ground, *entry) for entry in passed.values()]
    return sorted(found, key=lambda n: (round(n.width, 6), n.one.path)), shut


def _narrow(ground: WayFloor, gate: Gate, wanted: float, key: str, leads: list[str]) -> Narrow:
    one, other = ground.makers(gate)
    p, q = gate.p, gate.q
    if not isinstance(one, StandingPiece) or (
        isinstance(other, StandingPiece) and (one.model.keep, one.path) > (other.model.keep, other.path)
    ):
        one, other, p, q = other, one, q, p
    assert isinstance(one, StandingPiece)
    return Narrow(gate.width, wanted, key, one, other, p, q, tuple(dict.fromkeys(leads)))


def narrow_finding(case: RoomCase, rule: str, found: Narrow, goal: str, why: str, caution: str) -> Finding:
    """Return the finding of a narrow place: how wide it is between what, on the ways from where to the goal."""
    wide = f"is {case.say(found.width)} wide" if found.width > 1e-3 else "is shut"
    shown = found.width > 1e-3
    return case.finding(
        rule,
        Grade.HAZARD,
        (found.one,) if isinstance(found.other, Wall) else (found.one, found.other),
        f"The way to {goal} from {listed(found.leads)} {wide} between {the(found.one)} and "
        f"{the(found.other)}; "
        f"{case.say(found.wanted, 'up')} is wanted, {why}",
        measured=found.width,
        wanted=found.wanted,
        sigma=case.room.sigma(found.one, found.other, found.p, found.q) if shown else None,
        practice=found.key,
        anchor=(found.p + found.q) / 2,
        marks=((found.p, found.q),),
        caution=caution,
        name=f"{short(found.one)}+{short(found.other)}",
    )


def widening(case: RoomCase, found: Narrow) -> Iterator[Proposal]:
    """Yield what widens a narrow place: one side moves, or both; one is turned, or leaves."""
    one, other = found.one, found.other
    yield from making_room(case, one, shape(other), found.wanted)
    if isinstance(other, StandingPiece):
        yield from making_room(case, other, shape(one), found.wanted)
        away = (found.p - found.q) / found.width if found.width > 1e-6 else one.front
        yield from sharing_room(case, one, other, found.wanted - found.width, away)
    for piece in (one, other):
        if isinstance(piece, StandingPiece):
            yield from turning(case, piece)
            yield from taking_out(case, piece)
