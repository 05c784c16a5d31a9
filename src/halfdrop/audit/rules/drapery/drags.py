"""Cloth that lies on the floor lies where nobody walks.

Why: Cloth that breaks or puddles is stepped on, rolled over and swept along by the door: it trips a person, tears
    off its hooks, and is gray along the hem within a season.
Source: practice values drapery.walked_lies and drapery.walked_beside (our choice, no source).
Fails: more of a panel than walked_lies lies on the floor, nearer than walked_beside to a doorway, to the sweep of
    a door's leaf, or to a narrow place that a way of the room passes; shut and drawn back both count. A fault;
    a hazard where a child or an elder lives here.
Passes exactly: at each value.
Silent: for cloth that lies where nobody walks, however long; for shades; where nothing can be said of how the
    cloth hangs.
Caution: until it is taken up, tie it back off the floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from shapely import union_all
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.hung import footprint, hung_in
from halfdrop.audit.moves import text
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import floor, the, ways
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.drapery import AsHung, drop_at
from halfdrop.geometry.plane import Array, closest
from halfdrop.job.way_out import OUTSIDE
from halfdrop.room import StandingPiece, WallOpening
from halfdrop.room.way_floor import owner_key

GRADE = Grade.HAZARD
PRACTICE = ("drapery.walked_lies", "drapery.walked_beside")
CAUTION = "Until it is taken up, tie the cloth back off the floor."


class _Walked(NamedTuple):
    """Where people walk: its shape on the plan, what a message calls it, whether it leads outside."""

    shape: BaseGeometry
    name: str
    outside: bool = False


class _Near(NamedTuple):
    distance: float
    place: _Walked
    p: Array
    q: Array


def _walked(case: RoomCase) -> list[_Walked]:
    """Return the doorways with their leaves' sweeps, and the narrow places that ways pass."""
    found = []
    for door in (o for o in case.room.openings.values() if o.is_way):
        half = door.clear / 2 * door.wall.direction
        line = LineString((door.center - half, door.center + half))
        shape = line if door.swing is None else union_all([line, door.swing])
        found.append(_Walked(shape, f"the {door.name}", door.model.to == OUTSIDE))
    ground, between = floor(case), ways(case).between
    for gate in ground.space.gates:
        one, other = ground.makers(gate)
        if frozenset((owner_key(one), owner_key(other))) in between and not isinstance(one, WallOpening):
            piece, beside = (one, other) if isinstance(one, StandingPiece) else (other, one)
            found.append(
                _Walked(LineString((gate.p, gate.q)), f"the way between {the(piece)} and {the(beside)}")
            )
    return found


def _lies(hung: AsHung) -> float:
    """Return how much of the cloth lies on the floor where that is most [m]; below 0 it hangs clear."""
    most = -inf
    for panel in hung.panels:
        a, b = panel.shut
        for x in (a, b, *(x for x, _ in hung.floors if a < x < b)):
            most = max(most, hung.floor(x) - drop_at(x, ((a, panel.hem[0]), (b, panel.hem[1]))))
    return most


def _nearest(case: RoomCase, hung: AsHung) -> _Near | None:
    """Return where a treatment's cloth lies nearest to where people walk."""
    shape = union_all([footprint(hung, span) for panel in hung.panels for span in (panel.shut, panel.drawn)])
    near = []
    for place in case.memo("walked", lambda: _walked(case)):
        p, q, distance = closest(shape, place.shape)
        near.append(_Near(distance, place, p, q))
    return min(near, key=lambda n: (round(n.distance, 6), n.place.name), default=None)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each treatment that drags where people walk."""
    most, beside = case.length("drapery.walked_lies"), case.length("drapery.walked_beside")
    ages = {person.age for person in case.job.people.values()}
    grave = bool(ages & {"child", "elder"})
    for key, hung in hung_in(case).items():
        if hung.kind != "panels" or at_most(lies := _lies(hung), most):
            continue
        near = _nearest(case, hung)
        if near is None or at_least(near.distance, beside):
            continue
        hanging = case.room.treatments[key]
        where = (
            f"{case.say(near.distance)} from {near.place.name}"
            if near.distance > 1e-3
            else f"in {near.place.name}"
        )
        wet = " and the wet of the street does not come into it" if near.place.outside else ""
        yield case.finding(
            rule_id(__name__), GRADE if grave else Grade.FAULT, (hanging,),
            f"{case.say(lies)} of the {hanging.name} lies on the floor {where}; where people walk, "
            f"{case.say(most, 'down')} at most is wanted, so that nobody steps on it{wet}.",
            measured=lies, wanted=most, sense="at most", practice="drapery.walked_lies", anchor=near.p,
            marks=((near.p, near.q),), caution=CAUTION if grave else "",
        )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Take the hem up, or raise the rod where the wall has room."""
    hung = hung_in(case)[finding.subjects[0].split("/")[-1]]
    name, path = case.room.treatments[hung.id].name, f"/{hung.path}"
    clear, lies = case.length("drapery.floor_clear"), _lies(hung)
    style: Patch = [{"op": "add", "path": f"{path}/length", "value": "clear"}]
    title = f"Take the hem of the {name} up, {case.say(clear)} clear of the floor."
    if "drop" in hung.given:
        drop = text(case, hung.top - max(h for _, h in hung.floors) - clear, -1)
        yield Proposal("hem", title, [*style, {"op": "replace", "path": f"{path}/drop", "value": drop}])
        style = [*style, {"op": "remove", "path": f"{path}/drop"}]
        title = f"Take the hem of the {name} up along the floor, {case.say(clear)} clear of it at each edge."
    yield Proposal("hem", title, style)
    height = hung.height + lies + clear
    if "drop" in hung.given and "height" in hung.given and at_most(height, hung.place.span.high):
        raised: Patch = [
            {"op": "replace", "path": f"{path}/hardware/height", "value": text(case, height, 1)},
            style[0],
        ]
        yield Proposal("raise", f"Raise the rod of the {name} by {case.say(lies + clear)}.", raised)
