"""Diners can rise, be passed where a way runs behind them, and have an edge of table each.

Why: A chair needs room to be pushed back; somebody carrying dishes walks behind the one who sits; elbows need width.
Source: practice values dining.push_back, dining.edge_past (where a way to something runs behind), dining.walk_past
    (where a main way does), dining.place_width, and dining.round_place at a round table.
Fails: behind a chair, square from the table's edge to the next thing or wall, there is less than the value that
    applies; an edge of the table has less width for each chair at it than the value.
Passes exactly: at the value.
Silent: for chairs that belong to no table; behind a chair for the other chairs of its own table, and for what is light
    and drawn aside (another chair, a stool, an ottoman).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import directions, moved_together
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import (
    FURTHER,
    goes_with,
    listed,
    making_room,
    move_title,
    pieces_in,
    short,
    taking_out,
    the,
    ways,
)
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import Array
from halfdrop.room import FixedFitting, StandingPiece, Thing, Wall
from halfdrop.room.ahead import ahead
from halfdrop.room.groups import DiningSet, dining_sets
from halfdrop.room.way_floor import owner_key

GRADE = Grade.FAULT
PRACTICE = (
    "dining.push_back",
    "dining.edge_past",
    "dining.walk_past",
    "dining.place_width",
    "dining.round_place",
)

_LIGHT = frozenset({"dining chair", "desk chair", "stool", "ottoman"})


@dataclass(frozen=True, eq=False)
class _Behind:
    """What stands behind a chair: how far from the table's edge, what it is, and where."""

    chair: StandingPiece
    gap: float
    blocker: Thing | Wall
    p: Array
    q: Array


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each thing too near behind a table's chairs, and for each edge too short for its chairs."""
    for dining in case.memo("dining sets", lambda: dining_sets(case.room)):
        worst: dict[tuple[str, str], tuple[_Behind, float, str]] = {}
        chairs: dict[tuple[str, str], list[StandingPiece]] = {}
        for chair in dining.chairs:
            found = _behind(case, dining, chair)
            if found is None:
                continue
            key = _key(case, dining, found.blocker)
            wanted = case.length(key)
            if at_least(found.gap, wanted):
                continue
            which = (short(found.blocker), key)
            chairs.setdefault(which, []).append(chair)
            if which not in worst or found.gap < worst[which][0].gap:
                worst[which] = (found, wanted, key)
        for which, (found, wanted, key) in worst.items():
            yield _too_near(case, dining, chairs[which], found, wanted, key)
        yield from _places(case, dining)


def _behind(case: RoomCase, dining: DiningSet, chair: StandingPiece) -> _Behind | None:
    """Return what is behind a chair, from the table's edge, out to the most that is ever wanted."""
    out, far = -chair.front, 2.0
    strip = chair.box(-chair.width / 2, chair.width / 2, -chair.depth / 2 - far, chair.depth / 2 + far)
    edge = shapely.get_coordinates(dining.table.footprint.intersection(strip))
    if not len(edge):
        return None
    start = float((edge @ out).max())
    ignore = {p.path for p in case.room.floor_pieces.values() if p.type in _LIGHT}
    ignore |= {dining.table.path, *(c.path for c in dining.chairs)}
    found = ahead(case.room, chair, "back", far, ignore=ignore)
    if found.blocker is None:
        return None
    gap = float(found.q @ out) - start
    return _Behind(chair, gap, found.blocker, found.q - gap * out, found.q)


def _key(case: RoomCase, dining: DiningSet, blocker: Thing | Wall) -> str:
    """Return which value applies before what is behind a table's chairs: by the ways that run between."""
    pairs = [frozenset((m.path, owner_key(blocker))) for m in (dining.table, *dining.chairs)]
    main = [ways(case).between[pair] for pair in pairs if pair in ways(case).between]
    if not main:
        return "dining.push_back"
    return "dining.walk_past" if any(main) else "dining.edge_past"


_WHY = {
    "dining.push_back": "to rise",
    "dining.edge_past": "to edge past whoever sits, as a way runs behind",
    "dining.walk_past": "to walk past whoever sits, as a main way runs behind",
}


def _too_near(
    case: RoomCase, dining: DiningSet, chairs: list[StandingPiece], found: _Behind, wanted: float, key: str
) -> Finding:
    other = found.blocker
    who = the(chairs[0]) if len(chairs) == 1 else f"{len(chairs)} chairs"
    subjects = [dining.table, *chairs, *([other] if isinstance(other, StandingPiece | FixedFitting) else [])]
    gap = max(found.gap, 0.0)
    return case.finding(
        rule_id(__name__),
        GRADE,
        subjects,
        f"{case.say(gap)} from the edge of {the(dining.table)} to {the(other)} behind {who}; "
        f"{case.say(wanted, 'up')} is wanted {_WHY[key]}.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.sigma(dining.table, other, found.p, found.q),
        practice=key,
        anchor=found.q,
        marks=((found.p, found.q),),
        name=f"{dining.table.id}+{short(other)}",
    )


def _places(case: RoomCase, dining: DiningSet) -> Iterator[Finding]:
    """Yield a finding for each edge with less width a chair than wanted; a round table has one edge."""
    table = dining.table
    if table.model.shape == "round":
        edges = [(math.pi * (table.width + table.depth) / 2, list(dining.chairs), "dining.round_place")]
    elif table.model.shape == "rectangle":
        sides = (
            (table.front, table.width),
            (-table.front, table.width),
            (table.right, table.depth),
            (-table.right, table.depth),
        )
        edges = [
            (long, [c for c in dining.chairs if _at_edge(table, c, normal)], "dining.place_width")
            for normal, long in sides
        ]
    else:
        return
    for long, chairs, key in edges:
        people = sum(c.model.seats or (2 if c.type == "bench" else 1) for c in chairs)
        if people == 0 or at_least(long / people, case.length(key)):
            continue
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (table, *chairs),
            f"{case.say(long / people)} of {the(table)}'s edge for each of {people} who sit there; "
            f"{case.say(case.length(key), 'up')} is wanted, elbow to elbow.",
            measured=long / people,
            wanted=case.length(key),
            practice=key,
            anchor=np.mean([c.center for c in chairs], axis=0),
            name=f"{table.id}+places+{'+'.join(sorted(c.id for c in chairs))}",
        )


def _at_edge(table: StandingPiece, chair: StandingPiece, normal: Array) -> bool:
    """Return whether a chair sits at the table's edge with this outward normal, and faces it."""
    return float(chair.front @ normal) < -0.7 and float((chair.center - table.center) @ normal) > 0


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the table with its chairs (and its rug) off what is behind, or that off the table; take a chair away."""
    pieces = pieces_in(case, finding)
    table, chairs = pieces[0], [p for p in pieces[1:] if p.type in ("dining chair", "bench")]
    if "+places+" in finding.id:
        for chair in reversed(chairs):
            yield from taking_out(case, chair)
        return
    lack = (finding.wanted or 0.0) - (finding.measured or 0.0)
    for way in directions(case, table):
        for things in goes_with(case, table)[1:]:
            for more in FURTHER:
                patch = moved_together(case, things, way * (lack + more))
                if patch:
                    yield Proposal("move", move_title(case, table, things, way, lack + more), patch)
    for other in pieces[1 + len(chairs) :]:
        yield from making_room(case, other, table.footprint, finding.wanted or 0.0)
        yield from taking_out(case, other)
    if all(not c.model.keep for c in chairs):
        patch = [{"op": "remove", "path": f"/{c.path}"} for c in chairs]
        yield Proposal("remove", f"Take {listed([the(c) for c in chairs], 4)} away from {the(table)}.", patch)
