"""Live dimensions of one thing while it is moved: the gap it has to what stands next to it, on its own four sides.

A gap is measured the way a tape is held: square to the thing's side, from the thing to the first wall or piece that
way, where the two come nearest.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely import get_coordinates
from shapely.geometry.base import BaseGeometry

from halfdrop.geometry.plane import Array, closest
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import LyingRug, StandingPiece, Thing, WallOpening
from halfdrop.room.walls import Wall

Side = Literal["front", "back", "left", "right", "near"]

#: Things that overlap sideways by less than this pass each other [m].
PASS = 2e-3
#: A gap wider than this is no matter of clearance [m].
FAR = 4.0
#: A near thing off the four sides is told where it is this much nearer than the nearest of them.
NEARER = 0.9


@dataclass(frozen=True)
class Clearance:
    """One gap.

    Attributes
    ----------
    origin, to : str
        Paths of the thing and of what it is measured to; a wall is `rooms/<id>/survey/walls/<name>`.
    side : str
        Side of the thing: `front`, `back`, `left`, `right` as one looks at its front, or `near` for the shortest
        way to a thing that stands off none of the four.
    length : float
        [m].
    p, q : Array (2,)
        Its ends on the plan [m].
    sigma : float
        Standard error of the length, from the survey and the tape [m].
    """

    origin: str
    to: str
    side: Side
    length: float
    p: Array
    q: Array
    sigma: float


def clearances(
    room: ResolvedRoom, thing: Thing, *, ignore: Collection[str] = (), far: float = FAR
) -> tuple[Clearance, ...]:
    """Return the gaps of a thing that matter, the shortest first.

    Parameters
    ----------
    room : ResolvedRoom
    thing : Thing
        One of the room's pieces, rugs or fittings; what stands on another piece has no gaps.
    ignore : collection of str
        Paths that do not count: what is moved along with it.
    far : float
        Gaps wider than this are left out [m].

    Returns
    -------
    tuple of Clearance
        At most one a side, and one `near`.

    Notes
    -----
    A rug is measured to the walls and to fittings that stand on the floor; a piece to other pieces too.
    Checked by: tests/room/test_clearances.py.
    """
    if isinstance(thing, StandingPiece) and not thing.on_floor:
        return ()
    others = {p: t for p, t in room.blocks.items() if p != thing.path and p not in ignore}
    if isinstance(thing, LyingRug):
        others = {p: t for p, t in others.items() if not isinstance(t, StandingPiece)}
    segments, owners = _edges(room, others)
    sides: tuple[tuple[Side, Array], ...] = (
        ("front", thing.front), ("back", -thing.front), ("right", thing.right), ("left", -thing.right)
    )  # fmt: skip
    found = []
    for side, way in sides:
        hit = _first(thing.corners, segments, way)
        if hit is not None and hit[0] <= far:
            gap, p, q, k = hit
            found.append(_clearance(room, thing, owners[k], side, gap, p, q))
    near = _nearest(room, thing, others, {c.to for c in found})
    least = min((c.length for c in found), default=far)
    if near is not None and near.length < NEARER * least:
        found.append(near)
    return tuple(sorted(found, key=lambda c: (round(c.length, 6), c.side)))


def opening_clearances(room: ResolvedRoom, opening: WallOpening) -> tuple[Clearance, ...]:
    """Return the two gaps of an opening along its wall: from each jamb to the corner or the next opening."""
    wall = opening.wall
    low, high = float(wall.along(opening.start)), float(wall.along(opening.end))
    ends = [
        (0.0, f"{room.path}/survey/walls/{wall.name}"),
        (wall.length, f"{room.path}/survey/walls/{wall.name}"),
    ]
    for other in room.openings.values():
        if other.wall is wall and other.path != opening.path:
            ends += [(float(wall.along(p)), other.path) for p in (other.start, other.end)]
    before = max((e for e in ends if e[0] <= low + 1e-9), default=None, key=lambda e: e[0])
    after = min((e for e in ends if e[0] >= high - 1e-9), default=None, key=lambda e: e[0])
    out = []
    sides: tuple[Side, Side] = ("left", "right")
    for side, edge, end in zip(sides, (low, high), (before, after), strict=True):
        if end is not None:
            p, q = wall.start + edge * wall.direction, wall.start + end[0] * wall.direction
            gap = abs(end[0] - edge)
            out.append(Clearance(opening.path, end[1], side, gap, p, q, room.sigma(opening, wall, p, q)))
    return tuple(out)


Owner = Wall | Thing


def _edges(room: ResolvedRoom, others: dict[str, Thing]) -> tuple[Array, list[Owner]]:
    """Return every edge a thing may meet as (n, 2, 2), and whose it is."""
    rows: list[Array] = []
    owners: list[Owner] = []
    for wall in room.walls:
        rows.append(np.array((wall.start, wall.end)))
        owners.append(wall)
    for thing in others.values():
        ring = get_coordinates(thing.footprint.exterior)
        rows += [ring[i : i + 2] for i in range(len(ring) - 1)]
        owners += [thing] * (len(ring) - 1)
    return np.array(rows), owners


def _first(corners: Array, segments: Array, way: Array) -> tuple[float, Array, Array, int] | None:
    """Return gap, ends and index of the first edge a shape meets when it moves along a unit vector.

    Both outlines are piecewise straight, so the least gap is at a vertex of one of them.
    """
    across = np.array((way[1], -way[0]))
    ring = np.vstack((corners, corners[:1]))
    ax, ay = ring @ across, ring @ way
    low, high = float(ax.min()) + PASS, float(ax.max()) - PASS
    sx, sy = segments @ across, segments @ way
    inside = (sx.max(axis=1) > low) & (sx.min(axis=1) < high)
    if low >= high or not inside.any():
        return None
    index = np.flatnonzero(inside)
    sx, sy = sx[index], sy[index]
    xs = np.unique(np.clip(np.concatenate((ax, sx.ravel(), (low, high))), low, high))
    top = _heights(np.column_stack((ax[:-1], ax[1:])), np.column_stack((ay[:-1], ay[1:])), xs)
    top_at = np.nanmax(top, axis=0)
    gaps = _heights(sx, sy, xs) - top_at
    middle = float((ay.max() + ay.min()) / 2)
    behind = np.isnan(gaps) | (gaps + top_at < middle)
    gaps = np.where(behind, np.inf, gaps)
    k, i = np.unravel_index(int(np.argmin(gaps)), gaps.shape)
    gap = float(gaps[k, i])
    if not np.isfinite(gap):
        return None
    best = np.flatnonzero(np.abs(gaps[k] - gap) < 1e-9)
    x = float((xs[best[0]] + xs[best[-1]]) / 2)
    x = x if abs(float(np.interp(x, xs, top_at)) - float(top_at[i])) < 1e-9 else float(xs[i])
    y = float(np.interp(x, xs, top_at))
    p = x * across + y * way
    return max(gap, 0.0), p, p + max(gap, 0.0) * way, int(index[k])


def _heights(x: Array, y: Array, xs: Array) -> Array:
    """Return the height of each edge (n, 2) at each x (m,): NaN where the edge does not reach."""
    x0, x1 = x[:, :1], x[:, 1:]
    y0, y1 = y[:, :1], y[:, 1:]
    run = x1 - x0
    steep = np.abs(run) < 1e-12
    share = np.where(steep, 0.0, (xs - x0) / np.where(steep, 1.0, run))
    high = np.where(steep, np.minimum(y0, y1), y0 + share * (y1 - y0))
    reaches = (xs >= np.minimum(x0, x1) - 1e-9) & (xs <= np.maximum(x0, x1) + 1e-9)
    return np.where(reaches, high, np.nan)


def _nearest(room: ResolvedRoom, thing: Thing, others: dict[str, Thing], told: set[str]) -> Clearance | None:
    best: Clearance | None = None
    for other in others.values():
        if other.path in told or not _could(thing.footprint, other.footprint):
            continue
        p, q, gap = closest(thing.footprint, other.footprint)
        if gap > 0 and (best is None or gap < best.length):
            best = Clearance(thing.path, other.path, "near", gap, p, q, room.sigma(thing, other, p, q))
    return best


def _could(a: BaseGeometry, b: BaseGeometry) -> bool:
    (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = a.bounds, b.bounds
    return bool(max(bx0 - ax1, ax0 - bx1, by0 - ay1, ay0 - by1) < FAR)


def _clearance(
    room: ResolvedRoom, thing: Thing, owner: Owner, side: Side, gap: float, p: Array, q: Array
) -> Clearance:
    to = f"{room.path}/survey/walls/{owner.name}" if isinstance(owner, Wall) else owner.path
    return Clearance(thing.path, to, side, gap, p, q, room.sigma(thing, owner, p, q))


def all_clearances(room: ResolvedRoom, paths: Iterable[str]) -> tuple[Clearance, ...]:
    """Return the gaps of each thing or opening named, what moves together not counting between themselves."""
    moving = set(paths)
    out: list[Clearance] = []
    things: dict[str, Thing] = {
        t.path: t for t in (*room.rugs.values(), *room.pieces.values(), *room.fittings.values())
    }
    for path in sorted(moving):
        if path in things:
            out += clearances(room, things[path], ignore=moving)
    for opening in room.openings.values():
        if opening.path in moving:
            out += opening_clearances(room, opening)
    return tuple(out)
