"""Lamps, plants, mirrors, screens, pianos, and what has no type of its own, face on."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.pieces.shapes import facing
from halfdrop.job.model import Piece
from halfdrop.room.face import Side


def lamp(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a lamp: foot, stem, shade."""
    tall = h > 1.0
    shade = min(w * 0.75, h * 0.45) if not tall else min(w * 0.8, 0.4)
    x = w / 2
    board.box(-x * 0.55, x * 0.55, 0.0, min(0.03, h * 0.06), pen="thin")
    if tall:
        board.line([(0.0, 0.03), (0.0, h - shade)], "medium")
    else:
        board.area(
            [(-x * 0.2, 0.03), (x * 0.2, 0.03, 0.45), (x * 0.1, h - shade), (-x * 0.1, h - shade, 0.45)],
            pen="thin",
        )
    board.area([(-x, h - shade), (x, h - shade), (x * 0.68, h), (-x * 0.68, h)], pen="thin")


def plant(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a pot with leaves that fan out of it."""
    pot = min(0.35, h * 0.3)
    x = w / 2
    for lean in (-1.0, -0.62, -0.25, 0.2, 0.58, 0.95):
        tip = (lean * x * 0.95, h * (1.0 - 0.26 * abs(lean)))
        bow = 0.12 * lean
        board.area([(0.0, pot, -bow - 0.14), (*tip, bow - 0.14)], pen="hair")
    board.area([(-x * 0.32, 0), (x * 0.32, 0), (x * 0.42, pot), (-x * 0.42, pot)], pen="thin")
    board.line([(-x * 0.41, pot * 0.86), (x * 0.41, pot * 0.86)], "hair")


def mirror(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a standing mirror: frame, glass, two strokes of light."""
    if side in ("left", "right"):
        lean = [(-w / 2, 0), (w / 2, 0), (w / 2 - 0.02, 0.03), (-w / 2 + 0.04, h), (-w / 2, h)]
        board.area(facing(lean, side), pen="thin")
        return
    face = min(0.05, w / 8)
    board.box(-w / 2, w / 2, 0.0, h, pen="thin")
    board.box(-w / 2 + face, w / 2 - face, face, h - face, pen="hair")
    if side == "front":
        for k in (0.0, 0.06):
            board.line([(-w * 0.22 + k * w, h * 0.55), (w * 0.1 + k * w, h * 0.75)], "hair", "graphite")


def screen(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw a screen: its panel on a foot."""
    stand = min(0.06, h * 0.1)
    board.box(-w * 0.14, w * 0.14, 0.0, stand, pen="hair")
    board.box(-w / 2, w / 2, stand, h, min(0.01, w / 20), pen="thin")
    if side == "front":
        edge = min(0.015, w / 20)
        board.box(-w / 2 + edge, w / 2 - edge, stand + edge, h - edge, fill="wash", pen="hair")


def piano(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw an upright piano: case, keyboard, pedals."""
    board.box(-w / 2, w / 2, 0.0, h, pen="thin")
    if side != "front":
        return
    keys = min(0.72, h * 0.6)
    board.box(-w / 2, w / 2, keys - 0.1, keys, pen="thin")
    count = max(6, round(w / 0.05))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        board.line([(x, keys - 0.04), (x, keys)], "hair")
    for x in (-0.08, 0.0, 0.08):
        board.line([(x, 0.05), (x, 0.09)], "thin")


def plain(board: Board, piece: Piece, w: float, h: float, side: Side) -> None:
    """Draw the box of a piece that has no type of its own."""
    board.box(-w / 2, w / 2, 0.0, h, min(0.01, w / 20), pen="thin")
