"""Rugs: edge, border, fringe or weave ticks on the short ends, a light wash; always under the furniture."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status, furniture_layer
from halfdrop.room import LyingRug

#: Length of a fringe [mm].
FRINGE = 1.5


def draw_rug(board: Board, rug: LyingRug, status: Status = "as found") -> None:
    """Draw a rug where it lies: patterned ones with a second border line, plain ones with weave ticks, not
    fringe.
    """
    with board.group(furniture_layer(status, rug=True), rug.path):
        own = board.to(rug.center, rug.angle).inked(SWAP[status])
        w, d = rug.width, rug.depth
        round_one = rug.model.shape != "rectangle"
        if status == "moved from":
            if round_one:
                own.oval((0.0, 0.0), w, d, pen="hair", ink="graphite", dash="ghost")
            else:
                own.box(-w / 2, w / 2, -d / 2, d / 2, fill=None, pen="hair", ink="graphite", dash="ghost")
            return
        borders = border_lines(rug)
        if round_one:
            own.oval((0.0, 0.0), w, d, fill="wash")
            for border in borders:
                own.oval((0.0, 0.0), w - 2 * border, d - 2 * border, pen="hair")
            return
        own.box(-w / 2, w / 2, -d / 2, d / 2, fill="wash", pen="thin")
        for border in borders:
            x, y = w / 2 - border, d / 2 - border
            own.box(-x, x, -y, y, fill=None, pen="hair")
        _ends(own, w, d, fringe=rug.model.pattern == "patterned")


def border_lines(rug: LyingRug) -> tuple[float, ...]:
    """Return how far a rug's border lines lie inside its edge [m]."""
    lines = (0.06, 0.20) if rug.model.pattern == "patterned" else (0.08,)
    return tuple(line for line in lines if min(rug.width, rug.depth) > 4 * line)


def _ends(board: Board, w: float, d: float, *, fringe: bool) -> None:
    """Draw the short ends: fringe outside a patterned rug, weave ticks inside a plain one, about 1.3 mm
    apart.
    """
    mm = 1.0 / board.frame.scale
    reach = FRINGE * mm if fringe else -0.9 * mm
    short = min(w, d)
    count = max(4, round(short / (1.3 * mm)))
    for k in range(count + 1):
        t = -short / 2 + short * k / count
        for side in (-1, 1):
            if d >= w:
                board.line([(t, side * d / 2), (t, side * (d / 2 + reach))], "hair")
            else:
                board.line([(side * w / 2, t), (side * (w / 2 + reach), t)], "hair")
