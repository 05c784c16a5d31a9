"""Walls unfolded into one run of paper: faces side by side, with a little lost round each inside corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from halfdrop.walls.faces import Face, Hole


@dataclass(frozen=True)
class Placed:
    """A face in the run: it stands from `start` to `end` [m]."""

    face: Face
    start: float

    @property
    def end(self) -> float:
        """Where it ends in the run [m]."""
        return self.start + self.face.length


@dataclass(frozen=True)
class Chain:
    """Neighboring walls as one run.

    Attributes
    ----------
    faces : tuple of Face
        In walking order.
    closed : bool
        Whether the last meets the first: all round a room.
    wrap : float
        Paper lost at each inside corner [m].
    """

    faces: tuple[Face, ...]
    closed: bool
    wrap: float

    @cached_property
    def placed(self) -> tuple[Placed, ...]:
        """The faces where they stand in the run."""
        at, out = 0.0, []
        for face in self.faces:
            out.append(Placed(face, at))
            at += face.length + (self.wrap if face.inside_end else 0.0)
        return tuple(out)

    @cached_property
    def length(self) -> float:
        """Length of the run with its wraps [m]."""
        last = self.placed[-1]
        return last.end + (self.wrap if self.closed and last.face.inside_end else 0.0)

    @property
    def walls(self) -> float:
        """Length of the walls alone [m]."""
        return sum(face.length for face in self.faces)

    @property
    def name(self) -> str:
        """Its corners in order: `ABC`."""
        return "-".join(face.name for face in self.faces)

    def at(self, name: str) -> Placed:
        """Return where a face stands."""
        return next(p for p in self.placed if p.face.name == name)

    def locate(self, at: float) -> tuple[str, float]:
        """Return the wall at a place of the run, and how far along it from its start in walking order [m].

        A place in the wrap of a corner is at the end of the wall before it; places may run past a closed run's ends.
        """
        here = at % self.length if self.closed and not 0 <= at <= self.length else at
        found = self.placed[0]
        for p in self.placed:
            if p.start <= here + 1e-9:
                found = p
        return found.face.name, min(max(here - found.start, 0.0), found.face.length)

    @cached_property
    def holes(self) -> tuple[tuple[Hole, float, float], ...]:
        """Every opening with where it starts and ends in the run [m]."""
        return tuple((h, p.start + h.start, p.start + h.end) for p in self.placed for h in p.face.holes)

    @cached_property
    def highest(self) -> float:
        """The greatest ceiling height of the run [m]."""
        return max(face.highest for face in self.faces)

    def ceiling(self, low: float, high: float) -> float:
        """Return the greatest ceiling height between two places of the run [m]; places may run past its ends."""
        best = 0.0
        for shift in (-self.length, 0.0, self.length) if self.closed else (0.0,):
            for p in self.placed:
                a, b = max(low - shift - p.start, 0.0), min(high - shift - p.start, p.face.length)
                if a <= b:
                    best = max(best, p.face.height(a), p.face.height(b))
        return best or self.highest

    def spans(self, hole_start: float, hole_end: float) -> tuple[tuple[float, float], ...]:
        """Return where a span of the run lies, once more to either side where the run is closed [m]."""
        shifts = (-self.length, 0.0, self.length) if self.closed else (0.0,)
        return tuple((hole_start + s, hole_end + s) for s in shifts)


def chains_of(every: Sequence[Face], covered: Sequence[Face], wrap: float) -> tuple[Chain, ...]:
    """Return the runs of neighboring walls that are covered.

    Parameters
    ----------
    every : sequence of Face
        All walls of the room, in walking order.
    covered : sequence of Face
        Those that are covered.
    wrap : float
        Paper lost at each inside corner inside a run [m].

    Checked by: tests/walls/test_setting_out.py.
    """
    names = {face.name for face in covered}
    if len(names) == len(every):
        return (Chain(tuple(every), True, wrap),)
    n = len(every)
    starts = [i for i, face in enumerate(every) if face.name in names and every[i - 1].name not in names]
    out = []
    for start in starts:
        run = []
        for step in range(n):
            face = every[(start + step) % n]
            if face.name not in names:
                break
            run.append(face)
        out.append(Chain(tuple(run), False, wrap))
    return tuple(out)
