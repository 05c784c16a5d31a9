"""Beds face on: headboard, mattress, pillows; in profile from head to foot."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.pieces.shapes import facing, legs
from halfdrop.job.model import Piece
from halfdrop.room.face import Side


def bed(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a bed as seen from its foot, from behind its head, or from the side."""
    top = min(0.6, h * 0.55) if h > 0.7 else h * 0.85
    foot = min(0.16, top * 0.3)
    x = w / 2
    if side in ("left", "right"):
        board.area(facing([(-x, 0), (-x + 0.07, 0), (-x + 0.07, h), (-x, h)], side), pen="thin")
        legs(board, -x + 0.1, x - 0.05, foot)
        board.area(
            facing(
                [(-x + 0.07, foot), (x, foot), (x, top - 0.04, 0.3), (x - 0.05, top), (-x + 0.07, top)], side
            ),
            pen="thin",
        )
        pillow = [
            (-x + 0.1, top),
            (-x + 0.5, top, 0.5),
            (-x + 0.46, top + 0.12, 0.1),
            (-x + 0.12, top + 0.14),
        ]
        board.area(facing(pillow, side), pen="hair")
        board.line(facing([(-x + 0.62, foot + 0.06), (-x + 0.62, top)], side), "hair")
        return
    board.box(-x, x, 0.0, h, (0.0, 0.0, 0.06, 0.06), pen="thin")
    if side == "back":
        return
    count = piece.pillows if piece.pillows is not None else (2 if w > 1.15 else 1)
    for k in range(count):
        each = (w - 0.1) / max(count, 1)
        a = -x + 0.05 + k * each
        board.box(a + 0.02, a + each - 0.02, top - 0.03, min(top + 0.2, h - 0.03), 0.06, pen="hair")
    legs(board, -x + 0.05, x - 0.05, foot)
    board.box(-x + 0.01, x - 0.01, foot, top, (0.01, 0.01, 0.06, 0.06), pen="thin")
    board.line([(-x + 0.01, top - (top - foot) * 0.3), (x - 0.01, top - (top - foot) * 0.3)], "hair")


def crib(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a cot: posts, rails and bars."""
    x = w / 2
    for a in (-x, x - 0.04):
        board.box(a, a + 0.04, 0.0, h, pen="thin")
    for y in (h * 0.25, h - 0.05):
        board.box(-x + 0.04, x - 0.04, y, y + 0.04, pen="thin")
    count = max(3, round((w - 0.08) / 0.085))
    for k in range(1, count):
        a = -x + 0.04 + (w - 0.08) * k / count
        board.line([(a, h * 0.25 + 0.04), (a, h - 0.05)], "hair")
