"""The ways of a room: the widest from every door to every place, and where they pinch.

The floor is cut as `geometry.freespace` tells; doorways stand open by their clear width. A way's narrow places below
what is wanted come out once each, with all the places they lead to. What the house itself makes (two walls, a wall and
a radiator) is no pinch of the furniture's and is left out; at a doorway no more is wanted than its clear width.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import shapely
from shapely.geometry.base import BaseGeometry

from halfdrop.base.tolerance import at_least
from halfdrop.geometry.freespace import Gate
from halfdrop.geometry.plane import Array
from halfdrop.practice import Practice
from halfdrop.room.groups import dining_sets
from halfdrop.room.places import GRAZE, Place, places_of
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import StandingPiece, Thing, WallOpening
from halfdrop.room.way_floor import Owner, WayFloor, owner_key


@dataclass(frozen=True, eq=False)
class Pinch:
    """A narrow place that ways pass.

    Attributes
    ----------
    width, wanted : float
        The gap, and the most that a way through it wants [m].
    key : str
        The practice value wanted.
    one, other : Thing, Wall or WallOpening
        What makes it; `one` is a piece.
    p, q : Array (2,)
        The closest points, on `one` and on `other` [m].
    leads : tuple of (Place, Place)
        Door and place of each way through it that wants so much.
    """

    width: float
    wanted: float
    key: str
    one: StandingPiece
    other: Owner
    p: Array
    q: Array
    leads: tuple[tuple[Place, Place], ...]


@dataclass(frozen=True, eq=False)
class Shut:
    """A place no way comes to.

    Attributes
    ----------
    place : Place
        Which.
    width, wanted : float
        The widest disk that comes near enough (0 where the floor before it is walled in by what touches) [m].
    key : str
        The practice value wanted.
    by : tuple of StandingPiece
        The pieces before it.
    """

    place: Place
    width: float
    wanted: float
    key: str
    by: tuple[StandingPiece, ...]


@dataclass(frozen=True, eq=False)
class Ways:
    """What was found about the ways of a room.

    Attributes
    ----------
    pinches, shut : tuple
        What is too narrow, and what is not come to.
    between : dict
        For gaps that ways pass, wide ones too (up to what one wants who walks behind a diner): whether a main way
        does, by both things' keys (`owner_key`). Ways to a table itself do not count.
    """

    pinches: tuple[Pinch, ...]
    shut: tuple[Shut, ...]
    between: dict[frozenset[str], bool] = field(default_factory=dict)


def wanted_key(place: Place, room: ResolvedRoom, elder: bool) -> str:
    """Return the practice value that a way from a door to a place has to reach.

    Rooms to sleep in take the bedroom's value (an elder's where an elder lives here), unless people also sit there:
    then only the ways to beds and storage do. A room for meals alone has its main way to the table.
    """
    use = {u for u, on in room.model.use.items() if on}
    bedroom = "circulation.bedroom_path_elder" if elder else "circulation.bedroom_path"
    if place.kind == "window":
        return "circulation.window_access"
    if "bedroom" in use and (not use & {"living", "dining"} or place.kind in ("bed", "storage")):
        return bedroom
    if place.kind in ("door", "group") or (place.kind == "table" and use == {"dining"}):
        return "circulation.main"
    return "circulation.secondary"


def main_way(place: Place, key: str) -> bool:
    """Return whether the way to a place is a main way."""
    return place.kind in ("door", "group") or key == "circulation.main"


@dataclass
class _Passed:
    gate: Gate
    wanted: float = 0.0
    key: str = ""
    leads: list[tuple[Place, Place]] = field(default_factory=list)


class PinchFinder:
    """Gathers the gaps too narrow on some ways, once for each two things that make one.

    What the house makes by itself is no pinch; at the doorway a way leads to or from no more is wanted than its clear
    width (past the jamb of another as much as anywhere). A row of chairs
    along a wall makes one pinch with it, told at the narrowest: things of one set (a table's chairs) count as one.
    """

    def __init__(self, floor: WayFloor, sets: Mapping[str, str] | None = None) -> None:
        self._floor = floor
        self._sets = sets or {}
        self._passed: dict[frozenset[str], _Passed] = {}

    def _pair(self, owners: Iterable[Owner]) -> frozenset[str]:
        return frozenset(self._sets.get(owner_key(owner), owner_key(owner)) for owner in owners)

    def note(self, gates: Iterable[Gate], lead: tuple[Place, Place], wanted: float, key: str) -> None:
        """Note a way's gates: whence and whither it leads, how wide it has to be [m], by which practice value."""
        ends = {thing.path for place in lead for thing in place.things}
        for gate in gates:
            makers = self._floor.makers(gate)
            want = min([wanted, *(o.clear for o in makers if isinstance(o, WallOpening) and o.path in ends)])
            if not any(isinstance(o, StandingPiece) for o in makers) or at_least(gate.width, want):
                continue
            entry = self._passed.setdefault(self._pair(makers), _Passed(gate))
            if (round(gate.width, 5), gate.a, gate.b) < (
                round(entry.gate.width, 5),
                entry.gate.a,
                entry.gate.b,
            ):
                entry.gate = gate
            if want > entry.wanted + 1e-9:
                entry.wanted, entry.key = want, key
            entry.leads.append(lead)

    def pinches(self) -> tuple[Pinch, ...]:
        """Return the pinches noted, the narrowest first."""
        found = [self._pinch(p) for p in self._passed.values() if p.key]
        return tuple(sorted(found, key=lambda p: (p.width, p.one.path)))

    def _pinch(self, passed: _Passed) -> Pinch:
        gate = passed.gate
        one, other = self._floor.makers(gate)
        p, q = gate.p, gate.q
        if not isinstance(one, StandingPiece) or (
            isinstance(other, StandingPiece) and (one.model.keep, one.path) > (other.model.keep, other.path)
        ):
            one, other, p, q = other, one, q, p
        assert isinstance(one, StandingPiece)
        return Pinch(gate.width, passed.wanted, passed.key, one, other, p, q, tuple(passed.leads))


#: The values by which ways are judged, here and for the way out.
WIDTHS = (
    "circulation.main",
    "circulation.secondary",
    "circulation.bedroom_path",
    "circulation.bedroom_path_elder",
    "circulation.window_access",
    "dining.walk_past",
)


def ways_of(room: ResolvedRoom, practice: Practice, floor: WayFloor, *, elder: bool = False) -> Ways:
    """Return every pinch of the ways from each door, and every place they do not come to.

    A seat, a front, a bed's side counts as come to when a disk as wide as its way touches the floor before it: the
    last steps may be sideways, as between a sofa and its table. `floor` is cut by gates at least as wide as any of
    `WIDTHS`.
    """
    places = places_of(room, practice)
    doors = [p for p in places if p.kind == "door"]
    if not doors:
        return Ways((), ())
    keys = {id(p): wanted_key(p, room, elder) for p in places}
    sets = {m.path: d.table.path for d in dining_sets(room) for m in (d.table, *d.chairs)}
    finder = PinchFinder(floor, sets)
    shut: list[Shut] = []
    between: dict[frozenset[str], bool] = {}
    for n, place in enumerate(places):
        key = keys[id(place)]
        wanted = float(practice.length(key))
        faces = _faces(floor, place, wanted)
        if not faces:
            width = 0.0 if place.zone is None else floor.space.widest_touching(_near(floor, place), wanted)
            shut.append(Shut(place, width, wanted, key, _before(room, place)))
            continue
        from_doors = [d for d in doors[: n if place.kind == "door" else None] if _faces(floor, d, 0.0)]
        reached = False
        for door in from_doors:
            way = floor.space.way(_faces(floor, door, 0.0), faces)
            reached = reached or way.width > 0
            finder.note(way.gates, (door, place), wanted, key)
            for gate in way.gates if place.kind != "table" else ():
                pair = frozenset(owner_key(owner) for owner in floor.makers(gate))
                between[pair] = between.get(pair, False) or main_way(place, key)
        if from_doors and not reached:
            here = frozenset().union(*(_faces(floor, d, 0.0) for d in from_doors))
            shut.append(Shut(place, 0.0, wanted, key, parting(room, floor, here, faces)))
    return Ways(finder.pinches(), tuple(shut), between)


def _faces(floor: WayFloor, place: Place, wanted: float) -> frozenset[int]:
    if place.zone is None:
        return floor.doors[place.things[0].id]
    return floor.space.faces_touching(_near(floor, place), wanted)


def _near(floor: WayFloor, place: Place) -> BaseGeometry:
    """Return the floor before a place's thing that nothing parts from it.

    A window is worked over what is low, and chairs are come to from any side: there the whole zone counts.
    """
    assert place.zone is not None
    if place.kind in ("table", "desk", "window"):
        return place.zone
    free = place.zone.intersection(floor.space.floor)
    own = shapely.union_all([t.footprint for t in place.things if isinstance(t, Thing)])
    parts = [part for part in shapely.get_parts(free) if part.distance(own) < 1e-6]
    return shapely.union_all(parts).buffer(-GRAZE, join_style="mitre")


def parting(
    room: ResolvedRoom, floor: WayFloor, here: frozenset[int], there: frozenset[int]
) -> tuple[StandingPiece, ...]:
    """Return the pieces that part one part of the floor from another: they border on both, else on the second."""
    sides = [
        shapely.union_all([floor.space.faces[i] for i in floor.space.connected(f)]) for f in (here, there)
    ]
    on_there = [p for p in room.floor_pieces.values() if p.footprint.distance(sides[1]) < 1e-6]
    return tuple(p for p in on_there if p.footprint.distance(sides[0]) < 1e-6) or tuple(on_there)


def _before(room: ResolvedRoom, place: Place) -> tuple[StandingPiece, ...]:
    """Return the pieces that stand on or around a place's floor, the nearest first."""
    own = {t.path for t in place.things}
    zone = place.zone if place.zone is not None else place.things[0].approach(0.6)  # type: ignore[union-attr]
    center = shapely.centroid(zone)
    near = [p for p in room.floor_pieces.values() if p.path not in own and p.footprint.distance(zone) < 0.3]
    return tuple(
        sorted(
            near,
            key=lambda p: (
                round(p.footprint.distance(zone), 6),
                round(p.footprint.distance(center), 6),
                p.id,
            ),
        )
    )
