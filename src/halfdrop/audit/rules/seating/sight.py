"""What the rules of sight share: what the room looks at, who looks at it, and moves of both."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from shapely.geometry import LineString

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Patch
from halfdrop.audit.moves import Movable, shifted, turned_together
from halfdrop.audit.rules.seating.together import groups, main_piece, places, rugs_of, unit
from halfdrop.geometry.plane import Array, heading
from halfdrop.room import FixedFitting, HungArt, StandingPiece, Wall, WallOpening
from halfdrop.room.groups import SeatingGroup
from halfdrop.room.viewing import WIDTH_16_9

Focal = StandingPiece | FixedFitting | WallOpening | HungArt


class View(NamedTuple):
    """Who looks at what: the main seat, its people's heads, their middle, and the point looked at [m]."""

    group: SeatingGroup
    piece: StandingPiece
    heads: Array
    eye: Array
    focal: Focal
    point: Array

    @property
    def distance(self) -> float:
        """From the middle of the heads to the point [m]."""
        return float(np.hypot(*(self.point - self.eye)))

    @property
    def turn(self) -> float:
        """Between where the seat faces and the line to the point [rad]."""
        toward = unit(self.point - self.eye)
        return 0.0 if toward is None else math.acos(float(np.clip(toward @ self.piece.front, -1.0, 1.0)))


def screens(case: RoomCase) -> list[StandingPiece]:
    """Return the room's screens, by id."""
    return sorted((p for p in case.room.pieces.values() if p.type == "screen"), key=lambda p: p.id)


def focal_of(case: RoomCase) -> Focal | None:
    """Return what the room looks at: what the wishes name, else its one screen where one is wished for.

    A work that waits for its place is nothing to look at yet.
    """
    wishes = case.room.model.wishes
    if wishes.focal is not None:
        kind, _, name = wishes.focal.partition("/")
        things: dict[str, Focal] = {**getattr(case.room, kind)}
        return things.get(name)
    found = screens(case)
    return found[0] if wishes.uses.get("screen") and len(found) == 1 else None


def wished(case: RoomCase, screen: StandingPiece) -> bool:
    """Return whether people sit here to look at this screen."""
    return bool(case.room.model.wishes.uses.get("screen")) or focal_of(case) is screen


def view_of(case: RoomCase, focal: Focal) -> View | None:
    """Return the view of the group with most places, the nearest of those, or None where nobody sits here."""
    point = focal.center if isinstance(focal, WallOpening | HungArt) else focal.at(0.0, focal.depth / 2)
    views = []
    for group in groups(case):
        piece = main_piece(case, group)
        if places(case, piece):
            heads = np.array([s.head for s in places(case, piece)])
            views.append(View(group, piece, heads, heads.mean(axis=0), focal, point))
    return min(
        views,
        key=lambda v: (-sum(len(places(case, p)) for p in v.group.pieces), round(v.distance, 4), v.piece.id),
        default=None,
    )


def view_in(case: RoomCase, finding: Finding, focal_path: str) -> View:
    """Return the view a finding is about, by the path of what is looked at."""
    _, _, kind, key = focal_path.split("/")
    view = view_of(case, getattr(case.room, kind)[key])
    assert view is not None
    return view


def diagonal_of(screen: StandingPiece) -> float:
    """Return a screen's diagonal [m]: as written, else from its width, 16:9."""
    return float(screen.model.diagonal) if screen.model.diagonal else screen.width / WIDTH_16_9


def blockers(case: RoomCase, view: View) -> Iterator[tuple[StandingPiece, list[LineString]]]:
    """Yield each piece taller than the seated eye that stands in a line of sight, with those lines.

    Lamps on a pole do not count; what the focal point stands on does not either.
    """
    eye = case.length("seating.eye_height")
    focal = view.focal
    under = focal.model.on if isinstance(focal, StandingPiece) else None
    lines = [LineString((head, view.point)) for head in view.heads]
    for piece in case.room.floor_pieces.values():
        if (
            piece in (view.piece, focal)
            or piece.id == under
            or piece.type == "floor lamp"
            or piece.height <= eye + 1e-9
        ):
            continue
        cut = [line for line in lines if float(line.intersection(piece.footprint).length) > 1e-3]
        if cut:
            yield piece, cut


def view_moves(case: RoomCase, view: View, by: Array) -> Iterator[tuple[str, Patch]]:
    """Yield ways to bring the people by a plan vector: the main seat, with its tables and rug, the whole
    group.
    """
    tables, rugs = list(view.group.tables), rugs_of(case, view.group)
    sets: list[tuple[str, list[Movable]]] = [
        (f"the {view.piece.name}", [view.piece]),
        (f"the {view.piece.name} with its tables", [view.piece, *tables]),
        ("the whole group", [*view.group.pieces, *tables]),
        ("the whole group with its rug", [*view.group.pieces, *tables, *rugs]),
    ]
    for name, things in sets:
        patch = shifted(case, [(t, by) for t in things])
        if patch:
            yield name, patch


def wall_ahead(case: RoomCase, start: Array, way: Array) -> tuple[Wall, Array] | None:
    """Return the first wall a look from a point along a unit vector meets, and where."""
    hits = []
    for wall in case.room.walls:
        slope = float(wall.inward @ way)
        if slope >= -1e-9:
            continue
        t = float(wall.off(start)) / -slope
        point = start + t * way
        if t > 0 and -1e-9 <= float(wall.along(point)) <= wall.length + 1e-9:
            hits.append((t, wall.name, wall, point))
    first = min(hits, key=lambda h: (round(h[0], 6), h[1]), default=None)
    return None if first is None else (first[2], first[3])


def set_before(case: RoomCase, view: View) -> Patch:
    """Return the patch that stands a movable focal point, with what it stands on, at the wall the main seat
    faces.
    """
    focal = view.focal
    ahead = wall_ahead(case, view.eye, view.piece.front)
    if not isinstance(focal, StandingPiece) or ahead is None:
        return []
    base = case.room.pieces[focal.model.on] if focal.model.on else focal
    wall, point = ahead
    by = heading(wall.inward) - math.pi / 2 - base.angle
    return turned_together(case, [base], base.center, by, point + wall.inward * base.depth / 2 - base.center)
