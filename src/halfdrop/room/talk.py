"""How far apart people sit who are to talk: which measure applies to which pair, and the circle of a group.

Two seats stand to each other in one of three ways, by the angle between the ways they look:

- *facing* (more than 120° apart, each before the other): measured from front edge to front edge, each edge as
wide as
  one person; less the knees that stand out before it, that is body to body;
- *corner* (60° to 120°): shoulder to shoulder, that is from head to head less one person's width;
- *beside* (less than 60°): shoulder to shoulder too, where neither sits behind the other.

Where one has their back to the other they do not talk, and there is no measure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from halfdrop.geometry.plane import Array, left_of, xy
from halfdrop.room.groups import Seat

Way = Literal["facing", "corner", "beside"]

#: Cosine of the angle between two facings from which seats are beside one another; its negative: facing.
LIKE = 0.5
#: A person turns this far back to talk to a neighbor: cosine of the angle from their facing (about 110°).
TURNED = -0.35
#: Opposite seats see each other when the line between lies at least this far forward (cosine).
FORWARD = 0.1
#: Neighbors who look the same way sit in a row: cosine of the angle between facing and line, at most.
ROW = 0.5


@dataclass(frozen=True, eq=False)
class Talk:
    """How two pieces' nearest people sit to each other.

    Attributes
    ----------
    way : {"facing", "corner", "beside"}
        Which measure applies.
    gap : float
        Front edge to front edge where they face, else shoulder to shoulder [m].
    between : float
        Body to body [m]: knees to knees where they face, else shoulder to shoulder.
    p, q : Array (2,)
        Where it was measured: on the first piece's seat, on the second's [m].
    """

    way: Way
    gap: float
    between: float
    p: Array
    q: Array


def way_between(a: Seat, b: Seat) -> Way:
    """Return how two seats stand to each other, by their facings alone."""
    like = float(a.facing @ b.facing)
    return "beside" if like > LIKE else "facing" if like < -LIKE else "corner"


def talk_between(a: Sequence[Seat], b: Sequence[Seat], person: float, knees: float) -> Talk | None:
    """Return the nearest talk between the places of two pieces, or None where nobody can talk across.

    Parameters
    ----------
    a, b : sequence of Seat
        Places of one piece (they look one way), and of another.
    person : float
        Width one seated person takes [m].
    knees : float
        How far knees stand out before the front edge [m].

    Source: our choice of measures; the limits they are held against stand in practice (`seating.*`).
    Checked by: tests/room/test_talk.py.
    """
    if not a or not b:
        return None
    way = way_between(a[0], b[0])
    heads_a, heads_b = np.array([s.head for s in a]), np.array([s.head for s in b])
    line = heads_b[None, :, :] - heads_a[:, None, :]
    far = np.maximum(np.linalg.norm(line, axis=2), 1e-9)
    cos_a, cos_b = line @ a[0].facing / far, -(line @ b[0].facing) / far
    if way == "facing":
        talks = (cos_a >= FORWARD) & (cos_b >= FORWARD)
        edges_a, edges_b = _edges(a, person), _edges(b, person)
        gaps = shapely.distance(edges_a[:, None], edges_b[None, :])
    else:
        turns = (cos_a >= TURNED) & (cos_b >= TURNED)
        talks = turns if way == "corner" else (np.abs(cos_a) <= ROW) & (np.abs(cos_b) <= ROW)
        gaps = np.maximum(far - person, 0.0)
    if not talks.any():
        return None
    i, j = np.unravel_index(int(np.argmin(np.where(talks, gaps, np.inf))), gaps.shape)
    gap = float(gaps[i, j])
    if way != "facing":
        return Talk(way, gap, gap, heads_a[i], heads_b[j])
    (p, q) = np.asarray(shapely.shortest_line(edges_a[i], edges_b[j]).coords)
    return Talk(way, gap, max(gap - 2 * knees, 0.0), p, q)


def _edges(seats: Sequence[Seat], person: float) -> Array:
    """Return the front edges of places, each one person wide, as an array of lines."""
    ends = [
        (s.front - left_of(s.facing) * person / 2, s.front + left_of(s.facing) * person / 2) for s in seats
    ]
    return np.asarray(shapely.linestrings(np.array(ends)))


def circle_over(seats: Sequence[Seat]) -> tuple[float, Array]:
    """Return diameter [m] and center of the least circle that holds the heads of these places."""
    circle = shapely.minimum_bounding_circle(shapely.multipoints(np.array([s.head for s in seats])))
    center = circle.centroid
    heads = np.array([s.head for s in seats])
    radius = float(shapely.minimum_bounding_radius(shapely.multipoints(heads)))
    return 2 * radius, xy(center.x, center.y)


def moved_seats(seats: Sequence[Seat], by: Array) -> list[Seat]:
    """Return places shifted by a plan vector [m], for trying a move out before it is proposed."""
    return [Seat(s.piece, s.front + by, s.head + by, s.facing) for s in seats]
