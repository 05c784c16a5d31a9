"""Furniture seen face on, drawn by how it is made. Each maker draws from the middle of its foot: x to the right, y up [m]."""

from __future__ import annotations

from collections.abc import Callable

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.pieces import beds, others, seats, storage, tables
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status, furniture_layer
from halfdrop.job.model import Piece
from halfdrop.room.face import Seen, Side
from halfdrop.room.things import StandingPiece

#: Draws a piece of width and height on the elevation that shows `side`.
Maker = Callable[[Board, Piece, float, float, Side], None]

MAKERS: dict[str, Maker] = {
    "sofa": seats.sofa,
    "loveseat": seats.sofa,
    "sectional": seats.sofa,
    "armchair": seats.sofa,
    "chaise": seats.sofa,
    "recliner": seats.sofa,
    "ottoman": seats.ottoman,
    "bench": seats.bench,
    "stool": seats.stool,
    "dining chair": seats.chair,
    "desk chair": seats.desk_chair,
    "coffee table": tables.table,
    "side table": tables.table,
    "console": tables.table,
    "dining table": tables.table,
    "desk": tables.desk,
    "nightstand": tables.nightstand,
    "bed": beds.bed,
    "crib": beds.crib,
    "dresser": storage.drawers,
    "chest": storage.drawers,
    "wardrobe": storage.doors,
    "bookcase": storage.bookcase,
    "cabinet": storage.doors,
    "media unit": storage.doors,
    "sideboard": storage.doors,
    "screen": others.screen,
    "piano": others.piano,
    "floor lamp": others.lamp,
    "table lamp": others.lamp,
    "plant": others.plant,
    "mirror": others.mirror,
    "other": others.plain,
}


def draw_piece(board: Board, seen: Seen, status: Status = "as found") -> None:
    """Draw a piece before its wall.

    Parameters
    ----------
    board : Board
        On the elevation.
    seen : Seen
    status : {"as found", "proposed", "moved from"}
        In ink, in slate, or as a dashed graphite ghost of its box.
    """
    piece = seen.thing
    assert isinstance(piece, StandingPiece)
    with board.group(furniture_layer(status), seen.path):
        if status == "moved from":
            ring = [
                (seen.left, seen.bottom), (seen.right, seen.bottom), (seen.right, seen.top), (seen.left, seen.top)
            ]  # fmt: skip
            board.area(ring, fill=None, pen="hair", ink="graphite", dash="ghost")
            return
        own = board.to(((seen.left + seen.right) / 2, seen.bottom)).inked(SWAP[status])
        MAKERS[piece.type](own, piece.model, seen.right - seen.left, seen.top - seen.bottom, seen.side)
