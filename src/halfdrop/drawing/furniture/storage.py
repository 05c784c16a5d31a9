"""Storage: carcase, drawers, doors, shelves with their books."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.job.model import Piece


def _carcase(board: Board, w: float, d: float) -> float:
    """Draw the carcase; return where its fronts begin."""
    board.box(-w / 2, w / 2, -d / 2, d / 2, 0.0, pen="thin")
    face = d / 2 - min(0.05, d / 6)
    board.line([(-w / 2, face), (w / 2, face)], "hair")
    return face


def _pull(board: Board, x: float, d: float, half: float) -> None:
    board.line([(x - half, d / 2 - 0.012), (x + half, d / 2 - 0.012)], "medium")


def drawers(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw drawer fronts with two pulls to a bank, and the drawer pulled out where its reach is known."""
    _carcase(board, w, d)
    banks = 2 if w > 1.1 else 1
    for k in range(banks):
        left = -w / 2 + w * k / banks
        each = w / banks
        if k:
            board.line([(left, d / 2), (left, d / 2 - min(0.05, d / 6))], "hair")
        for part in (0.28, 0.72):
            _pull(board, left + each * part, d, min(0.04, each / 12))


def doors(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw door fronts side by side, each with its pull by the edge it opens at."""
    face = _carcase(board, w, d)
    count = max(1, round(w / 0.5))
    each = w / count
    for k in range(count):
        left = -w / 2 + k * each
        if k:
            board.line([(left, face), (left, d / 2)], "hair")
        near = left + each * (0.84 if k % 2 == 0 and count > 1 else 0.16)
        _pull(board, near, d, min(0.025, each / 12))


def wardrobe(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a wardrobe: doors in front, and inside it a rail with its hangers."""
    doors(board, piece, w, d)
    rail = min(0.05, w / 8)
    board.line([(-w / 2 + rail, -0.02), (w / 2 - rail, -0.02)], "hair", dash="overhead")
    half = min(0.2, d / 3.2)
    count = max(3, round(w / 0.16))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        lean = (0.018, -0.012, 0.026, 0.0, -0.02)[k % 5]
        board.line([(x - lean, -0.02 - half), (x + lean, -0.02 + half)], "hair")


def bookcase(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a shelf between its sides with a row of books, gaps among them."""
    board.box(-w / 2, w / 2, -d / 2, d / 2, 0.0, pen="thin")
    side = min(0.025, w / 12)
    back = -d / 2 + min(0.02, d / 8)
    bays = max(1, round(w / 0.9))
    each = w / bays
    reach = (d / 2 - back) * 0.78
    for b in range(bays):
        left, right = -w / 2 + b * each + side, -w / 2 + (b + 1) * each - side
        board.line([(left, d / 2), (left, back), (right, back), (right, d / 2)], "hair")
        x, k = left + 0.03, b
        while x < right - 0.04:
            thick = (0.045, 0.03, 0.06, 0.035, 0.05)[k % 5]
            depth = reach * (0.92, 0.8, 1.0, 0.86, 0.74)[(k * 3) % 5]
            if k % 7 != 5:
                board.line([(x, back), (x, back + depth)], "hair")
            x += thick * 1.6
            k += 1
