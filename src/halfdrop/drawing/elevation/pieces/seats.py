"""Seats face on: feet, seat, arms, back; in profile the rake of the back."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.pieces.shapes import facing, legs
from halfdrop.job.model import Piece
from halfdrop.room.face import Side


def seat_height(piece: Piece, h: float, share: float) -> float:
    """Return the height of the seat [m]: as taped, else a share of the whole."""
    return min(float(piece.seat_height), h * 0.8) if piece.seat_height is not None else h * share


def sofa(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw an upholstered seat: back with its cushions, seat cushions, arms, feet."""
    if side in ("left", "right"):
        _profile(board, piece, w, h, side)
        return
    seat, foot = seat_height(piece, h, 0.52), min(0.1, h * 0.13)
    arm = min(max(0.1 * w, 0.08), 0.2, w / 4)
    arm_high = min(seat + 0.16, h * 0.82)
    x = w / 2
    legs(board, -x + 0.04, x - 0.04, foot)
    board.box(-x + 0.01, x - 0.01, foot, h, (0.01, 0.01, 0.07, 0.07), pen="thin")
    if side == "back":
        board.line([(-x + 0.01, foot + 0.03), (x - 0.01, foot + 0.03)], "hair")
        return
    count = max(1, min(piece.seats or 99, max(1, round((w - 2 * arm) / 0.65)), 6))
    each = (w - 2 * arm) / count
    for k in range(count):
        a = -x + arm + k * each
        board.box(a, a + each, seat - 0.02, h - 0.02, min(0.06, each / 5), pen="hair")
        board.box(a, a + each, seat - 0.15, seat, min(0.04, each / 6), pen="thin")
    board.line([(-x + arm, seat - 0.15), (x - arm, seat - 0.15)], "hair")
    for low, high in ((-x, -x + arm), (x - arm, x)):
        board.box(low, high, foot, arm_high, (0.01, 0.01, arm * 0.4, arm * 0.4), pen="thin")


def _profile(board: Board, piece: Piece, d: float, h: float, side: Side) -> None:
    seat, foot = seat_height(piece, h, 0.52), min(0.1, h * 0.13)
    arm_high = min(seat + 0.16, h * 0.82)
    y = d / 2
    legs(board, -y + 0.05, y - 0.04, foot)
    back = [(-y + 0.05, foot), (-y + 0.26, foot), (-y + 0.2, h), (-y, h, 0.0)]
    board.area(facing(back, side), pen="thin")
    board.area(
        facing([(-y + 0.2, seat - 0.15), (y - 0.01, seat - 0.15), (y - 0.01, seat), (-y + 0.2, seat)], side),
        pen="hair",
    )
    arm = [
        (-y + 0.07, foot),
        (y - 0.03, foot),
        (y - 0.03, arm_high - 0.05, 0.4),
        (y - 0.08, arm_high),
        (-y + 0.09, arm_high),
    ]
    board.area(facing(arm, side), pen="thin")


def ottoman(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a padded block on feet."""
    foot = min(0.08, h * 0.2)
    legs(board, -w / 2 + 0.03, w / 2 - 0.03, foot)
    board.box(-w / 2, w / 2, foot, h, (0.01, 0.01, 0.05, 0.05), pen="thin")
    board.line([(-w / 2, h * 0.62), (w / 2, h * 0.62)], "hair")


def bench(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a padded seat on four legs."""
    pad = min(0.09, h * 0.25)
    legs(board, -w / 2 + 0.03, w / 2 - 0.03, h - pad)
    board.box(-w / 2, w / 2, h - pad, h, 0.03, pen="thin")


def stool(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a seat on legs with a ring to rest the feet on."""
    legs(board, -w / 2 + 0.02, w / 2 - 0.02, h - 0.05, 0.03)
    board.line([(-w / 2 + 0.04, h * 0.3), (w / 2 - 0.04, h * 0.3)], "thin")
    board.box(-w / 2, w / 2, h - 0.06, h, 0.02, pen="thin")


def chair(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a chair: legs, seat, back posts with a rail between them; in profile its rake."""
    seat = seat_height(piece, h, 0.52)
    x, thick = w / 2, min(0.035, w / 9)
    if side in ("left", "right"):
        post = [
            (-x + 0.05, 0),
            (-x + 0.05 + thick, 0),
            (-x + 0.05 + thick, seat),
            (-x + thick, h),
            (-x, h),
            (-x + 0.05, seat),
        ]
        board.area(facing(post, side), pen="thin")
        board.area(
            facing([(x - 0.05 - thick, 0), (x - 0.05, 0), (x - 0.04, seat), (x - 0.04 - thick, seat)], side),
            pen="thin",
        )
        board.area(
            facing([(-x + 0.04, seat - 0.06), (x, seat - 0.06), (x, seat), (-x + 0.04, seat)], side),
            pen="thin",
        )
        return
    for a, b in ((-x + 0.01, -x + 0.01 + thick), (x - 0.01 - thick, x - 0.01)):
        board.box(a, b, 0.0, h, pen="thin")
    for low, high in ((h - 0.1, h - 0.02), (seat + (h - seat) * 0.4, seat + (h - seat) * 0.55)):
        board.box(-x + 0.01 + thick, x - 0.01 - thick, low, high, pen="hair")
    board.box(-x, x, seat - 0.06, seat, 0.01, pen="thin")


def desk_chair(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a chair on a column with a five-armed foot."""
    seat = seat_height(piece, h, 0.5)
    x = w / 2
    board.line([(0, 0.08), (0, seat - 0.08)], "medium")
    board.line([(-x * 0.85, 0.05), (0, 0.12), (x * 0.85, 0.05)], "thin")
    for at in (-0.85, 0.0, 0.85):
        board.oval((at * x, 0.025), 0.05, 0.05, pen="thin", fill="paper")
    board.box(-x * 0.82, x * 0.82, seat - 0.08, seat, 0.03, pen="thin")
    if side in ("left", "right"):
        back = [(-x * 0.82, seat + 0.04), (-x * 0.66, seat + 0.04), (-x * 0.76, h), (-x * 0.9, h)]
        board.area(facing(back, side), pen="thin")
    else:
        board.box(-x * 0.75, x * 0.75, seat + 0.08, h, 0.05, pen="thin")
