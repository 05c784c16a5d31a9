"""The floor of a room as a walker finds it: cut by its gates, its doorways open by their clear width."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.geometry.freespace import FreeSpace, Gate, free_space
from halfdrop.geometry.plane import Array
from halfdrop.practice import Practice
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import StandingPiece, Thing, WallOpening
from halfdrop.room.walls import Wall

#: A doorway stands open this far into its wall [m]: just enough to stand in.
DOORWAY = 0.05

Owner = Thing | Wall | WallOpening


@dataclass(frozen=True, eq=False)
class WayFloor:
    """The floor of a room as a walker finds it.

    Attributes
    ----------
    space : FreeSpace
        Cut by its gates.
    owners : tuple of Thing, Wall or WallOpening
        Whose the shapes are that its gates name by number.
    doors : dict
        The faces each doorway opens on, by the opening's id.
    jambs : tuple of (Array, WallOpening)
        The corners of the doorways: what pinches there is the doorway's, though a wall ends there too.
    """

    space: FreeSpace
    owners: tuple[Owner, ...]
    doors: dict[str, frozenset[int]]
    jambs: tuple[tuple[Array, WallOpening], ...]

    def makers(self, gate: Gate) -> tuple[Owner, Owner]:
        """Return what makes a gate."""
        one, other = (self._maker(self.owners[n], p) for n, p in ((gate.a, gate.p), (gate.b, gate.q)))
        return one, other

    def _maker(self, owner: Owner, at: Array) -> Owner:
        if isinstance(owner, Wall):
            return next((door for corner, door in self.jambs if np.hypot(*(corner - at)) < 1e-6), owner)
        return owner


def owner_key(owner: Owner) -> str:
    """Return the key of what makes a gap: its path, or `walls/AB`."""
    return f"walls/{owner.name}" if isinstance(owner, Wall) else owner.path


def way_floor(room: ResolvedRoom, practice: Practice, cap: float) -> WayFloor:
    """Cut a room's floor by every gate narrower than `cap` [m]; what is lower than a step over is no obstacle."""
    low = practice.length("circulation.step_over")
    things = [t for t in room.blocks.values() if not (isinstance(t, StandingPiece) and t.height <= low)]
    outline, edges, beyond = _open_outline(room)
    space = free_space(outline, [t.footprint for t in things], cap=cap, open_edges=beyond)
    doors = {o.id: space.faces_meeting(_sill(o)) for o in room.openings.values() if o.is_way}
    ring = shapely.get_coordinates(outline.exterior)
    jambs = [
        (ring[k + i], owner)
        for k, owner in enumerate(edges)
        if isinstance(owner, WallOpening) and k not in beyond
        for i in (0, 1)
    ]
    return WayFloor(space, (*things, *edges), doors, tuple(jambs))


def _sill(door: WallOpening) -> BaseGeometry:
    """Return the line across a doorway, halfway into its wall: whoever comes in may come in anywhere on it."""
    half = (door.clear / 2 - 1e-3) * door.wall.direction
    middle = door.center - DOORWAY / 2 * door.wall.inward
    return LineString((middle - half, middle + half))


def _open_outline(room: ResolvedRoom) -> tuple[Polygon, list[Owner], set[int]]:
    """Return the outline with its doorways open, whose each edge is, and which edges the floor goes on beyond."""
    points: list[Array] = []
    edges: list[tuple[Owner, bool]] = []
    for wall in room.walls:
        points.append(wall.start)
        edges.append((wall, False))
        done = 0.0
        doors = [o for o in room.openings.values() if o.is_way and o.wall is wall]
        for door in sorted(doors, key=lambda o: float(wall.along(o.center))):
            middle = float(wall.along(door.center))
            low, high = max(middle - door.clear / 2, done), min(middle + door.clear / 2, wall.length)
            if high - low < 1e-3:
                continue
            near, far = wall.start + low * wall.direction, wall.start + high * wall.direction
            out = -DOORWAY * wall.inward
            points += [near, near + out, far + out, far]
            edges += [(door, False), (door, True), (door, False), (wall, False)]
            done = high
    keep = [i for i, p in enumerate(points) if np.hypot(*(points[(i + 1) % len(points)] - p)) > 1e-6]
    beyond = {k for k, i in enumerate(keep) if edges[i][1]}
    return Polygon([points[i] for i in keep]), [edges[i][0] for i in keep], beyond
