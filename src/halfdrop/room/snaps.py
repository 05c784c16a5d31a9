"""Gentle suggestions while a thing is moved: square to a wall, flush to it or at a practice distance, centered, in line.

A suggestion is a small move or turn that a decorator would have made by eye; the page offers it, a person takes it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from halfdrop.geometry.plane import Array, heading, xy
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import LyingRug, StandingPiece, Thing
from halfdrop.room.walls import Wall

Kind = Literal["square", "flush", "set off", "centered", "in line"]

#: A suggestion moves a thing by no more than this [m], and turns it by no more than this [rad].
PULL = 0.12
SWAY = math.radians(8)
#: Less than this is no move [m], and no lean that an eye or a tape finds [rad].
STILL = 1e-3
LEVEL = math.radians(0.5)
#: What is nearly square to something is within this [rad].
SQUARE = math.radians(1.5)


@dataclass(frozen=True)
class Snap:
    """One suggestion.

    Attributes
    ----------
    path : str
        The thing to move.
    kind : str
        `square`, `flush`, `set off`, `centered` or `in line`.
    to : str
        Path of the wall or thing it goes by.
    by : Array (2,)
        The move on the plan [m].
    turn : float
        The turn, counterclockwise [rad].
    distance : float
        Of a `set off`: how far off the wall it then stands [m]; else 0.
    practice : str or None
        The practice value that gives the distance.
    line : tuple of Array
        The line it then stands on: two points on the plan [m], for the drawing.
    """

    path: str
    kind: Kind
    to: str
    by: Array
    turn: float = 0.0
    distance: float = 0.0
    practice: str | None = None
    line: tuple[Array, Array] = (np.zeros(2), np.zeros(2))

    @property
    def reach(self) -> float:
        """How much it asks: metres moved, a turn counting as its arc at one metre."""
        return float(np.hypot(*self.by)) + abs(self.turn)


def snaps(
    room: ResolvedRoom,
    thing: StandingPiece | LyingRug,
    *,
    offsets: Sequence[tuple[float, str]] = (),
    ignore: Collection[str] = (),
    pull: float = PULL,
) -> tuple[Snap, ...]:
    """Return what a thing is nearly doing, the least move first.

    Parameters
    ----------
    room : ResolvedRoom
    thing : StandingPiece or LyingRug
    offsets : sequence of (length [m], practice key)
        Distances off a wall worth standing at.
    ignore : collection of str
        Paths of what moves along.
    pull : float
        Longest move suggested [m].

    Notes
    -----
    Checked by: tests/room/test_snaps.py.
    """
    found = [*_to_walls(room, thing, offsets, pull), *_to_middles(room, thing, ignore, pull)]
    found += _in_line(room, thing, ignore, pull)
    best: dict[tuple[str, str, int], Snap] = {}
    for snap in sorted(found, key=lambda s: (round(s.reach, 6), s.kind, s.to)):
        axis = 0 if snap.turn else 1 + int(abs(snap.by @ thing.right) > abs(snap.by @ thing.front))
        best.setdefault((snap.kind, "", axis), snap)
    return tuple(best.values())


def _wall_path(room: ResolvedRoom, wall: Wall) -> str:
    return f"{room.path}/survey/walls/{wall.name}"


def _lean(thing: Thing, wall: Wall) -> float:
    """Return the least turn that makes one side of a thing parallel to a wall [rad]."""
    quarter = math.pi / 2
    off = (heading(wall.direction) - thing.angle) % quarter
    return off if off <= quarter / 2 else off - quarter


def _to_walls(
    room: ResolvedRoom, thing: StandingPiece | LyingRug, offsets: Sequence[tuple[float, str]], pull: float
) -> Iterator[Snap]:
    for wall in room.walls:
        along = wall.along(thing.corners)
        if float(along.max()) < 0 or float(along.min()) > wall.length:
            continue
        gap = float(wall.off(thing.corners).min())
        if gap > 1.2 or gap < -0.5:
            continue
        path, lean = _wall_path(room, wall), _lean(thing, wall)
        round_ = getattr(thing.model, "shape", "rectangle") == "round"
        if LEVEL < abs(lean) < SWAY and not round_:
            yield Snap(thing.path, "square", path, xy(0, 0), lean, line=(wall.start, wall.end))
        if abs(lean) > SQUARE and not round_:
            continue
        for want, key in ((0.0, ""), *offsets):
            by = want - gap
            if STILL < abs(by) <= pull:
                shift = wall.inward * want
                yield Snap(
                    thing.path,
                    "set off" if want else "flush",
                    path,
                    wall.inward * by,
                    distance=want,
                    practice=key or None,
                    line=(wall.start + shift, wall.end + shift),
                )


def _to_middles(
    room: ResolvedRoom, thing: StandingPiece | LyingRug, ignore: Collection[str], pull: float
) -> Iterator[Snap]:
    for to, middle, way in _middles(room, thing, ignore):
        by = float((middle - thing.center) @ way)
        if STILL < abs(by) <= pull:
            yield Snap(thing.path, "centered", to, way * by, line=(middle, thing.center + way * by))


def _middles(
    room: ResolvedRoom, thing: StandingPiece | LyingRug, ignore: Collection[str]
) -> Iterator[tuple[str, Array, Array]]:
    """Yield what a thing can be centered on: its path, its middle, and the direction along which that counts."""
    near = 3.0
    for wall in room.walls:
        if abs(_lean(thing, wall)) < SQUARE and 0 <= float(wall.off(thing.center)) < near:
            yield _wall_path(room, wall), (wall.start + wall.end) / 2, wall.direction
            for opening in room.openings.values():
                if opening.wall is wall and opening.model.kind == "window":
                    yield opening.path, opening.center, wall.direction
            for fitting in room.fittings.values():
                if fitting.wall is wall and fitting.model.kind == "hearth":
                    yield fitting.path, fitting.center, wall.direction
    hosts: list[Thing] = []
    if isinstance(thing, StandingPiece):
        hosts += [r for r in room.rugs.values() if r.footprint.intersects(thing.footprint)]
        hosts += [p for p in room.floor_pieces.values() if p.path != thing.path and p.path not in ignore]
    else:
        hosts += [p for p in room.floor_pieces.values() if p.footprint.intersects(thing.footprint)]
    for host in hosts:
        if host.path in ignore or float(np.hypot(*(host.center - thing.center))) > near:
            continue
        for way in (host.right, host.front):
            if abs(abs(float(way @ thing.right)) - 1) < 1e-3 or abs(abs(float(way @ thing.front)) - 1) < 1e-3:
                yield host.path, host.center, way


def _in_line(
    room: ResolvedRoom, thing: StandingPiece | LyingRug, ignore: Collection[str], pull: float
) -> Iterator[Snap]:
    """Yield moves that bring one edge in line with the same edge of a neighbor that stands parallel."""
    if not isinstance(thing, StandingPiece) or thing.model.shape != "rectangle":
        return
    for other in room.floor_pieces.values():
        if other.path == thing.path or other.path in ignore or other.model.shape != "rectangle":
            continue
        if float(np.hypot(*(other.center - thing.center))) > 3.0:
            continue
        for way in (other.right, other.front):
            if min(abs(abs(float(way @ thing.right)) - 1), abs(abs(float(way @ thing.front)) - 1)) > 1e-3:
                continue
            mine, theirs = thing.corners @ way, other.corners @ way
            for edge in (np.min, np.max):
                by = float(edge(theirs) - edge(mine))
                if STILL < abs(by) <= pull:
                    ends = (other.center, thing.center + way * by)
                    level = [p + way * (float(edge(theirs)) - float(p @ way)) for p in ends]
                    yield Snap(thing.path, "in line", other.path, way * by, line=(level[0], level[1]))
