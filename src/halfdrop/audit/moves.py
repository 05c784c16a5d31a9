"""Patches that move, turn and replace things: the words in which rules propose remedies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from fractions import Fraction

import numpy as np
from shapely import area, get_coordinates, intersection
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.base.formats import format_angle, format_length
from halfdrop.geometry.plane import Array, span_along, turned
from halfdrop.job.model import AtPoint, AtWall
from halfdrop.room import LyingRug, StandingPiece

Movable = StandingPiece | LyingRug

#: A move shorter than this is none [m].
LEAST = 1e-3
#: Two shapes that share no more than this only touch [m²].
TOUCH = 1e-4

#: Steps to which a proposed move is rounded, away from where the thing stands: what a person will set out by tape.
STEP_IMPERIAL = 0.0254 / 2
STEP_METRIC = 0.01


def step(case: RoomCase) -> float:
    """Return the step proposed moves are rounded to [m]: 1/2 in, or 1 cm."""
    return STEP_IMPERIAL if case.units == "imperial" else STEP_METRIC


def text(case: RoomCase, x: float, toward: float = 0.0) -> str:
    """Write a length as the document keeps it, rounded to 1/16 in or 1 mm, up where `toward` > 0, down where < 0."""
    direction = "up" if toward > 0 else "down" if toward < 0 else "nearest"
    if case.units == "imperial":
        return format_length(x, "imperial", step=Fraction(1, 16), round_to=direction, marks="plain")  # type: ignore[arg-type]
    return format_length(x, "metric", step=1, round_to=direction, marks="plain", unit="mm")  # type: ignore[arg-type]


def _stepped(case: RoomCase, by: float) -> float:
    """Round one component of a move away from zero to whole steps; noise is no move."""
    if abs(by) < 1e-6:
        return 0.0
    s = step(case)
    return math.copysign(math.ceil(abs(by) / s - 1e-6) * s, by)


def moved(case: RoomCase, thing: Movable, by: Array, *, exact: bool = False) -> Patch:
    """Return the patch that moves a thing by a plan vector [m]; empty where it would go through its own wall.

    The move is split along and square to what the thing was measured from; each part is rounded away from zero to
    `step`, unless `exact` (then only to what the document prints).
    """
    anchor = thing.anchor
    along, off = float(by @ anchor.direction), float(by @ anchor.normal)
    if not exact:
        along, off = _stepped(case, along), _stepped(case, off)
    at = thing.model.at
    path = f"/{thing.path}/at"
    if isinstance(at, AtWall):
        parts = (("along", float(at.along), along), ("off", float(at.off), off))
        if float(at.off) + off < -1e-9 or _leaves_its_wall(case, thing, along, off):
            return []
    else:
        parts = (("x", float(at.x), along), ("y", float(at.y), off))
    return [
        {"op": "replace", "path": f"{path}/{key}", "value": text(case, old + delta, delta)}
        for key, old, delta in parts
        if delta
    ]


#: A thing nearer to its wall than this stands against it [m].
AGAINST = 0.15


def _leaves_its_wall(case: RoomCase, thing: Movable, along: float, off: float) -> bool:
    """Return whether a piece against its wall would come to stand past the wall's end, its back in the open."""
    at = thing.model.at
    if not isinstance(at, AtWall) or not isinstance(thing, StandingPiece) or float(at.off) + off > AGAINST:
        return False
    wall = case.room.wall(at.wall)
    low, high = span_along(thing.corners, wall.start, wall.direction)
    shift = along * float(thing.anchor.direction @ wall.direction)
    past = max(-low, high - wall.length, 0.0)
    return max(-(low + shift), high + shift - wall.length) > past + step(case)


def moved_together(case: RoomCase, things: Iterable[Movable], by: Array) -> Patch:
    """Return one patch that moves several things by the same plan vector [m]; empty where one of them cannot."""
    patch: Patch = []
    for thing in things:
        ops = moved(case, thing, by)
        if not ops:
            return []
        patch += ops
    return patch


def placed_at(case: RoomCase, thing: Movable, center: Array, angle: float | None = None) -> Patch:
    """Return the patch that stands a thing free at a plan point [m], turned to a front angle [rad] where given."""
    base = case.room.walls[0]
    x = float((center - base.start) @ base.direction)
    y = float((center - base.start) @ base.inward)
    patch: Patch = [
        {"op": "add", "path": f"/{thing.path}/at", "value": {"x": text(case, x), "y": text(case, y)}},
    ]
    front = thing.angle if angle is None else angle
    patch.append({"op": "add", "path": f"/{thing.path}/turn", "value": format_angle(front % (2 * math.pi))})
    return patch


def standing_on(case: RoomCase, thing: StandingPiece) -> list[StandingPiece]:
    """Return the pieces that stand on a piece: they go where it goes."""
    return [p for p in case.room.pieces.values() if p.model.on == thing.id]


def with_what_it_carries(case: RoomCase, thing: StandingPiece) -> list[StandingPiece]:
    """Return a piece and all that stands on it, and on that."""
    found = [thing]
    for piece in found:
        found += [p for p in standing_on(case, piece) if p not in found]
    return found


def directions(case: RoomCase, thing: Movable) -> Iterator[Array]:
    """Yield unit vectors worth trying for a thing: its own four sides, then the walls' normals that differ."""
    given = [thing.front, -thing.front, thing.right, -thing.right]
    yield from given
    for wall in case.room.walls:
        if all(float(np.hypot(*(wall.inward - d))) > 0.02 for d in given):
            given.append(wall.inward)
            yield wall.inward


def clearing_move(thing: Movable, other: BaseGeometry, way: Array, wanted: float = 0.0) -> float | None:
    """Return the least move along a unit vector that brings a thing `wanted` clear of a shape [m], by bisection.

    With `wanted` 0 they may touch, not overlap. None where no move along `way` clears it.
    """

    def clear(by: float) -> bool:
        there = translate(thing.footprint, float(way[0]) * by, float(way[1]) * by)
        if wanted > 0:
            return float(there.distance(other)) >= wanted
        return float(there.intersection(other).area) < 1e-9

    low, high = 0.0, wanted + thing.width + thing.depth + float(np.ptp(get_coordinates(other), axis=0).sum())
    if not clear(high):
        return None
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if clear(middle) else (middle, high)
    return high


def stays_inside(case: RoomCase, thing: Movable, by: Array) -> bool:
    """Return whether a thing moved by a plan vector [m] still stands in the room (or did not before either)."""
    there = translate(thing.footprint, float(by[0]), float(by[1]))
    outline = case.memo("outline, 1 mm eased", lambda: case.room.outline.buffer(1e-3))
    return bool(outline.covers(there)) or not outline.covers(thing.footprint)


def clearing_moves(
    case: RoomCase, thing: Movable, other: BaseGeometry, wanted: float = 0.0
) -> Iterator[tuple[float, Patch]]:
    """Yield each way to bring a thing clear of a shape: how far [m], and the patch with all it carries; nearest first."""
    found = []
    for way in directions(case, thing):
        by = clearing_move(thing, other, way, wanted)
        if by is None or by < 1e-6 or not stays_inside(case, thing, way * by):
            continue
        together = with_what_it_carries(case, thing) if isinstance(thing, StandingPiece) else [thing]
        patch = moved_together(case, together, way * by)
        if patch:
            found.append((by, patch))
    yield from sorted(found, key=lambda move: round(move[0], 6))


def shifted(case: RoomCase, moves: Iterable[tuple[Movable, Array]]) -> Patch:
    """Return one patch that moves each thing by its own plan vector [m], with what it carries.

    Empty where one of them cannot go there: through its own wall, out of the room, or into a piece that stays.
    """
    going: dict[str, tuple[Movable, Array]] = {}
    for thing, by in moves:
        if float(np.hypot(*by)) >= LEAST:
            for part in _with_load(case, thing):
                going.setdefault(part.path, (part, by))
    shapes = [(t, translate(t.footprint, float(by[0]), float(by[1]))) for t, by in going.values()]
    if not _has_room(case, shapes):
        return []
    patch: Patch = []
    for part, by in going.values():
        ops = moved(case, part, by)
        if not ops:
            return []
        patch += ops
    return patch


def arranged(case: RoomCase, spots: Iterable[tuple[Movable, Array, float]]) -> Patch:
    """Return one patch that stands each thing at its own middle [m] and front angle [rad], with its load.

    Empty where one of them would come out of the room, or into a piece that stays.
    """
    going: dict[str, tuple[Movable, Array, float]] = {}
    for thing, middle, angle in spots:
        for part in _with_load(case, thing):
            by = angle - thing.angle
            going.setdefault(part.path, (part, middle + turned(part.center - thing.center, by), by))
    shapes = []
    for part, middle, by in going.values():
        origin, move = (float(part.center[0]), float(part.center[1])), middle - part.center
        there = rotate(part.footprint, by, origin=origin, use_radians=True)
        shapes.append((part, translate(there, float(move[0]), float(move[1]))))
    if not _has_room(case, shapes):
        return []
    return [
        op for part, middle, by in going.values() for op in placed_at(case, part, middle, part.angle + by)
    ]


def turned_together(case: RoomCase, things: Iterable[Movable], pivot: Array, by: float, move: Array) -> Patch:
    """Return the patch that turns things rigidly about a point [rad], then moves them [m], with their load.

    Empty where they would come out of the room, or into a piece that stays.
    """
    spots = [(t, pivot + turned(t.center - pivot, by) + move, t.angle + by) for t in things]
    return arranged(case, spots)


def _with_load(case: RoomCase, thing: Movable) -> list[Movable]:
    return [*with_what_it_carries(case, thing)] if isinstance(thing, StandingPiece) else [thing]


def _has_room(case: RoomCase, going: list[tuple[Movable, Polygon]]) -> bool:
    """Return whether no thing comes farther out of the room, or farther into a piece that stays, than it is."""
    paths = {thing.path for thing, _ in going}
    still = np.array(
        [p.footprint for p in case.room.floor_pieces.values() if p.path not in paths], dtype=object
    )
    for thing, there in going:
        if (
            there.difference(case.room.outline).area
            > thing.footprint.difference(case.room.outline).area + TOUCH
        ):
            return False
        if isinstance(thing, StandingPiece) and thing.on_floor and len(still):
            now, then = (area(intersection(still, shape)) for shape in (thing.footprint, there))
            if bool((then > now + TOUCH).any()):
                return False
    return True


def stands_clear(case: RoomCase, shape: Polygon) -> bool:
    """Return whether a new piece of this footprint would stand in the room and clear of every piece."""
    if shape.difference(case.room.outline).area > TOUCH:
        return False
    return all(p.footprint.intersection(shape).area <= TOUCH for p in case.room.floor_pieces.values())


def turned_in_place(case: RoomCase, piece: StandingPiece, by: float, move: Array) -> Patch:
    """Return the patch that turns a piece by an angle [rad] about its middle and moves it [m], with its load."""
    return turned_together(case, [piece], piece.center, by, move)


def removed(thing: Movable) -> Patch:
    """Return the patch that takes a thing out of the room."""
    return [{"op": "remove", "path": f"/{thing.path}"}]


__all__ = [
    "AtPoint",
    "arranged",
    "clearing_move",
    "clearing_moves",
    "directions",
    "moved",
    "moved_together",
    "placed_at",
    "removed",
    "shifted",
    "standing_on",
    "stands_clear",
    "stays_inside",
    "step",
    "text",
    "turned_in_place",
    "turned_together",
    "with_what_it_carries",
]
