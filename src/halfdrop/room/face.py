"""A wall face on: the mapping between the plan and its elevation, and the things as they are seen there.

Frame of an elevation: a person in the room faces the wall; x runs to the right from the wall's left end, y up from the
finished floor there [m]. Several walls in a row (a bay, a corner) are unfolded one after the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from shapely.geometry import Polygon, box

from halfdrop.base.tolerance import SAME
from halfdrop.geometry.plane import Array, xy
from halfdrop.job.part import corners_of
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import FixedFitting, HungArt, StandingPiece, WallOpening
from halfdrop.room.walls import Wall

#: Which side of a piece looks at a person who faces the wall; `left` and `right`: its front points that way.
Side = Literal["front", "back", "left", "right"]


def runs_right(wall: Wall) -> bool:
    """Return whether a wall, walked from its start, runs to the right hand of a person who faces it."""
    return float(wall.direction @ right_hand(wall)) > 0


def right_hand(wall: Wall) -> Array:
    """Return the unit vector to the right hand of a person who faces a wall."""
    facing = -wall.inward
    return xy(facing[1], -facing[0])


def wall_run(room: ResolvedRoom, names: Iterable[str]) -> tuple[Wall, ...]:
    """Return the fewest walls in a row that hold all the named ones, from left to right as one who faces them sees them."""
    wanted = {frozenset(corners_of(name)) for name in names}
    walls = list(room.walls) if runs_right(room.walls[0]) else list(reversed(room.walls))
    chains: list[tuple[Wall, ...]] = []
    for i in range(len(walls)):
        turned = walls[i:] + walls[:i]
        hits = [k for k, wall in enumerate(turned) if frozenset((wall.first, wall.second)) in wanted]
        if hits and hits[0] == 0:
            chains.append(tuple(turned[: hits[-1] + 1]))
    return min(chains, key=len)


def row_name(walls: Sequence[Wall]) -> str:
    """Return the corners of walls in a row in the survey's walking order: `CD`; of several `DEFG`."""
    row = list(walls) if runs_right(walls[0]) else list(reversed(walls))
    return "".join(w.first for w in row) + row[-1].second


@dataclass(frozen=True, eq=False)
class Stretch:
    """One wall of an elevation.

    Attributes
    ----------
    wall : Wall
    left, right : float
        Its ends [m].
    left_corner, right_corner : str
        Their names.
    floor, ceiling : tuple of float
        The floor and the ceiling at its ends [m].
    """

    wall: Wall
    left: float
    right: float
    left_corner: str
    right_corner: str
    floor: tuple[float, float]
    ceiling: tuple[float, float]

    def x(self, point: Array) -> float:
        """Return where a plan point stands on the elevation [m]."""
        along = float(self.wall.along(point))
        return self.left + (along if runs_right(self.wall) else self.wall.length - along)

    def plan(self, x: float) -> Array:
        """Return the point of the wall's line on the plan at `x` [m]."""
        along = x - self.left if runs_right(self.wall) else self.right - x
        return np.asarray(self.wall.start + along * self.wall.direction)

    def between(self, ends: tuple[float, float], x: float) -> float:
        """Return a height that runs straight from one end to the other, at `x` [m]."""
        share = min(max((x - self.left) / (self.right - self.left), 0.0), 1.0)
        return ends[0] + share * (ends[1] - ends[0])


@dataclass(frozen=True, eq=False)
class Seen:
    """A thing as the elevation shows it.

    Attributes
    ----------
    thing : WallOpening, FixedFitting, StandingPiece or HungArt
    left, right, bottom, top : float
        Its box [m].
    off : float
        How far it stands off the wall [m]; 0 for what is in or on it.
    side : {"front", "back", "left", "right"}
        What a piece shows.
    usual : bool
        Its height is not in the document: practice's usual one stands in.
    """

    thing: WallOpening | FixedFitting | StandingPiece | HungArt
    left: float
    right: float
    bottom: float
    top: float
    off: float = 0.0
    side: Side = "front"
    usual: bool = False

    @property
    def path(self) -> str:
        """Its place in the document."""
        return self.thing.path

    @property
    def box(self) -> Polygon:
        """Its box as a shape on the wall [m]."""
        return box(self.left, self.bottom, self.right, self.top)


@dataclass(frozen=True, eq=False)
class Elevation:
    """One wall, or several in a row, seen face on; built by `halfdrop.room.elevation.elevation_of`.

    Attributes
    ----------
    room : ResolvedRoom
    stretches : tuple of Stretch
        From left to right.
    openings, fittings, pieces, art : tuple of Seen
        What is in it, on it and before it, and the works that hang on it; pieces in the order they hide each other, those
        nearest to the wall first.
    untaped : tuple of str
        Corners whose height was not taped: the mean of the room's stands in.
    ceiling_taped : bool
        False where no height was taped in the room at all: practice's usual one stands in.
    """

    room: ResolvedRoom
    stretches: tuple[Stretch, ...]
    openings: tuple[Seen, ...]
    fittings: tuple[Seen, ...]
    pieces: tuple[Seen, ...]
    art: tuple[Seen, ...]
    untaped: tuple[str, ...]
    ceiling_taped: bool

    @cached_property
    def name(self) -> str:
        """Its corners: `CD`; of several walls `DEFG`; see `row_name`."""
        return row_name([s.wall for s in self.stretches])

    @property
    def width(self) -> float:
        """End to end [m]."""
        return self.stretches[-1].right

    def stretch_of(self, pair: str) -> Stretch:
        """Return the stretch of a wall of it, named either way round."""
        ends = set(corners_of(pair))
        return next(s for s in self.stretches if {s.left_corner, s.right_corner} == ends)

    def has(self, pair: str) -> bool:
        """Return whether it shows a wall, named either way round."""
        ends = set(corners_of(pair))
        return any({s.left_corner, s.right_corner} == ends for s in self.stretches)

    def stretch_at(self, x: float) -> Stretch:
        """Return the stretch at `x` [m]; past its ends the nearest."""
        return next((s for s in self.stretches if x <= s.right + SAME), self.stretches[-1])

    def floor(self, x: float) -> float:
        """Return the floor at `x` [m]; 0 at the left end."""
        stretch = self.stretch_at(x)
        return stretch.between(stretch.floor, x)

    def ceiling(self, x: float) -> float:
        """Return the ceiling at `x` [m]."""
        stretch = self.stretch_at(x)
        return stretch.between(stretch.ceiling, x)

    def plan(self, x: float) -> Array:
        """Return the plan point of the wall at `x` [m]."""
        return self.stretch_at(x).plan(x)

    def place(self, pair: str, along: float, width: float) -> tuple[float, float]:
        """Return left and right [m] of a thing of the document: `along` its wall from the first-named corner to its near edge."""
        stretch = self.stretch_of(pair)
        if corners_of(pair)[0] == stretch.left_corner:
            return stretch.left + along, stretch.left + along + width
        return stretch.right - along - width, stretch.right - along

    def along(self, pair: str, left: float, right: float) -> float:
        """Return the document's `along` [m] of a thing that spans `left` to `right` here: the inverse of `place`."""
        stretch = self.stretch_of(pair)
        return left - stretch.left if corners_of(pair)[0] == stretch.left_corner else stretch.right - right

    @cached_property
    def outline(self) -> Polygon:
        """The face: along the floor to the right, back under the ceiling [m]."""
        low = [(x, y) for s in self.stretches for x, y in zip((s.left, s.right), s.floor, strict=True)]
        high = [(x, y) for s in self.stretches for x, y in zip((s.left, s.right), s.ceiling, strict=True)]
        return Polygon([*low, *reversed(high)])

    @property
    def top(self) -> float:
        """Its highest point [m]."""
        return max(max(s.ceiling) for s in self.stretches)

    @property
    def bottom(self) -> float:
        """Its lowest point [m]."""
        return min(min(s.floor) for s in self.stretches)
