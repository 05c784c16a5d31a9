"""Works face on: frame, mat, picture; a mirror's glass, a hanging's weave, an object's outline."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status
from halfdrop.room.face import Seen
from halfdrop.room.things import HungArt

#: A frame whose width was not taped is drawn this wide [m].
FRAME = 0.025


def art_layer(status: Status) -> str:
    """Return the layer of works by their status."""
    return "I-ELEV-ARTW-" + {"as found": "E", "proposed": "N", "moved from": "M"}[status]


def draw_art(board: Board, seen: Seen, status: Status = "as found") -> None:
    """Draw a work where it hangs."""
    work = seen.thing
    assert isinstance(work, HungArt)
    with board.group(art_layer(status), seen.path):
        own = board.to(((seen.left + seen.right) / 2, seen.bottom))
        w, h = seen.right - seen.left, seen.top - seen.bottom
        if status == "moved from":
            own.box(-w / 2, w / 2, 0.0, h, fill=None, pen="hair", ink="graphite", dash="ghost")
            return
        _work(own.inked(SWAP[status]), work, w, h)


def _work(board: Board, work: HungArt, w: float, h: float) -> None:
    model = work.model
    x = w / 2
    board.box(-x, x, 0.0, h, pen="medium")
    if model.kind == "object":
        board.oval((0.0, h / 2), w * 0.7, h * 0.7, pen="hair")
        return
    if model.kind == "textile":
        for k in range(1, 6):
            board.line([(-x, h * k / 6), (x, h * k / 6)], "hair")
        return
    frame = float(model.frame) if model.frame is not None else min(FRAME, w / 12, h / 12)
    if frame > 0:
        board.box(-x + frame, x - frame, frame, h - frame, pen="thin")
    if model.kind == "mirror":
        for shift in (0.0, 0.07):
            board.line([(w * (shift - 0.2), h * 0.5), (w * (shift + 0.1), h * 0.72)], "hair", "graphite")
        return
    if model.mat is not None:
        mat = float(model.mat.width)
        below = float(model.mat.bottom) if model.mat.bottom is not None else mat
        board.box(-x + frame + mat, x - frame - mat, frame + below, h - frame - mat, fill="wash", pen="hair")
        return
    board.box(-x + frame, x - frame, frame, h - frame, fill="wash", pen="hair")
