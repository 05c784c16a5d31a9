"""The widest way between places on a floor, exact.

A walker is a disk. How wide a disk passes from one place to another is decided at *gates*: where two convex
shapes (a piece, an edge of the room) come closest to each other with nothing else between. A disk wider than the gap
cannot cross the segment between the two closest points, and a floor cut by all gates narrower than a width falls
into just the parts such a disk can move about in. So the floor is cut by its gates into faces; faces are joined by
gates, and the widest way is the path through a maximum spanning forest. Nothing is sampled: a gate is as wide as the
true distance of its two shapes (ellipses count as the polygons they are drawn as).

Why it is exact: the disks of radius r about a convex shape are a convex set, so by the nerve theorem their union has
the shape of the graph of shapes nearer than 2r, triangles filled; of that graph the edges whose own circle (on the
closest points as diameter) holds no third shape suffice (the Gabriel graph, which with the filled triangles is the
alpha complex of the shapes).
Source: Edelsbrunner & Harer, Computational Topology (2010), III.2 and III.4 (from memory, unverified); the step from
points to convex shapes is worked out here, and held by the tests.
Checked by: tests/geometry/test_freespace.py (corridors, slots, turns; rasters of random rooms).
"""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.base.tolerance import SAME
from halfdrop.geometry.plane import Array

#: Gates run this far into the shapes at their ends, so that no rounding leaves a slit [m].
OVERRUN = 2e-6
#: A third shape that reaches into a gate's circle by less than this does not count [m].
NOISE = 1e-7
#: Beyond an open edge the floor goes on at least this far [m].
GOES_ON = 1.5
#: Arcs of a disk's room are drawn with this many segments a quarter circle.
QUARTER = 16


@dataclass(frozen=True, eq=False)
class Gate:
    """A narrow place: two shapes, their closest points, the gap.

    Attributes
    ----------
    width : float
        The gap [m].
    a, b : int
        The shapes: an obstacle's index, or for an edge of the outline the number of obstacles plus the edge's
        index; a < b.
    p, q : Array (2,)
        The closest points, on `a` and on `b` [m].
    faces : tuple of int
        The parts of the floor it joins.
    """

    width: float
    a: int
    b: int
    p: Array
    q: Array
    faces: tuple[int, ...]


@dataclass(frozen=True)
class Way:
    """The widest way from one place to another.

    Attributes
    ----------
    width : float
        At its narrowest [m]; `inf` where no gate under the cap is passed, 0 where there is no way at all.
    gates : tuple of Gate
        The gates passed, in walking order.
    """

    width: float
    gates: tuple[Gate, ...]


NO_WAY = Way(0.0, ())


class FreeSpace:
    """A floor cut into faces by its gates; made by `free_space`.

    Attributes
    ----------
    floor : Polygon or MultiPolygon
        The floor nothing stands on [m].
    gates : tuple of Gate
        Every gate narrower than the cap, the widest first.
    faces : tuple of Polygon
        The parts of the floor between gates.
    """

    def __init__(
        self,
        floor: Polygon | MultiPolygon,
        gates: tuple[Gate, ...],
        faces: list[Polygon],
        beyond: Sequence[Polygon] = (),
    ) -> None:
        self.floor = floor
        self._wider = shapely.union_all([floor, *beyond]) if beyond else floor
        self.gates = gates
        self.faces = tuple(faces)
        self._tree = shapely.STRtree(faces)
        self._room: dict[float, BaseGeometry] = {}
        self._trees: dict[int, dict[int, tuple[int, Gate] | None]] = {}

    def room_for(self, width: float) -> BaseGeometry:
        """Return where the center of a disk of this width can be [m].

        Straight sides are exact, with half of `SAME` given; at corners the arc is drawn by its chords, which give
        a disk of 36 in 0.6 mm at most.
        """
        if width not in self._room:
            self._room[width] = self._wider.buffer(-max(width - SAME, 0.0) / 2, quad_segs=QUARTER)
        return self._room[width]

    def faces_at(self, point: Array) -> frozenset[int]:
        """Return the faces that a point lies in."""
        return self.faces_meeting(shapely.points(point))

    def faces_meeting(self, shape: BaseGeometry) -> frozenset[int]:
        """Return the faces that a shape meets."""
        return frozenset(int(i) for i in self._tree.query(shape, predicate="intersects"))

    def faces_touching(self, zone: BaseGeometry, width: float) -> frozenset[int]:
        """Return the faces in which a disk of this width touches a zone; empty where none can."""
        if zone.is_empty:
            return frozenset()
        centers = self.room_for(width).intersection(zone.buffer(width / 2, quad_segs=QUARTER))
        if centers.is_empty:
            return frozenset()
        return self.faces_meeting(centers)

    def widest_touching(self, zone: BaseGeometry, most: float, steps: int = 10) -> float:
        """Return the widest disk up to `most` that touches a zone [m], by bisection to most/2**steps."""
        if self.faces_touching(zone, most):
            return most
        low, high = 0.0, most
        for _ in range(steps):
            middle = (low + high) / 2
            low, high = (middle, high) if self.faces_touching(zone, middle) else (low, middle)
        return low

    @cached_property
    def _forest(self) -> list[list[tuple[int, Gate]]]:
        """The maximum spanning forest of the faces, as neighbors."""
        parent = list(range(len(self.faces)))

        def root(i: int) -> int:
            while parent[i] != i:
                parent[i] = parent[parent[i]]
                i = parent[i]
            return i

        near: list[list[tuple[int, Gate]]] = [[] for _ in self.faces]
        for gate in self.gates:
            for face in gate.faces[1:]:
                first = gate.faces[0]
                one, other = root(first), root(face)
                if one != other:
                    parent[other] = one
                    near[first].append((face, gate))
                    near[face].append((first, gate))
        return near

    def _from(self, face: int) -> dict[int, tuple[int, Gate] | None]:
        if face not in self._trees:
            came: dict[int, tuple[int, Gate] | None] = {face: None}
            queue = [face]
            for here in queue:
                for there, gate in self._forest[here]:
                    if there not in came:
                        came[there] = (here, gate)
                        queue.append(there)
            self._trees[face] = came
        return self._trees[face]

    def connected(self, faces: Iterable[int]) -> frozenset[int]:
        """Return every face that some way of any width leads to from these."""
        return frozenset(
            there for face in faces for there in self._from(face) if self.way((face,), (there,)).width > 0
        )

    def way(self, start: Iterable[int], end: Iterable[int]) -> Way:
        """Return the widest way from any of some faces to any of others."""
        best: Way | None = None
        for first in sorted(start):
            came = self._from(first)
            for last in sorted(end):
                if last not in came:
                    continue
                gates, width, here = [], math.inf, last
                while (step := came[here]) is not None:
                    here, gate = step
                    gates.append(gate)
                    width = min(width, gate.width)
                if best is None or width > best.width:
                    best = Way(width, tuple(reversed(gates)))
        return best or NO_WAY


def free_space(
    outline: Polygon, obstacles: Sequence[Polygon], *, cap: float = math.inf, open_edges: Container[int] = ()
) -> FreeSpace:
    """Cut a floor into faces by its gates.

    Parameters
    ----------
    outline : Polygon
        The floor, without holes [m].
    obstacles : sequence of Polygon
        What stands on it, of any shape; may overlap each other and the outline.
    cap : float
        Gates as wide as this or wider are left out: a way wider than this comes out as `inf` [m].
    open_edges : container of int
        Edges of the outline, by number, that pinch nothing: the floor goes on beyond them.
    """
    shapes, owners, hollow = _sites(outline, obstacles, open_edges)
    gates = _gates(outline, shapes, owners, len(obstacles), hollow, cap)
    occupied = shapely.union_all(list(obstacles)) if obstacles else Polygon()
    # grown by a hair, so that what stands flush against a wall leaves no slit of rounding behind it
    floor = outline.difference(occupied.buffer(OVERRUN / 4, join_style="mitre"))
    lines = [shapely.boundary(floor), *(_cut(*gate[:3]) for gate in gates)]
    cells = shapely.get_parts(shapely.polygonize(shapely.get_parts(shapely.union_all(lines))))
    inside = shapely.point_on_surface(cells)
    shapely.prepare(floor)
    faces = list(cells[shapely.contains(floor, inside)])
    gates = [gate for gate in gates if gate[0] >= OVERRUN]  # what touches parts the floor, and joins nothing
    joined: list[list[int]] = [[] for _ in gates]
    if gates and faces:
        middles = shapely.points([(p + q) / 2 for _, p, q, _, _ in gates])
        for g, f in zip(*shapely.STRtree(faces).query(middles, "dwithin", OVERRUN / 2), strict=True):
            joined[int(g)].append(int(f))
    made = [Gate(w, a, b, p, q, tuple(sorted(j))) for (w, p, q, a, b), j in zip(gates, joined, strict=True)]
    made.sort(key=lambda gate: (-round(gate.width, 6), gate.a, gate.b, -gate.width))
    beyond = [_beyond(outline, k) for k in range(len(outline.exterior.coords) - 1) if k in open_edges]
    return FreeSpace(floor, tuple(made), faces, beyond)


def _beyond(outline: Polygon, edge: int) -> Polygon:
    """Return the floor beyond an open edge of the outline."""
    a, b = shapely.get_coordinates(outline.exterior)[edge : edge + 2]
    left = np.array((a[1] - b[1], b[0] - a[0])) / math.hypot(*(b - a))
    out = left * (-GOES_ON if outline.exterior.is_ccw else GOES_ON)
    return Polygon((a, b, b + out, a + out))


def _sites(
    outline: Polygon, obstacles: Sequence[Polygon], open_edges: Container[int]
) -> tuple[list[BaseGeometry], list[int], list[Polygon]]:
    """Return convex shapes, whose they are, and the obstacles that are not convex (they give their edges)."""
    shapes: list[BaseGeometry] = []
    owners: list[int] = []
    hollow: list[Polygon] = []
    for i, shape in enumerate(obstacles):
        if shape.convex_hull.area - shape.area <= 1e-9:
            shapes.append(shape)
            owners.append(i)
            continue
        hollow.append(shape)
        edges = _edges(shape)
        shapes += edges
        owners += [i] * len(edges)
    closed = [(len(obstacles) + k, edge) for k, edge in enumerate(_edges(outline)) if k not in open_edges]
    return shapes + [edge for _, edge in closed], owners + [k for k, _ in closed], hollow


def _edges(shape: Polygon) -> list[BaseGeometry]:
    ring = shapely.get_coordinates(shape.exterior)
    return list(shapely.linestrings(np.stack((ring[:-1], ring[1:]), axis=1)))


_Raw = tuple[float, Array, Array, int, int]


def _gates(
    outline: Polygon,
    shapes: list[BaseGeometry],
    owners: list[int],
    edge: int,
    hollow: list[Polygon],
    cap: float,
) -> list[_Raw]:
    """Return width, closest points and owners of each pair with nothing else in the circle between."""
    sites = np.array(shapes)
    tree = shapely.STRtree(sites)
    if math.isinf(cap):
        i, j = np.triu_indices(len(sites), 1)
    else:
        i, j = tree.query(sites, "dwithin", cap)
        i, j = i[i < j], j[i < j]
    ends = shapely.get_coordinates(shapely.shortest_line(sites[i], sites[j])).reshape(-1, 2, 2)
    width = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    middle = shapely.points(ends.mean(axis=1))
    shapely.prepare(outline)
    own = np.array(owners)
    touching = (
        (width < OVERRUN) & (own[i] != own[j]) & (own[i] < edge)
    )  # two edges of the room that meet are no gate
    keep = (width < cap) & (touching | ((width >= OVERRUN) & shapely.contains(outline, middle)))
    for shape in hollow:
        keep &= touching | ~shapely.contains_properly(shape, middle)
    index = np.flatnonzero(keep)
    pairs, nearest = tree.query_nearest(middle[index], all_matches=False, return_distance=True)
    index = index[pairs[0]][nearest >= width[index[pairs[0]]] / 2 - NOISE]
    found = []
    for k in index:
        p, q = ends[k]
        a, b = owners[i[k]], owners[j[k]]
        found.append((float(width[k]), p, q, a, b) if a <= b else (float(width[k]), q, p, b, a))
    return found


def _cut(width: float, p: Array, q: Array) -> BaseGeometry:
    """Return the line that closes a gate: longer than the gap by a hair; a small cross where there is no gap."""
    if width >= OVERRUN:
        over = (q - p) * (OVERRUN / width)
        return LineString((p - over, p, q, q + over))  # a corner must be met to the last bit
    m, e = (p if width == 0 else (p + q) / 2), OVERRUN
    return shapely.multilinestrings(
        shapely.linestrings([[m - d, m, m + d] for d in (np.array((e, 0.0)), np.array((0.0, e)))])
    )
