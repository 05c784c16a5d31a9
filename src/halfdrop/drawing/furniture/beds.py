"""Beds: headboard, pillows, the sheet turned down."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.job.model import Piece


def bed(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a made bed: headboard at the back, pillows, the sheet turned down over the cover, one corner
    folded.
    """
    x, y = w / 2, d / 2
    head = min(0.07, d / 20)
    board.box(-x, x, -y, -y + head, 0.01, pen="thin")
    board.box(-x + 0.01, x - 0.01, -y + head, y, (0.02, 0.02, 0.09, 0.09), pen="thin")
    count = piece.pillows if piece.pillows is not None else (2 if w >= 1.2 else 1)
    long = min(0.46, d / 4)
    low = -y + head + 0.05
    gap = 0.05
    if count:
        each = min((w - gap * (count + 1)) / count, 0.90)
        start = -(count * each + (count - 1) * gap) / 2
        for k in range(count):
            left = start + k * (each + gap)
            board.box(left, left + each, low, low + long, 0.10, pen="hair")
    fold = low + long + 0.06
    board.line([(-x + 0.01, fold), (x - 0.01, fold)], "hair")
    board.line([(-x + 0.01, fold + 0.16), (x - 0.01 - 0.34, fold + 0.16)], "hair")
    # the corner on the left hand as one lies, folded back toward the middle
    board.line([(x - 0.01 - 0.34, fold + 0.16), (x - 0.01, fold + 0.46)], "hair")
    board.line(
        [(x - 0.01 - 0.34, fold + 0.16), (x - 0.01 - 0.30, fold + 0.40), (x - 0.01, fold + 0.46)], "hair"
    )


def crib(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a railed bed: the spindles show as ticks along its sides."""
    x, y = w / 2, d / 2
    rail = min(0.045, w / 8, d / 8)
    board.box(-x, x, -y, y, 0.02, pen="thin")
    board.box(-x + rail, x - rail, -y + rail, y - rail, 0.03, fill=None, pen="hair")
    for span, across in ((w, True), (d, False)):
        count = max(2, round(span / 0.10))
        for k in range(1, count):
            t = -span / 2 + span * k / count
            for side in (-1, 1):
                if across:
                    board.line([(t, side * y), (t, side * (y - rail))], "hair")
                else:
                    board.line([(side * x, t), (side * (x - rail), t)], "hair")
