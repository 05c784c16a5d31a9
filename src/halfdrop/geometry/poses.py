"""A box and the ways it may be carried: which of its dimensions leads, which lies across, which stands up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from halfdrop.geometry.plane import Array

#: What a pose is called by the dimension that stands up.
_UP = {"height": "upright", "depth": "on its back", "width": "on end"}
#: … and by the dimension that leads.
_LEADS = {"width": "end first", "depth": "front first", "height": "top first"}


@dataclass(frozen=True)
class Box:
    """What is carried, as it stands: width across its front, depth from front to back, height.

    Attributes
    ----------
    width, depth, height : float
        [m], more than 0.
    front : float or None
        Height of its front edge [m] where that is lower than its back: a sofa's arms. Its side is then cut
        off on the slant, which is what makes its *diagonal depth* less than its depth.
    upright_only : bool
        Whether it must stay on its feet: a piano.
    """

    width: float
    depth: float
    height: float
    front: float | None = None
    upright_only: bool = False

    def __post_init__(self) -> None:
        if min(self.width, self.depth, self.height) <= 0:
            raise ValueError(f"a box of {self.width} × {self.depth} × {self.height} m: each is more than 0")

    def side(self, leads: str) -> Array:
        """Return the face (n, 2) [m] seen when the dimension `leads` goes first: x across, y up."""
        across, up = {
            "width": (self.depth, self.height),
            "depth": (self.width, self.height),
            "height": (self.width, self.depth),
        }[leads]
        top = self.front if leads == "width" and self.front is not None and self.front < up else up
        return np.array(((0.0, 0.0), (across, 0.0), (across, top), (0.0, up)))


@dataclass(frozen=True)
class Pose:
    """A box as carried: `along` leads, `across` lies square to it, `up` stands [m]."""

    name: str
    along: float
    across: float
    up: float


def level_poses(box: Box) -> Iterator[Pose]:
    """Yield the six ways a box is carried level, on its feet first; two where it must stay upright."""
    sizes = {"width": box.width, "depth": box.depth, "height": box.height}
    for up in ("height", "depth", "width"):
        if box.upright_only and up != "height":
            return
        for along in ("width", "depth", "height"):
            if along != up:
                across = next(k for k in sizes if k not in (up, along))
                yield Pose(f"{_UP[up]}, {_LEADS[along]}", sizes[along], sizes[across], sizes[up])


def tilted_poses(box: Box, height: float) -> Iterator[Pose]:
    """Yield the level poses, then each with its leading end raised as far as a height [m] allows.

    Raised by the angle φ the box takes the length L cos φ + v sin φ and the height L sin φ + v cos φ. The
    length is concave in φ, so it is least at the ends of what the height allows: level, at the height, on
    end.
    """
    yield from level_poses(box)
    if box.upright_only:
        return
    for pose in level_poses(box):
        reach = math.hypot(pose.along, pose.up)
        if pose.up > height or reach <= height:
            continue
        lean = math.atan2(pose.up, pose.along)
        turn = math.asin(height / reach)
        for phi in (turn - lean, math.pi - turn - lean):
            if 1e-6 < phi < math.pi / 2 - 1e-6:
                length = pose.along * math.cos(phi) + pose.up * math.sin(phi)
                yield Pose(f"{pose.name}, raised {math.degrees(phi):.0f}°", length, pose.across, height)
