"""Tables: the top's edge as a double line, drawers on the front where it has them."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.job.model import Piece


def top(board: Board, piece: Piece, w: float, d: float, radius: float = 0.015) -> None:
    """Draw a table top with its edge as a double line."""
    edge = min(0.028, w / 10, d / 10)
    if piece.shape == "rectangle":
        board.box(-w / 2, w / 2, -d / 2, d / 2, radius, pen="thin")
        board.box(-w / 2 + edge, w / 2 - edge, -d / 2 + edge, d / 2 - edge, radius / 2, fill=None, pen="hair")
    else:
        board.oval((0.0, 0.0), w, d, fill="paper")
        board.oval((0.0, 0.0), w - 2 * edge, d - 2 * edge, pen="hair")


def table(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a plain table."""
    top(board, piece, w, d)


def desk(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a writing table; the knee hole shows as a dashed rail set back from the front."""
    top(board, piece, w, d)
    if piece.shape == "rectangle":
        rail = w * 0.30
        board.line(
            [
                (-rail, d / 2),
                (-rail, d / 2 - min(0.14, d / 4)),
                (rail, d / 2 - min(0.14, d / 4)),
                (rail, d / 2),
            ],
            "hair",
            dash="fine",
        )


def nightstand(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a small table with a drawer: its front and its pull."""
    top(board, piece, w, d)
    if piece.shape == "rectangle":
        face = d / 2 - min(0.055, d / 5)
        board.line([(-w / 2, face), (w / 2, face)], "hair")
        pull = min(0.05, w / 8)
        board.line([(-pull, d / 2 - 0.012), (pull, d / 2 - 0.012)], "medium")
