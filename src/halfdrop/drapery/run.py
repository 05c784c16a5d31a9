"""The run of a treatment along its wall or walls: several openings that read as one are unfolded into one width."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np

from halfdrop.base.errors import At, InputError
from halfdrop.geometry.plane import Array
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom, Wall, WallOpening
from halfdrop.room.face import runs_right, wall_run


@dataclass(frozen=True)
class Run:
    """Where a treatment hangs, from the left hand of a person who faces the wall.

    Attributes
    ----------
    width : float
        Left edge of the first opening to right edge of the last, along the walls [m].
    spans : tuple of (float, float)
        Each opening's left and right edge from the run's beginning, in that order [m].
    left, right : float
        Wall beside the run, to the corner [m].
    bends : tuple of float
        Corners that the run turns, from its beginning [m]; none on one wall.
    head, sill : float
        Highest head and lowest sill of its openings [m above the floor]; a door's sill is the floor.
    frame : float
        Top of the trim [m above the floor].
    walls : tuple of Wall
        The walls it takes in, from left to right; its beginning lies `left` from the left end of the first.
    """

    width: float
    spans: tuple[tuple[float, float], ...]
    left: float
    right: float
    bends: tuple[float, ...]
    head: float
    sill: float
    frame: float
    walls: tuple[Wall, ...] = ()

    def at(self, x: float) -> Array:
        """Return the plan point [m] on the walls' face that lies `x` from the run's beginning; past a corner, on the wall's line."""
        along = x + self.left
        for wall in self.walls[:-1]:
            if along <= wall.length:
                return _from_left(wall, along)
            along -= wall.length
        return _from_left(self.walls[-1], along)

    def x_of(self, wall: Wall, along: float) -> float | None:
        """Return where along the run a point `along` from a wall's start lies [m]; None where the run leaves that wall out."""
        at = -self.left
        for other in self.walls:
            if other is wall:
                return at + (along if runs_right(wall) else wall.length - along)
            at += other.length
        return None

    def wall_at(self, x: float) -> tuple[Wall, float]:
        """Return the wall that `x` lies on, and how far from that wall's left end [m]."""
        along = x + self.left
        for wall in self.walls[:-1]:
            if along <= wall.length:
                return wall, along
            along -= wall.length
        return self.walls[-1], along


def _from_left(wall: Wall, along: float) -> Array:
    return wall.start + along * wall.direction if runs_right(wall) else wall.end - along * wall.direction


def _edges(opening: WallOpening) -> tuple[float, float]:
    """Return an opening's edges from the left end of its wall, as one who faces it sees them [m]."""
    a, b = (float(v) for v in opening.wall.along(np.array((opening.start, opening.end))))
    if runs_right(opening.wall):
        return a, b
    return opening.wall.length - b, opening.wall.length - a


def run_of(room: ResolvedRoom, treatment: Treatment, path: str = "") -> Run:
    """Return the run of a treatment.

    Parameters
    ----------
    room : ResolvedRoom
        With its outline adjusted.
    treatment : Treatment
        At one or more openings; those on several walls (a bay, a corner) are unfolded around the fewest walls.
    path : str
        The treatment's place in the document, for a fault.

    Raises
    ------
    InputError
        Where two of its openings overlap.

    Source: our own. Checked by: tests/drapery/test_run.py.
    """
    openings = [room.openings[i] for i in treatment.openings]
    chain = wall_run(room, {o.wall.name for o in openings})
    starts: dict[str, float] = {}
    at = 0.0
    for wall in chain:
        starts[wall.name] = at
        at += wall.length
    placed = sorted(
        (starts[o.wall.name] + a, starts[o.wall.name] + b, o.id) for o in openings for a, b in [_edges(o)]
    )
    for (_, end, one), (start, _, other) in itertools.pairwise(placed):
        if start < end - 1e-6:
            raise InputError(
                f"openings `{one}` and `{other}` of one treatment overlap by {(end - start) * 1000:.0f} mm",
                at=At(path=path or None),
                hint="check `along` and `width` of both",
            )
    first, last = placed[0][0], max(end for _, end, _ in placed)
    heads = [float(o.model.sill or 0.0) + float(o.model.height) for o in openings]
    trims = [float(o.model.trim or 0.0) for o in openings]
    corners = [starts[w.name] for w in chain[1:]]
    return Run(
        width=last - first,
        spans=tuple((a - first, b - first) for a, b, _ in placed),
        left=first - starts[chain[0].name],
        right=at - last,
        bends=tuple(c - first for c in corners if first < c < last),
        head=max(heads),
        sill=min(float(o.model.sill or 0.0) for o in openings),
        frame=max(h + t for h, t in zip(heads, trims, strict=True)),
        walls=chain,
    )
