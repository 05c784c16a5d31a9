"""What the rug rules share: rugs that lie on each other, what they lie for, how far they run, where a rug may lie."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import permutations

import numpy as np
from shapely import transform
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.seating.together import groups
from halfdrop.base.tolerance import SAME
from halfdrop.geometry.plane import Array, placed, point, turned
from halfdrop.room import LyingRug, StandingPiece
from halfdrop.room.groups import BedSet, DiningSet, SeatingGroup, rug_serves
from halfdrop.room.things import STORAGE
from halfdrop.rugs import Box

Owner = SeatingGroup | DiningSet | BedSet

#: A rug this near to a right angle with the room lies square to it [rad]; what a person cannot see.
SQUARE = math.radians(1.0)
#: A wall that leans by less than this over a rug's length does not stop it [m].
LEAN = 0.02
#: How far a run over a rug is followed [m].
FAR = 12.0
#: Fittings that stand on the floor a rug would need.
_ON_FLOOR = frozenset({"closet", "counter", "bath", "shower", "toilet", "column", "hearth", "stair head"})
_HEATERS = {
    "heater": "hazards.heater_clear",
    "radiator": "hazards.radiator_clear",
    "hearth": "hazards.hearth_clear",
}


@dataclass(frozen=True, eq=False)
class Stack:
    """Rugs that lie on each other, counted as one.

    Attributes
    ----------
    rugs : tuple of LyingRug
        Those on the floor first, then what lies over them.
    """

    rugs: tuple[LyingRug, ...]

    @property
    def main(self) -> LyingRug:
        """The largest of those on the floor: the one that does the work."""
        floor = [r for r in self.rugs if r.model.over is None] or list(self.rugs)
        return min(floor, key=lambda r: (-round(r.footprint.area, 6), r.id))

    @property
    def shape(self) -> BaseGeometry:
        """The floor they cover."""
        return unary_union([r.footprint for r in self.rugs])


def stacks(case: RoomCase) -> list[Stack]:
    """Return the room's rugs, those layered over each other together; worked out once."""
    return case.memo("rug stacks", lambda: _stacks(case))


def _stacks(case: RoomCase) -> list[Stack]:
    rugs = case.room.rugs

    def below(rug: LyingRug) -> list[LyingRug]:
        chain = [rug]
        while (over := chain[-1].model.over) is not None and rugs[over] not in chain:
            chain.append(rugs[over])
        return chain

    found: dict[str, list[LyingRug]] = {}
    for rug in sorted(rugs.values(), key=lambda r: (len(below(r)), r.id)):
        found.setdefault(min(r.id for r in below(rug)[-1:]), []).append(rug)
    return [Stack(tuple(members)) for members in found.values()]


def owner_of(case: RoomCase, stack: Stack) -> Owner | None:
    """Return what a stack of rugs lies for, or None for a loose rug or a runner."""

    def find() -> Owner | None:
        found = (rug_serves(case.room, rug, groups(case)) for rug in (stack.main, *stack.rugs))
        return next((owner for owner in found if owner is not None), None)

    return case.memo(f"rug owner {stack.main.id}", find)


def owner_id(owner: Owner) -> str:
    """Return the id of a group, a table or a bed."""
    if isinstance(owner, SeatingGroup):
        return owner.id
    return owner.table.id if isinstance(owner, DiningSet) else owner.bed.id


def owner_pieces(owner: Owner) -> tuple[StandingPiece, ...]:
    """Return the pieces a rug lies for."""
    if isinstance(owner, SeatingGroup):
        return owner.pieces
    return (owner.table, *owner.chairs) if isinstance(owner, DiningSet) else (owner.bed,)


def owner_whole(owner: Owner) -> tuple[StandingPiece, ...]:
    """Return the pieces a rug lies for and what belongs to them: the tables of a group, the nightstands of a bed."""
    if isinstance(owner, SeatingGroup):
        return (*owner.pieces, *owner.tables)
    return owner_pieces(owner) if isinstance(owner, DiningSet) else (owner.bed, *owner.nightstands)


@dataclass(frozen=True, eq=False)
class Under:
    """All that lies under one group, table or bed."""

    owner: Owner
    stacks: tuple[Stack, ...]

    @property
    def main(self) -> LyingRug:
        """The rug that does the work: the largest."""
        return min((s.main for s in self.stacks), key=lambda r: (-round(r.footprint.area, 6), r.id))

    @property
    def rugs(self) -> tuple[LyingRug, ...]:
        """Every rug of them, the main one first."""
        return (self.main, *(r for s in self.stacks for r in s.rugs if r is not self.main))

    @property
    def shape(self) -> BaseGeometry:
        """The floor they cover, arithmetic noise grown in."""
        return unary_union([s.shape for s in self.stacks]).buffer(1e-5, join_style="mitre")


def rugs_under(case: RoomCase) -> list[Under]:
    """Return what lies under each group, table and bed that has a rug; worked out once."""

    def find() -> list[Under]:
        found: dict[str, tuple[Owner, list[Stack]]] = {}
        for stack in stacks(case):
            owner = owner_of(case, stack)
            if owner is not None:
                found.setdefault(owner_pieces(owner)[0].id, (owner, []))[1].append(stack)
        return [Under(owner, tuple(some)) for owner, some in found.values()]

    return case.memo("rugs under", find)


def run(shape: BaseGeometry, start: Array, way: Array) -> float:
    """Return how far a rug runs from a point along a unit vector [m]; less than 0 by how far it stops short of the point."""
    away = float(shape.distance(point(start)))
    if away > SAME:
        return -away
    ray = LineString((start, start + FAR * way)).intersection(shape)
    near = [part for part in getattr(ray, "geoms", [ray]) if part.distance(point(start)) <= 2 * SAME]
    ends = [float((np.asarray(c) - start) @ way) for part in near for c in part.coords]
    return max(ends, default=0.0)


@dataclass(frozen=True, eq=False)
class Frame:
    """A frame on the plan that a rug lies square to."""

    origin: Array
    angle: float

    def box(self, points: Array) -> Box:
        """Return the box round plan points (n, 2), in the frame."""
        local = turned(np.asarray(points) - self.origin, -self.angle)
        return Box.around([(float(x), float(y)) for x, y in local])

    def box_of(self, shape: BaseGeometry) -> Box:
        """Return the box of the frame round a shape of the plan; an empty one at the origin where there is none."""
        return Box(*self.seen(shape).bounds) if not shape.is_empty else Box(0.0, 0.0, 0.0, 0.0)

    def local(self, p: Array) -> tuple[float, float]:
        """Return a plan point in the frame."""
        x, y = turned(np.asarray(p) - self.origin, -self.angle)
        return float(x), float(y)

    def way(self, v: Array) -> tuple[float, float]:
        """Return a plan vector in the frame."""
        x, y = turned(np.asarray(v), -self.angle)
        return float(x), float(y)

    def plan(self, p: tuple[float, float]) -> Array:
        """Return a point of the frame on the plan."""
        return np.asarray(placed(np.asarray(p), self.origin, self.angle))

    def polygon(self, lies: Box) -> Polygon:
        """Return a box of the frame on the plan."""
        return Polygon(placed(np.asarray(lies.corners), self.origin, self.angle))

    def seen(self, shape: BaseGeometry) -> BaseGeometry:
        """Return a shape of the plan in the frame."""
        return transform(shape, lambda xy: turned(xy - self.origin, -self.angle))


def squared(angle: float) -> float:
    """Return an angle [rad] as a rug is laid: square to wall AB where it nearly is, else to a tenth of a degree."""
    quarter = math.pi / 2
    nearest = round(angle / quarter) * quarter
    if abs(angle - nearest) < SQUARE:
        return nearest % (2 * math.pi)
    return math.radians(round(math.degrees(angle), 1)) % (2 * math.pi)


def sides_in(frame: Frame, rug: LyingRug) -> tuple[float, float] | None:
    """Return a rug's size across and along a frame [m], or None where it does not lie square to it."""
    off = (rug.angle - frame.angle) % math.pi
    if rug.width == rug.depth and rug.model.shape == "round":
        return rug.width, rug.depth
    if min(off, math.pi - off) < SQUARE:
        return rug.width, rug.depth
    return (rug.depth, rug.width) if abs(off - math.pi / 2) < SQUARE else None


def bare_key(case: RoomCase) -> str:
    """Return the practice key of the least bare floor to the walls in this room."""
    small = case.room.area <= case.practice.area("rugs.small_room_area") + 1e-9
    return "rugs.bare_floor_small_room" if small else "rugs.bare_floor_min"


def kept_off(case: RoomCase, core: BaseGeometry) -> BaseGeometry:
    """Return the floor a new rug keeps off: heaters and their clearance, storage, what is built in, low doors' swings.

    What already reaches into `core` (what the rug must cover) is left out.
    """
    room = case.room
    shapes: list[BaseGeometry] = []
    for fitting in room.fittings.values():
        kind = fitting.model.kind
        if kind in _HEATERS:
            clear = fitting.model.clearance
            shapes.append(
                fitting.footprint.buffer(case.length(_HEATERS[kind]) if clear is None else float(clear))
            )
        elif kind in _ON_FLOOR:
            shapes.append(fitting.footprint)
    shapes += [p.footprint for p in room.floor_pieces.values() if p.type in STORAGE]
    thick = (
        case.length("rugs.pile_default") + case.length("rugs.pad_thin") + case.length("rugs.door_over_rug")
    )
    for door in room.openings.values():
        undercut = door.model.undercut
        if door.swing is not None and (undercut is None or float(undercut) < thick):
            shapes.append(door.swing)
    return unary_union([s for s in shapes if s.intersection(core).area < 1e-3])


def free_boxes(frame: Frame, floor: BaseGeometry, core: Box) -> list[Box]:
    """Return the largest boxes of a frame that lie on a floor and hold a core, the largest first.

    Each side of the core is pushed out until it meets what is not floor, the four sides in every order. Walls that lean by
    less than `LEAN` do not stop a side; the box is drawn in to them at the end.
    """
    here = frame.seen(floor)
    limits = here.bounds
    outside = box(*limits).buffer(1.0, join_style="mitre").difference(here)
    solid = outside.buffer(-LEAN, join_style="mitre")
    if solid.intersects(box(*core.corners[0], *core.corners[2])):
        return []
    found: set[tuple[float, ...]] = set()
    for order in permutations(range(4)):
        sides = [core.x0, core.y0, core.x1, core.y1]
        for k in order:
            sides[k] = _met(solid, sides, k, limits[k], limits[k])
        for k in range(4):
            inner = sides[k] + (2 * LEAN if k < 2 else -2 * LEAN)
            narrow = [s + (2 * LEAN if i < 2 else -2 * LEAN) for i, s in enumerate(sides)]
            narrow[k] = inner
            sides[k] = _met(outside, narrow, k, sides[k], sides[k])
        found.add(tuple(round(s, 5) for s in sides))
    boxes = [Box(*sides) for sides in found]
    return sorted(boxes, key=lambda b: (-round(b.area, 4), b.x0, b.y0))


def _met(outside: BaseGeometry, sides: list[float], k: int, to: float, free: float) -> float:
    """Return where side `k` (0 to 3: low x, low y, high x, high y) of a box, pushed out to `to`, first meets the outside."""
    strip = list(sides)
    strip[k], strip[(k + 2) % 4] = to, sides[k]
    x0, x1 = sorted((strip[0], strip[2]))
    y0, y1 = sorted((strip[1], strip[3]))
    met = outside.intersection(box(x0, y0, x1, y1))
    if met.is_empty or met.area < 1e-9:
        return free
    return float(met.bounds[(k + 2) % 4])


def rooms_round(case: RoomCase, frame: Frame, wanted: Box) -> list[Box]:
    """Return the rectangles of floor a rug under `wanted` has, walls to walls, the most careful first.

    Where storage, a heater or a low door stands nearer than the bare floor would, the box ends short of it by as much less.
    """
    core = Box.sized(wanted.across / 2, wanted.along / 2, wanted.center)
    bare = case.length(bare_key(case))
    walls = free_boxes(frame, case.room.outline, core)
    off = kept_off(case, frame.polygon(core))
    clear = free_boxes(frame, case.room.outline.difference(off), core) if not off.is_empty else []
    found: list[Box] = []
    for c in clear[:4]:
        w = next((w for w in walls if w.covers(c, 2 * LEAN)), None)
        if w is not None:
            found.append(
                Box(
                    max(w.x0, c.x0 - bare),
                    max(w.y0, c.y0 - bare),
                    min(w.x1, c.x1 + bare),
                    min(w.y1, c.y1 + bare),
                )
            )
    return list(dict.fromkeys([*found, *walls[:2]]))
