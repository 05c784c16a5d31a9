"""The places of a room a person must come to, and how near one has to come."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.practice import Practice
from halfdrop.room.ahead import Side, ahead
from halfdrop.room.groups import SeatingGroup, dining_sets, seat_count, seating_groups
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import SEATING, FixedFitting, StandingPiece, Thing, WallOpening

PlaceKind = Literal["door", "group", "seat", "table", "desk", "bed", "storage", "window"]

#: A walker has to reach this far into the floor before a thing [m]: to graze its corner is not to come there.
GRAZE = 0.01
#: Storage whose front one has to come to.
FRONTS = frozenset({"dresser", "chest", "wardrobe", "bookcase", "cabinet", "media unit", "sideboard"})
#: A desk chair this near to a desk is at it [m].
AT_DESK = 0.6


@dataclass(frozen=True, eq=False)
class Place:
    """Where a person must come to.

    Attributes
    ----------
    kind : str
        What sort of place it is; that decides how wide its way has to be.
    name : str
        What a message calls it: "the sofa", "a side of the bed".
    things : tuple of Thing or WallOpening
        What is there, the one to name first.
    zone : geometry or None
        Floor that a walker has to touch [m]; None for a door, which is walked through.
    """

    kind: PlaceKind
    name: str
    things: tuple[Thing | WallOpening, ...]
    zone: BaseGeometry | None


def main_group(room: ResolvedRoom, practice: Practice) -> SeatingGroup | None:
    """Return the seating group that seats most (the larger floor where two seat as many); None where none seats two."""

    def rank(group: SeatingGroup) -> tuple[int, float]:
        return sum(seat_count(p, practice) for p in group.pieces), round(float(group.hull.area), 6)

    groups = [g for g in seating_groups(room, practice) if rank(g)[0] > 1]
    return max(groups, key=rank, default=None)


def bed_sides_used(bed: StandingPiece, room: ResolvedRoom, practice: Practice) -> tuple[Side, ...]:
    """Return the sides a bed is got into from: both of a double bed's, the freer one of a single bed's."""
    if bed.width >= practice.length("bedroom.double_from") - 1e-6:
        return ("left", "right")
    stands = {p.path for p in room.floor_pieces.values() if p.type == "nightstand"}
    gaps = {side: ahead(room, bed, side, 2.0, ignore=stands).gap for side in ("left", "right")}
    return ("left",) if gaps["left"] > gaps["right"] else ("right",)


def places_of(room: ResolvedRoom, practice: Practice) -> list[Place]:
    """Return the doors, the main group, seats, tables, desks, used bed sides, storage fronts and windows of a room."""
    sit = practice.length("circulation.sit_depth")
    found = [Place("door", f"the {o.name}", (o,), None) for o in room.openings.values() if o.is_way]
    group = main_group(room, practice)
    if group is not None:
        zone = shapely.union_all([_seat_zone(p, sit) for p in group.pieces])
        found.append(Place("group", "the seating group", group.pieces, zone))
    found += _piece_places(room, practice, sit)
    for fitting in room.fittings.values():
        if fitting.model.kind == "closet":
            found.append(Place("storage", f"the {fitting.name}", (fitting,), _fitting_front(fitting, sit)))
    reach = practice.length("circulation.window_reach")
    for opening in room.openings.values():
        if opening.model.kind == "window" and opening.model.sash != "fixed":
            width = max(float(opening.model.width) - 2 * GRAZE, GRAZE)
            zone = opening.approach(reach, width).intersection(room.outline)
            found.append(Place("window", f"the {opening.name}", (opening,), zone))
    return found


def _piece_places(room: ResolvedRoom, practice: Practice, sit: float) -> list[Place]:
    found = []
    pieces = room.floor_pieces.values()
    at_tables = {p.id for d in dining_sets(room) for p in d.chairs}
    for piece in pieces:
        name = f"the {piece.name}"
        if piece.type in SEATING or (piece.type == "bench" and piece.id not in at_tables):
            found.append(Place("seat", name, (piece,), _seat_zone(piece, sit)))
        elif piece.type == "desk":
            chairs = [
                p
                for p in pieces
                if p.type == "desk chair" and p.footprint.distance(piece.footprint) <= AT_DESK
            ]
            zone = shapely.union_all([p.footprint for p in chairs]) if chairs else piece.front_zone(sit)
            found.append(Place("desk", name, (piece, *chairs), zone))
        elif piece.type in FRONTS:
            found.append(Place("storage", name, (piece,), piece.front_zone(sit)))
        elif piece.type == "bed":
            found += _bed_places(piece, room, practice)
    for dining in dining_sets(room):
        members = dining.chairs or (dining.table,)
        zone = shapely.union_all([p.footprint for p in members])
        found.append(Place("table", f"the {dining.table.name}", (dining.table, *dining.chairs), zone))
    return found


def _bed_places(bed: StandingPiece, room: ResolvedRoom, practice: Practice) -> list[Place]:
    """Return its used sides; one too tight to be a side at all is the bed rules' matter, not a way's."""
    deep = practice.length("bedroom.side_least")
    stands = {p.path for p in room.floor_pieces.values() if p.type == "nightstand"}
    found = []
    for side in bed_sides_used(bed, room, practice):
        if ahead(room, bed, side, deep, ignore=stands).gap >= deep - 1e-6:
            zone = bed.side_zone(1 if side == "right" else -1, deep)
            found.append(Place("bed", f"a side of the {bed.name}", (bed,), zone))
    return found


def _seat_zone(piece: StandingPiece, sit: float) -> Polygon:
    if piece.model.ret is None:
        return piece.front_zone(sit)
    whole = piece.box(-piece.width / 2, piece.width / 2, -piece.depth / 2, piece.depth / 2 + sit)
    return whole.difference(piece.footprint)


def _fitting_front(fitting: FixedFitting, reach: float) -> Polygon:
    w, d = fitting.width / 2, max(fitting.depth, 1e-3) / 2
    return fitting.box(-w, w, d, d + reach)
