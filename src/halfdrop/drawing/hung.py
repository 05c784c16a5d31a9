"""Works on the plan: a thin frame on its wall, as one sees it from above."""

from __future__ import annotations

import numpy as np

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status
from halfdrop.room import HungArt

#: A work whose depth was not taped is drawn this deep, and none thinner [m].
DEEP = 0.03


def hung_layer(status: Status) -> str:
    """Return the layer of works on the plan by their status."""
    return f"I-ARTW-{'N' if status == 'proposed' else 'E'}"


def draw_hung(board: Board, work: HungArt, status: Status = "as found") -> None:
    """Draw a work where it hangs: its frame off the wall, its glass or canvas as a line."""
    deep = max(float(work.model.depth or 0.0), DEEP)
    out = work.wall.inward * deep
    a, b = work.start, work.end
    corners = np.array([a, b, b + out, a + out])
    with board.group(hung_layer(status), work.path):
        own = board.inked(SWAP[status])
        own.area([(float(x), float(y)) for x, y in corners], fill="paper", pen="thin")
        own.line([(float(p[0]), float(p[1])) for p in (a + out / 2, b + out / 2)], "hair")
