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
    low = -y + head + min(0.05, d / 40)
    gap = 0.05
    if count:
        each = min((w - gap * (count + 1)) / count, 0.90)
        start = -(count * each + (count - 1) * gap) / 2
        for k in range(count):
            left = start + k * (each + gap)
            board.box(left, left + each, low, low + long, 0.10, pen="hair")
    fold = low + long + 0.06
    band, flap, drop = min(0.16, d * 0.09), min(0.34, w * 0.25), min(0.46, d * 0.24)
    edge, turned = x - 0.01, fold + band
    corner = (edge - flap, turned)
    board.line([(-edge, fold), (edge, fold)], "hair")
    board.line([(-edge, turned), corner], "hair")
    # the corner on the right hand as one lies, folded back toward the middle
    tip = (edge, fold + drop)
    board.line([corner, tip], "hair")
    board.line([corner, (edge - flap * 0.88, fold + drop * 0.87), tip], "hair")


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
