"""Storage face on: drawers with their pulls, doors, shelves with books."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.job.model import Piece
from halfdrop.room.face import Side


def _case(board: Board, w: float, h: float, *, foot: float = 0.08) -> float:
    """Draw the case on its plinth; return the height of the plinth [m]."""
    foot = min(foot, h * 0.12)
    board.box(-w / 2, w / 2, 0.0, h, pen="thin")
    board.line([(-w / 2, foot), (w / 2, foot)], "hair")
    return foot


def _edge(board: Board, w: float, low: float, high: float) -> None:
    board.line(
        [(-w / 2 + 0.02, low), (-w / 2 + 0.02, high), (w / 2 - 0.02, high), (w / 2 - 0.02, low)], "hair"
    )


def drawers(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw rows of drawers; two columns where it is wide."""
    foot = _case(board, w, h)
    if side != "front":
        return
    _edge(board, w, foot, h - 0.02)
    rows = max(2, min(7, round((h - foot) / 0.24)))
    columns = 2 if w > 1.0 else 1
    for r in range(rows):
        low, high = (foot + (h - 0.02 - foot) * k / rows for k in (r, r + 1))
        if r:
            board.line([(-w / 2 + 0.02, low), (w / 2 - 0.02, low)], "hair")
        for c in range(columns):
            x = -w / 2 + w * (c + 0.5) / columns
            pull = min(0.09, w / columns / 6)
            board.line([(x - pull, (low + high) / 2), (x + pull, (low + high) / 2)], "thin")
    if columns == 2:
        board.line([(0.0, foot), (0.0, h - 0.02)], "hair")


def doors(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw doors side by side with a knob each."""
    foot = _case(board, w, h)
    if side != "front":
        return
    _edge(board, w, foot, h - 0.02)
    count = max(1, round(w / (0.5 if h > 1.2 else 0.45)))
    count += count % 2 if count > 1 else 0
    each = (w - 0.04) / count
    for k in range(count):
        a = -w / 2 + 0.02 + k * each
        if k:
            board.line([(a, foot), (a, h - 0.02)], "hair")
        inset = min(0.06, each / 6, h / 10)
        board.area(
            [(a + inset, foot + inset), (a + each - inset, foot + inset), (a + each - inset, h - 0.02 - inset),
             (a + inset, h - 0.02 - inset)], fill=None, pen="hair")  # fmt: skip
        hand = a + each - inset / 2 if k % 2 == 0 else a + inset / 2
        board.oval(
            (hand, foot + (h - foot) * (0.5 if h > 1.2 else 0.6)), 0.025, 0.025, pen="hair", fill="paper"
        )


def bookcase(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw shelves with rows of books; in profile the plain side."""
    foot = _case(board, w, h, foot=0.06)
    if side in ("left", "right"):
        return
    board.box(-w / 2 + 0.025, w / 2 - 0.025, foot, h - 0.025, pen="hair")
    if side == "back":
        return
    count = max(2, round((h - foot) / 0.33))
    bays = max(1, round(w / 0.9))
    for b in range(1, bays):
        x = -w / 2 + w * b / bays
        board.line([(x, foot), (x, h - 0.025)], "thin")
    for k in range(count):
        low = foot + (h - 0.025 - foot) * k / count
        if k:
            board.line([(-w / 2 + 0.025, low), (w / 2 - 0.025, low)], "thin")
        _books(board, w, low, (h - foot) / count, k)


def _books(board: Board, w: float, low: float, high: float, row: int) -> None:
    """Draw the backs of some books: heights and widths by turns, always the same."""
    x = -w / 2 + 0.04 + (row % 3) * w * 0.12
    end = w / 2 - 0.05 - ((row + 1) % 3) * w * 0.16
    k = row
    while x < end:
        thick = (0.028, 0.04, 0.024, 0.034, 0.05)[k % 5]
        tall = high * (0.72, 0.8, 0.66, 0.76, 0.7, 0.82)[k % 6]
        if x + thick > end:
            return
        board.line([(x, low), (x, low + tall), (x + thick, low + tall), (x + thick, low)], "hair")
        x += thick
        k += 1
