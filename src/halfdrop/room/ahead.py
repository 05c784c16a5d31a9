"""How far it is from one side of a thing, square to it, to the next thing or wall."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from halfdrop.geometry.plane import Array, placed, turned, xy
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import Thing
from halfdrop.room.walls import Wall

Side = Literal["front", "back", "left", "right"]

#: A neighbor that reaches in front of a side by less than this at its end stands beside it, not before it [m].
BESIDE = 2e-3

_TURN = {"front": 0.0, "left": np.pi / 2, "back": np.pi, "right": -np.pi / 2}


@dataclass(frozen=True, eq=False)
class Ahead:
    """What comes next from a side.

    Attributes
    ----------
    gap : float
        Square to the side, to the nearest [m]; `reach` where nothing comes within it.
    blocker : Thing, Wall or None
        What comes next; None where nothing does within reach.
    p, q : Array (2,)
        On the side, and on what comes next [m].
    """

    gap: float
    blocker: Thing | Wall | None
    p: Array
    q: Array


def ahead(
    room: ResolvedRoom,
    thing: Thing,
    side: Side,
    reach: float,
    *,
    things: Iterable[Thing] | None = None,
    ignore: Container[str] = (),
    start: float = 0.0,
) -> Ahead:
    """Return what comes next from one side of a thing's width × depth box.

    Parameters
    ----------
    room : ResolvedRoom
        Where it stands.
    thing : Thing
        From whose side.
    side : {"front", "back", "left", "right"}
        Which side; left and right are its own (local -x and +x).
    reach : float
        How far to look [m].
    things : iterable of Thing, optional
        What may be in the way; all that blocks the floor where not given.
    ignore : container of str
        Paths of things that are no hindrance.
    start : float
        Begin this far inside the side [m]: what stands under the thing's edge counts too, with a gap below 0.
    """
    angle = thing.angle + _TURN[side]
    normal = turned(xy(0, 1), angle)
    half, out = (
        (thing.width / 2, thing.depth / 2)
        if side in ("front", "back")
        else (thing.depth / 2, thing.width / 2)
    )
    low, high = -half + BESIDE, half - BESIDE
    corners = np.array(((low, out - start), (high, out - start), (high, out + reach), (low, out + reach)))
    strip = shapely.polygons(placed(corners, thing.center, angle))
    best = Ahead(reach, None, thing.center + out * normal, thing.center + (out + reach) * normal)
    for other in room.blocks.values() if things is None else things:
        if other is thing or other.path in ignore or not strip.intersects(other.footprint):
            continue
        best = _nearer(best, strip.intersection(other.footprint), thing, normal, out, other)
    if not room.outline.covers(strip):
        for wall in room.walls:
            line = shapely.linestrings([wall.start, wall.end])
            if wall.inward @ normal < 0 and strip.intersects(line):
                best = _nearer(best, strip.intersection(line), thing, normal, out, wall)
    return best


def _nearer(
    best: Ahead, part: shapely.Geometry, thing: Thing, normal: Array, out: float, other: Thing | Wall
) -> Ahead:
    points = shapely.get_coordinates(part)
    off = (points - thing.center) @ normal - out
    gap = float(off.min())
    if gap >= best.gap - 1e-9:
        return best
    nearest = points[off <= gap + 1e-6]
    q = nearest.mean(axis=0)
    return Ahead(gap, other, q - gap * normal, q)
