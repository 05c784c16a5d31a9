"""Furniture drawn by how it is made. Each maker draws a piece about its center: x across, the front toward
+y [m].
"""

from __future__ import annotations

from collections.abc import Callable

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import beds, others, seats, storage, tables
from halfdrop.drawing.layers import Status, furniture_layer
from halfdrop.drawing.tokens import Ink
from halfdrop.job.model import Piece
from halfdrop.room import StandingPiece

Maker = Callable[[Board, Piece, float, float], None]

MAKERS: dict[str, Maker] = {
    "sofa": seats.sofa,
    "loveseat": seats.sofa,
    "sectional": seats.sectional,
    "armchair": seats.armchair,
    "chaise": seats.chaise,
    "recliner": seats.recliner,
    "ottoman": seats.ottoman,
    "bench": seats.bench,
    "stool": seats.stool,
    "dining chair": seats.dining_chair,
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
    "wardrobe": storage.wardrobe,
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

SWAP: dict[Status, dict[Ink, Ink]] = {
    "as found": {},
    "proposed": {"ink": "slate", "graphite": "slate"},
    "moved from": {},
}


def draw_piece(board: Board, piece: StandingPiece, status: Status = "as found") -> None:
    """Draw a piece where it stands.

    Parameters
    ----------
    board : Board
        On the plan.
    piece : StandingPiece
    status : {"as found", "proposed", "moved from"}
        In ink, in slate, or as a dashed graphite ghost of its edge.
    """
    with board.group(furniture_layer(status), piece.path):
        if status == "moved from":
            ring = [(float(x), float(y)) for x, y in piece.corners]
            board.area(ring, fill=None, pen="hair", ink="graphite", dash="ghost")
            return
        own = board.to(piece.center, piece.angle).inked(SWAP[status])
        MAKERS[piece.type](own, piece.model, piece.width, piece.depth)
        _front_tick(own, piece)


def _front_tick(board: Board, piece: StandingPiece) -> None:
    """Mark the front: a short stroke across its corner at the right hand; round pieces take a tick at
    mid-front.
    """
    w, d = piece.width, piece.depth
    if piece.type in ("plant", "floor lamp", "table lamp", "desk chair", "dining chair", "armchair", "bed"):
        return
    if piece.model.shape != "rectangle":
        reach = min(0.06, d / 5)
        board.line([(0.0, d / 2), (0.0, d / 2 - reach)], "thin")
        return
    front = d / 2
    right = w / 2
    if piece.model.ret is not None and piece.model.ret.hand == "left":
        front = float(piece.model.depth) - d / 2
    size = max(min(0.09, min(w, d) / 5), 0.01)
    board.line([(right - size, front), (right, front - size)], "thin")
