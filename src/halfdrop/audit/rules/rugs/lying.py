"""What the rug rules share: rugs that lie on each other, what they lie for, how far they run, where a rug may lie."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely import transform
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.seating.together import groups
from halfdrop.base.tolerance import SAME
from halfdrop.geometry.plane import Array, placed, point, turned
from halfdrop.room import LyingRug, StandingPiece
from halfdrop.room.groups import BedSet, DiningSet, SeatingGroup, rug_serves, seat_count
from halfdrop.rugs import Box

Owner = SeatingGroup | DiningSet | BedSet

#: A rug this near to a right angle with the room lies square to it [rad]; what a person cannot see.
SQUARE = math.radians(1.0)
#: How far a run over a rug is followed [m].
FAR = 12.0


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


def full_groups(case: RoomCase) -> list[SeatingGroup]:
    """Return the groups that seat three or more: those that want a rug of their own."""
    return [g for g in groups(case) if sum(seat_count(p, case.practice) for p in g.pieces) >= 3]


def is_large(case: RoomCase) -> bool:
    """Return whether the room counts as large."""
    return case.room.area >= float(case.practice.area("rugs.large_room_area")) - 1e-6


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
