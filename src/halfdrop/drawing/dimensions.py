"""Dimension chains round a room: openings nearest, then walls, then the whole; never across the floor."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units, format_length
from halfdrop.drawing.board import Frame
from halfdrop.drawing.metrics import cap_height, text_width
from halfdrop.drawing.openings import extent
from halfdrop.drawing.svg import OVERRUN
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import XY, Begin, Dimension, End, Verb
from halfdrop.drawing.walls import THICK
from halfdrop.room import ResolvedRoom, Wall

#: First chain off the wall's outer face, each next one, and text above its line [mm].
FIRST = 8.5
STEP = 8.0
#: First chain off a leaf that opens out of the room [mm].
PAST_LEAF = 4.5
LIFT = 0.9
#: Two lengths nearer than this are told once [m].
TOLD = 0.004
#: Corners nearer than this along a chain share one foot: a wall that runs a little out of square is no jog
#: [m].
FOOT = 0.02
#: How far a wall may lean and still belong to a side of the plan [rad].
LEAN = math.radians(6.0)
#: Sides of the plan by their outward normal, in the order they are dimensioned.
SIDES: dict[str, XY] = {"south": (0.0, -1.0), "west": (-1.0, 0.0), "north": (0.0, 1.0), "east": (1.0, 0.0)}


def print_length(value: float, units: Units) -> str:
    """Return a dimension's value as it is lettered: `12′ 6½″`, or bare millimetres."""
    if units == "metric":
        return format_length(value, "metric", unit="mm").removesuffix(" mm")
    return format_length(value, "imperial", zero_inches=True)


@dataclass
class Chain:
    """Feet along one line: plan points [m] in order along the side's axis."""

    feet: list[XY]
    name: str = ""
    paths: list[str] = field(default_factory=list)


def side_of(wall: Wall) -> str | None:
    """Return which side of the plan a wall bounds, or None for one that runs aslant."""
    for name, (nx, ny) in SIDES.items():
        if -wall.inward[0] * nx - wall.inward[1] * ny > math.cos(LEAN):
            return name
    return None


def chains(room: ResolvedRoom, *, detail: bool = True) -> dict[str, list[Chain]]:
    """Return the chains of each side, nearest first; only lengths that another chain does not already tell.

    Without `detail` (a narrow sheet) the whole lengths alone.
    """
    out: dict[str, list[Chain]] = {}
    whole_told: dict[int, list[float]] = {0: [], 1: []}
    for side in SIDES:
        axis = 0 if side in ("south", "north") else 1
        walls = sorted(
            (w for w in room.walls if side_of(w) == side and faces_out(room, w)),
            key=lambda w: min(w.start[axis], w.end[axis]),
        )
        found: list[Chain] = []
        broken = Chain(_openings(room, walls, axis))
        if detail and len(broken.feet) > 2:
            found.append(broken)
        corners = _merged([p for w in walls for p in (_xy(w.start), _xy(w.end))], axis)
        low, high = _ends(room, axis, side)
        whole = abs(high[axis] - low[axis])
        if detail and len(corners) > 2:
            found.append(Chain(corners))
        if not any(abs(whole - told) < TOLD for told in whole_told[axis]):
            whole_told[axis].append(whole)
            if not (found and len(found[-1].feet) == 2):
                found.append(Chain([low, high]))
        out[side] = found
    return out


def _openings(room: ResolvedRoom, walls: Sequence[Wall], axis: int) -> list[XY]:
    """Return corners and jambs of the walls that have openings."""
    feet: list[XY] = []
    for wall in walls:
        here = [o for o in room.openings.values() if o.wall is wall]
        if here:
            feet += [_xy(wall.start), _xy(wall.end)]
            feet += [_xy(p) for o in here for p in (o.start, o.end)]
    return _merged(feet, axis)


def _merged(points: Sequence[XY], axis: int) -> list[XY]:
    """Return points in order along an axis, those nearer than `FOOT` as one."""
    out: list[XY] = []
    for p in sorted(points, key=lambda p: (p[axis], p[1 - axis])):
        if not out or p[axis] - out[-1][axis] > FOOT:
            out.append(p)
    return out


def _ends(room: ResolvedRoom, axis: int, side: str) -> tuple[XY, XY]:
    """Return the room's extremes along an axis, taken at the corners nearest to the side."""
    points = [_xy(p) for p in np.asarray(room.outline.exterior.coords)[:-1]]
    sign = SIDES[side][1 - axis]
    low = min(p[axis] for p in points)
    high = max(p[axis] for p in points)
    first = max((p for p in points if p[axis] < low + FOOT), key=lambda p: sign * p[1 - axis])
    last = max((p for p in points if p[axis] > high - FOOT), key=lambda p: sign * p[1 - axis])
    return first, last


def _xy(p: np.ndarray) -> XY:
    return (float(p[0]), float(p[1]))


def faces_out(room: ResolvedRoom, wall: Wall) -> bool:
    """Return whether a wall can be dimensioned from outside: nothing of the room lies behind it.

    The flank of a chimney breast cannot; the survey sheet tells its length.
    """
    middle = (wall.start + wall.end) / 2 - 1e-3 * wall.inward
    far = middle - 1e3 * wall.inward
    return not LineString([middle, far]).intersects(room.outline)


@dataclass
class Lettering:
    """What dimensions took of the paper: the boxes of their values and the verbs [mm]."""

    verbs: list[Verb] = field(default_factory=list)
    boxes: list[Polygon] = field(default_factory=list)


def reach(room: ResolvedRoom, *, detail: bool = True) -> dict[str, float]:
    """Return how far dimensions stand off the walls' outer faces on each side [mm]."""
    first = _first(room)
    return {
        side: (first[side] + STEP * (len(found) - 1) + OVERRUN + 0.5 if found else 3.0)
        for side, found in chains(room, detail=detail).items()
    }


def _first(room: ResolvedRoom, thick: float = THICK) -> dict[str, float]:
    """Return how far the first chain stands off a side's outermost line [mm]: nearer where that is an open leaf."""
    x0, y0, x1, y1 = room.outline.bounds
    e0, f0, e1, f1 = extent(room, thick)
    past = {"west": x0 - e0, "south": y0 - f0, "east": e1 - x1, "north": f1 - y1}
    return {side: (PAST_LEAF if out > thick + 0.02 else FIRST) for side, out in past.items()}


def draw_dimensions(
    frame: Frame,
    room: ResolvedRoom,
    units: Units,
    thick: float = THICK,
    blocks: Sequence[BaseGeometry] = (),
    detail: bool = True,
) -> Lettering:
    """Draw every chain of a room.

    Parameters
    ----------
    frame : Frame
        Plan to paper.
    room : ResolvedRoom
    units : {"imperial", "metric"}
    thick : float
        Thickness the walls are drawn with [m].
    blocks : sequence of BaseGeometry
        Leaders and marks; a value slides along its line to stay off them [mm].
    detail : bool
        False draws the whole lengths alone.
    """
    done = Lettering([Begin("A-ANNO-DIMS", f"{room.path}/survey/walls")])
    x0, y0, x1, y1 = extent(room, thick)
    edge = {"south": y0, "west": x0, "north": y1, "east": x1}
    first = _first(room, thick)
    floor = room.outline.buffer(-1e-3)
    for side, found in chains(room, detail=detail).items():
        level = 0
        for chain in found:
            offset = (first[side] + STEP * level) / frame.scale
            axis = 0 if side in ("south", "north") else 1
            outward = SIDES[side][1 - axis]
            line = edge[side] + outward * offset
            feet = [p for p in chain.feet if _clear(p, line, axis, floor)]
            if len(feet) < 2:
                continue
            level += 1
            draw_chain(done, frame, feet, line, axis, units, thick * outward, blocks)
    done.verbs.append(End())
    return done


def _clear(p: XY, line: float, axis: int, floor: Polygon) -> bool:
    """Return whether the foot's line to the chain stays off the floor."""
    end = (p[0], line) if axis == 0 else (line, p[1])
    return not LineString([p, end]).crosses(floor)


def draw_chain(
    done: Lettering,
    frame: Frame,
    feet: Sequence[XY],
    line: float,
    axis: int,
    units: Units,
    wall: float,
    blocks: Sequence[BaseGeometry],
) -> None:
    """Draw one chain.

    Parameters
    ----------
    done : Lettering
        Takes its verbs and the boxes of its values.
    frame : Frame
        Drawing to paper.
    feet : sequence of (x, y)
        In order along the axis [m].
    line : float
        Where its line runs, across the axis [m].
    axis : int
        0 for a level chain, 1 for an upright one.
    units : {"imperial", "metric"}
    wall : float
        How far off its points each foot begins, across the axis [m].
    blocks : sequence of BaseGeometry
        What its values stay off [mm].
    """
    size = tokens().sizes["small"]
    turn = 0.0 if axis == 0 else -90.0
    taken: list[Polygon] = []
    told = list(done.boxes)
    pairs = list(pairwise(feet))
    for k, (a, b) in enumerate(pairs):
        value = print_length(abs(b[axis] - a[axis]), units)
        p, q = (_foot(frame, s, axis, wall) for s in (a, b))
        base = frame(a[0], line) if axis == 0 else frame(line, a[1])
        end = frame(b[0], line) if axis == 0 else frame(line, b[1])
        p, q = _past(p, base, 1 - axis, told), _past(q, end, 1 - axis, told)
        low, high = sorted((base[axis], end[axis]))
        wide = text_width(value, size) + 0.8
        first, last = (
            (k == 0, k == len(pairs) - 1) if base[axis] <= end[axis] else (k == len(pairs) - 1, k == 0)
        )
        shape, text_at = _stand(wide, (low, high), (first, last), base, axis, [*taken, *blocks])
        taken.append(shape)
        done.verbs.append(Dimension(p, q, base, value, text_at, turn, size))
    done.boxes += taken


def _stand(
    wide: float,
    span: tuple[float, float],
    outer: tuple[bool, bool],
    base: XY,
    axis: int,
    blocks: Sequence[BaseGeometry],
) -> tuple[Polygon, XY]:
    """Return box and baseline middle of a value: over its line, slid along it, past the chain's end, or a
    row up.
    """
    low, high = span
    cap = cap_height(tokens().sizes["small"])
    slack = (high - low - wide) / 2 - 0.4
    middle = (low + high) / 2
    spots = [(0, 0.0)] if slack >= 0 else []
    spots += [(0, s * slack * k / 6) for k in range(1, 7) for s in (-1, 1) if slack > 0]
    past = (high - low + wide) / 2 + 0.9
    spots += [(0, sign * past) for sign, free in zip((-1, 1), outer, strict=True) if free and slack < 0]
    spots += [(1, 0.0), (1, wide / 2), (1, -wide / 2), (1, wide), (1, -wide)]
    first: tuple[Polygon, XY] | None = None
    for row, shift in spots:
        lift = LIFT + row * (cap + 0.9)
        at = middle + shift
        if axis == 0:
            text_at = (at, base[1] - lift)
            shape = box(at - wide / 2, text_at[1] - cap, at + wide / 2, text_at[1])
        else:
            text_at = (base[0] - lift, at)
            shape = box(text_at[0] - cap, at - wide / 2, text_at[0], at + wide / 2)
        first = first or (shape, text_at)
        if not any(shape.intersects(b) for b in blocks):
            return shape, text_at
    assert first is not None
    return first


def _foot(frame: Frame, p: XY, axis: int, wall: float) -> XY:
    """Return a foot at the outer face of the wall [mm]."""
    return frame(p[0], p[1] + wall) if axis == 0 else frame(p[0] + wall, p[1])


def _past(foot: XY, end: XY, across: int, told: Sequence[Polygon]) -> XY:
    """Return where an extension line begins [mm]: at its foot, or past the value of a nearer chain that it would run through."""
    crossed = [b.bounds for b in told if b.intersects(LineString([foot, end]))]
    if not crossed:
        return foot
    outward = end[across] > foot[across]
    start = max(b[across + 2] + LIFT for b in crossed) if outward else min(b[across] - LIFT for b in crossed)
    return (foot[0], start) if across else (start, foot[1])
