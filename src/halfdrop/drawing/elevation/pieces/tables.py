"""Tables face on: top, apron, legs; desks and nightstands with their drawers."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.pieces.shapes import legs
from halfdrop.job.model import Piece
from halfdrop.room.face import Side


def _top(board: Board, w: float, h: float) -> float:
    """Draw the top and return its underside [m]."""
    thick = min(0.035, h * 0.1)
    board.box(-w / 2, w / 2, h - thick, h, pen="thin")
    return h - thick


def table(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a top on an apron and legs; a round one on a column with a spread foot."""
    if piece.shape != "rectangle" and w > 0.75:
        under = _top(board, w, h)
        board.box(-0.05, 0.05, 0.06, under, pen="thin")
        board.area([(-w * 0.26, 0), (w * 0.26, 0), (0.05, 0.1), (-0.05, 0.1)], pen="thin")
        return
    under = h - min(0.035, h * 0.1)
    apron = min(0.09, h * 0.18)
    legs(board, -w / 2 + 0.03, w / 2 - 0.03, under, 0.05)
    board.box(-w / 2 + 0.05, w / 2 - 0.05, under - apron, under, pen="hair")
    _top(board, w, h)


def desk(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a desk: drawers at the viewer's right, legs at the left."""
    under = h - min(0.035, h * 0.1)
    if side != "front" or w < 0.8:
        table(board, piece, w, h, side)
        return
    legs(board, -w / 2 + 0.03, w / 2 - 0.2, under, 0.05)
    board.box(-w / 2 + 0.05, w / 2 - 0.03, under - 0.12, under, pen="thin")
    wide = min(0.42, w * 0.32)
    board.box(w / 2 - 0.03 - wide, w / 2 - 0.03, 0.08, under, pen="thin")
    for k in range(1, 3):
        y = 0.08 + (under - 0.08) * k / 3
        board.line([(w / 2 - 0.03 - wide, y), (w / 2 - 0.03, y)], "hair")
    _top(board, w, h)


def nightstand(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a small case on legs with a drawer over an open shelf."""
    under = h - min(0.03, h * 0.1)
    foot = min(0.12, h * 0.2)
    legs(board, -w / 2 + 0.02, w / 2 - 0.02, foot)
    board.box(-w / 2 + 0.01, w / 2 - 0.01, foot, under, pen="thin")
    if side == "front":
        split = under - (under - foot) * 0.45
        board.line([(-w / 2 + 0.01, split), (w / 2 - 0.01, split)], "thin")
        board.oval((0.0, (split + under) / 2), 0.025, 0.025, pen="hair", fill="paper")
    _top(board, w, h)
