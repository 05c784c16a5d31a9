"""Lamps, screens, pianos, plants, mirrors."""

from __future__ import annotations

import math

from halfdrop.drawing.board import Board
from halfdrop.drawing.verbs import Vertex
from halfdrop.job.model import Piece

#: Width of the pool of light against the shade's.
POOL = 1.8


def lamp(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a lamp's shade, its stem, and the pool it throws."""
    board.oval((0.0, 0.0), w * POOL, d * POOL, pen="hair", ink="graphite", dash="fine")
    board.oval((0.0, 0.0), w, d, fill="paper")
    board.oval((0.0, 0.0), w * 0.5, d * 0.5, pen="hair")
    board.oval((0.0, 0.0), w * 0.12, d * 0.12, pen="hair", fill="ink")


def screen(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a panel on its foot; its face is the heavy edge in front."""
    x, y = w / 2, d / 2
    thick = min(0.06, d)
    if d > 0.09:
        board.box(-min(0.22, x), min(0.22, x), -y, y, 0.03, pen="hair")
    board.box(-x, x, y - thick, y, 0.0, pen="thin")
    board.line([(-x, y), (x, y)], "medium")


def piano(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw keys in front of the case: a straight one, or a wing where it is deep."""
    x, y = w / 2, d / 2
    keys = min(0.16, d / 3)
    if d > 1.2:
        case: list[Vertex] = [(-x, y - keys * 1.6), (-x, -y + 0.25 * w, 0.9), (-x + 0.46 * w, -y + 0.25 * w)]
        case += [(-x + 0.50 * w, -y + 0.62 * d, -0.12), (x, y - d * 0.30), (x, y - keys * 1.6)]
        board.area(case, pen="thin")
        board.line([(-x + 0.05, y - keys * 2.0), (-x + 0.05, -y + 0.34 * w)], "hair")
        board.box(-x, x, y - keys * 1.6, y, 0.02, pen="thin")
    else:
        board.box(-x, x, -y, y, 0.0, pen="thin")
        board.line([(-x, y - keys * 1.35), (x, y - keys * 1.35)], "hair")
    left, right = -x + 0.06, x - 0.06
    board.box(left, right, y - keys - 0.02, y - 0.02, 0.0, pen="hair")
    count = max(7, round((right - left) / 0.094))
    for k in range(1, count):
        key = left + (right - left) * k / count
        board.line([(key, y - keys - 0.02), (key, y - 0.02)], "hair")


def plant(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw leaves round a pot, each a pair of bowed lines."""
    count = 9
    for k in range(count):
        t = math.tau * k / count + 0.2
        reach = 0.5 * (1.0 if k % 2 == 0 else 0.8)
        tip = (w * reach * math.cos(t), d * reach * math.sin(t))
        root = (w * 0.10 * math.cos(t), d * 0.10 * math.sin(t))
        board.area([(*root, 0.32), (*tip, 0.32)], pen="hair")
        board.line([root, (0.72 * tip[0] + 0.28 * root[0], 0.72 * tip[1] + 0.28 * root[1])], "hair")
    board.oval((0.0, 0.0), w * 0.3, d * 0.3, fill="paper")


def mirror(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a frame with the glass as slanted strokes."""
    x, y = w / 2, d / 2
    board.box(-x, x, -y, y, 0.0, pen="thin")
    count = max(2, round(w / 0.18))
    lean = min(d, 0.06)
    for k in range(1, count):
        at = -x + w * k / count
        board.line([(at - lean / 2, -y), (at + lean / 2, y)], "hair")


def plain(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a piece whose make is not known: its edge, and an inner line along the front."""
    if piece.shape == "rectangle":
        board.box(-w / 2, w / 2, -d / 2, d / 2, 0.0, pen="thin")
        inner = d / 2 - min(0.04, d / 6)
        board.line([(-w / 2, inner), (w / 2, inner)], "hair")
    else:
        board.oval((0.0, 0.0), w, d, fill="paper")
