"""Parts that several pieces share: legs, a shape turned to the viewer's other hand."""

from __future__ import annotations

from collections.abc import Iterable

from halfdrop.drawing.board import Board
from halfdrop.drawing.verbs import Vertex
from halfdrop.room.face import Side


def legs(board: Board, left: float, right: float, high: float, thick: float = 0.04) -> None:
    """Draw two legs that stand at `left` and `right` and taper to the floor."""
    thick = min(thick, (right - left) / 6)
    for x, sign in ((left, 1.0), (right, -1.0)):
        foot = thick * 0.6
        board.area([(x, high), (x + sign * thick, high), (x + sign * foot, 0), (x, 0)], pen="thin")


def facing(points: Iterable[Vertex], side: Side) -> list[Vertex]:
    """Return a profile drawn with its front to the right, as `side` shows it: turned over for one that looks left."""
    if side != "left":
        return list(points)
    return [(-p[0], p[1]) if len(p) < 3 else (-p[0], p[1], -p[2]) for p in points]
