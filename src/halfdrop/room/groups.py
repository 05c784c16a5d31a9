"""What belongs together in a room: seats and their people, seating groups, tables with chairs, beds with nightstands."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely.geometry import MultiPoint, Polygon
from shapely.ops import unary_union

from halfdrop.geometry.plane import Array
from halfdrop.practice import Practice, piece_key
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import SEATING, LyingRug, StandingPiece

#: Depth of an arm at each end of upholstery, for where its people sit [m]; common practice, no source.
ARM = 0.18
#: Two seats farther apart than this share no group unless the document says so, in multiples of the conversation circle.
APART = 1.5
#: A chair this near to a table is at it [m].
AT_TABLE = 0.75
#: A nightstand this near to a bed's side is the bed's [m].
BESIDE_BED = 0.60


@dataclass(frozen=True, eq=False)
class Seat:
    """One person's place.

    Attributes
    ----------
    piece : StandingPiece
        What they sit on.
    front : Array (2,)
        Middle of the seat's front edge, where the knees bend [m].
    head : Array (2,)
        Under the head [m].
    facing : Array (2,)
        Unit vector they look along.
    """

    piece: StandingPiece
    front: Array
    head: Array
    facing: Array


def seat_count(piece: StandingPiece, practice: Practice) -> int:
    """Return how many people a piece seats: as the document says, else by practice for its type."""
    if piece.model.seats is not None:
        return piece.model.seats
    key = piece_key(piece.type, "seats")
    return practice.count(key) if key in practice else 0


def seats_of(piece: StandingPiece, practice: Practice) -> list[Seat]:
    """Return the places of a piece, from local left to right, evenly between its arms.

    On an L-shaped sectional the return takes one place at its end, the body the others.
    """
    n = seat_count(piece, practice)
    if n == 0:
        return []
    w, front = piece.width / 2, piece.depth / 2
    arm = ARM if piece.type in SEATING and piece.width > 4 * ARM else 0.0
    low, high = -w + arm, w - arm
    places: list[tuple[float, float]] = []
    ret = piece.model.ret
    if ret is not None and n > 1:
        hand = -1.0 if ret.hand == "left" else 1.0
        places.append((hand * (w - float(ret.width) / 2), float(ret.length) - front))
        n -= 1
        front = float(piece.model.depth) - front
        low, high = (low + float(ret.width), high) if hand < 0 else (low, high - float(ret.width))
    places += [(low + (high - low) * (i + 0.5) / n, front) for i in range(n)]
    places.sort()
    back = min(practice.length("seating.head_behind_front"), 0.6 * piece.depth)
    return [Seat(piece, piece.at(x, y), piece.at(x, y - back), piece.front) for x, y in places]


@dataclass(frozen=True, eq=False)
class SeatingGroup:
    """Upholstery that talks together.

    Attributes
    ----------
    id : str
        The document's group id, or the ids of its pieces.
    pieces : tuple of StandingPiece
        Its upholstery.
    tables : tuple of StandingPiece
        Coffee and side tables that serve it.
    """

    id: str
    pieces: tuple[StandingPiece, ...]
    tables: tuple[StandingPiece, ...]

    @property
    def hull(self) -> Polygon:
        """The floor the group takes: the convex hull of its pieces."""
        return unary_union([p.footprint for p in (*self.pieces, *self.tables)]).convex_hull

    @property
    def front_legs(self) -> Array:
        """All front legs (k, 2) [m]."""
        return np.vstack([p.front_legs for p in self.pieces])


def _sees(a: StandingPiece, b: StandingPiece) -> bool:
    return float((b.center - a.center) @ a.front) > -0.2 * float(np.hypot(*(b.center - a.center)))


def seating_groups(room: ResolvedRoom, practice: Practice) -> list[SeatingGroup]:
    """Return the seating groups of a room.

    Pieces with the same `group` are one group. The others are grouped where the fronts are not farther apart than
    `APART` conversation circles and at least one of the two does not have its back to the other.
    """
    pieces = [p for p in room.floor_pieces.values() if p.type in SEATING]
    parent = {p.id: p.id for p in pieces}

    def root(key: str) -> str:
        while parent[key] != key:
            key = parent[key]
        return key

    limit = APART * practice.length("seating.conversation_circle")
    for i, a in enumerate(pieces):
        for b in pieces[i + 1 :]:
            if a.model.group is not None and b.model.group is not None:
                together = a.model.group == b.model.group
            elif a.model.group is not None or b.model.group is not None:
                together = False
            else:
                gap = float(a.footprint.distance(b.footprint))
                together = gap <= limit and (_sees(a, b) or _sees(b, a))
            if together:
                parent[root(b.id)] = root(a.id)
    members: dict[str, list[StandingPiece]] = {}
    for piece in pieces:
        members.setdefault(root(piece.id), []).append(piece)
    tables = [p for p in room.floor_pieces.values() if p.type in ("coffee table", "side table", "ottoman")]
    served: dict[str, list[StandingPiece]] = {key: [] for key in members}
    for table in tables:
        if not members:
            break
        named = [k for k, m in members.items() if table.model.group and m[0].model.group == table.model.group]
        key = (
            named[0]
            if named
            else min(
                members, key=lambda k: min(float(p.footprint.distance(table.footprint)) for p in members[k])
            )
        )
        served[key].append(table)
    return [
        SeatingGroup(m[0].model.group or "+".join(p.id for p in m), tuple(m), tuple(served[key]))
        for key, m in members.items()
    ]


@dataclass(frozen=True, eq=False)
class DiningSet:
    """A dining table with the chairs at it."""

    table: StandingPiece
    chairs: tuple[StandingPiece, ...]


def dining_sets(room: ResolvedRoom) -> list[DiningSet]:
    """Return each dining table with its chairs: those of its group, else those within reach of no nearer table."""
    tables = [p for p in room.floor_pieces.values() if p.type == "dining table"]
    chairs: dict[str, list[StandingPiece]] = {t.id: [] for t in tables}
    for piece in room.floor_pieces.values():
        if piece.type not in ("dining chair", "bench") or not tables:
            continue
        near = min(tables, key=lambda t: float(t.footprint.distance(piece.footprint)))
        same = [t for t in tables if piece.model.group is not None and t.model.group == piece.model.group]
        if same:
            chairs[same[0].id].append(piece)
        elif float(near.footprint.distance(piece.footprint)) <= AT_TABLE:
            chairs[near.id].append(piece)
    return [DiningSet(t, tuple(chairs[t.id])) for t in tables]


@dataclass(frozen=True, eq=False)
class BedSet:
    """A bed with its nightstands. The bed's front is its foot."""

    bed: StandingPiece
    nightstands: tuple[StandingPiece, ...]


def bed_sets(room: ResolvedRoom) -> list[BedSet]:
    """Return each bed with the nightstands beside it."""
    beds = [p for p in room.floor_pieces.values() if p.type == "bed"]
    found = []
    for bed in beds:
        stands = [
            p
            for p in room.floor_pieces.values()
            if p.type == "nightstand" and float(p.footprint.distance(bed.footprint)) <= BESIDE_BED
        ]
        found.append(BedSet(bed, tuple(stands)))
    return found


def rug_serves(
    room: ResolvedRoom, rug: LyingRug, groups: list[SeatingGroup]
) -> SeatingGroup | DiningSet | BedSet | None:
    """Return what a rug lies for: what its `group` names, else what it lies under most, else None (a runner, a loose rug)."""
    sets: list[tuple[str, Polygon, SeatingGroup | DiningSet | BedSet]] = []
    sets += [(g.id, g.hull, g) for g in groups]
    sets += [(d.table.id, d.table.footprint, d) for d in dining_sets(room)]
    sets += [(b.bed.id, b.bed.footprint, b) for b in bed_sets(room)]
    if rug.model.group is not None:
        for key, _, owner in sets:
            if key == rug.model.group:
                return owner
    best = max(sets, key=lambda s: float(s[1].intersection(rug.footprint).area), default=None)
    if best is not None and best[1].intersection(rug.footprint).area > 0.01:
        return best[2]
    return None


def hull_of(points: Array) -> Polygon:
    """Return the convex hull of points (k, 2)."""
    return MultiPoint(points).convex_hull
