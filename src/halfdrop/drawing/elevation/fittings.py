"""Fittings seen face on."""

from __future__ import annotations

from collections.abc import Callable

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import FITTING_LAYER, Status
from halfdrop.room.face import Seen
from halfdrop.room.things import FixedFitting

Maker = Callable[[Board, float, float], None]

#: What is drawn no smaller than this, so that it can be seen [mm on paper].
LEAST = 1.6


def draw_fitting(board: Board, seen: Seen, status: Status = "as found") -> None:
    """Draw a fitting in its place; one whose height is practice's usual one has a broken edge round it."""
    fitting = seen.thing
    assert isinstance(fitting, FixedFitting)
    kind = fitting.model.kind
    width = max(seen.right - seen.left, LEAST / board.frame.scale)
    height = max(seen.top - seen.bottom, LEAST / board.frame.scale)
    own = board.to(((seen.left + seen.right) / 2, (seen.bottom + seen.top) / 2 - height / 2)).inked(
        SWAP[status]
    )
    with board.group(FITTING_LAYER[kind], seen.path):
        _MAKERS[kind](own, width, height)
        if seen.usual and kind in ("outlet", "switch", "thermostat", "sconce"):
            air = 0.7 / board.frame.scale
            x = width / 2 + air
            ring = [(-x, -air), (x, -air), (x, height + air), (-x, height + air)]
            own.area(ring, fill=None, pen="hair", ink="graphite", dash="fine")


def _radiator(board: Board, w: float, h: float) -> None:
    foot = h * 0.08
    count = max(3, round(w / 0.09))
    each = w / count
    for k in range(count):
        a = -w / 2 + k * each
        board.box(a + each * 0.06, a + each * 0.94, 0.0, h, min(each * 0.4, h / 4), pen="thin")
    for y in (foot * 2, h - foot * 2):
        board.line([(-w / 2, y), (w / 2, y)], "hair")


def _heater(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, min(0.02, h / 6), pen="medium")
    for k in range(1, 5):
        y = h * (0.55 + 0.09 * k)
        board.line([(-w / 2 + 0.06 * w, y), (w / 2 - 0.06 * w, y)], "hair")


def _hearth(board: Board, w: float, h: float) -> None:
    """Draw a surround with its shelf and the mouth."""
    shelf = min(0.06, h / 10)
    board.box(-w / 2, w / 2, 0.0, h, pen="medium")
    board.box(-w / 2 - 0.03, w / 2 + 0.03, h - shelf, h, pen="thin")
    mouth, high = w * 0.3, h * 0.62
    board.area(
        [(-mouth, 0), (mouth, 0), (mouth, high * 0.86, 0.22), (-mouth, high * 0.86)], fill="wash", pen="thin"
    )
    for x in (-1, 1):
        board.line([(x * w * 0.4, 0), (x * w * 0.4, h - shelf)], "hair")


def _plate(draw: Callable[[Board, float, float], None]) -> Maker:
    def maker(board: Board, w: float, h: float) -> None:
        board.box(-w / 2, w / 2, 0.0, h, min(w, h) * 0.12, pen="thin")
        draw(board, w, h)

    return maker


def _outlet(board: Board, w: float, h: float) -> None:
    for y in (0.3, 0.7):
        for x in (-0.16, 0.16):
            board.line([(x * w, h * y - h * 0.08), (x * w, h * y + h * 0.08)], "hair")


def _switch(board: Board, w: float, h: float) -> None:
    board.box(-w * 0.14, w * 0.14, h * 0.3, h * 0.7, pen="hair")


def _thermostat(board: Board, w: float, h: float) -> None:
    d = min(w, h) * 0.6
    board.oval((0.0, h / 2), d, d, pen="hair")


def _sconce(board: Board, w: float, h: float) -> None:
    board.oval((0.0, h * 0.3), w * 0.45, w * 0.45, pen="thin", fill="paper")
    board.area(
        [(-w * 0.5, h * 0.45), (w * 0.5, h * 0.45), (w * 0.32, h), (-w * 0.32, h)], fill="paper", pen="thin"
    )


def _register(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, pen="thin")
    count = max(3, round(h / 0.03))
    for k in range(1, count):
        board.line([(-w * 0.44, h * k / count), (w * 0.44, h * k / count)], "hair")


def _counter(board: Board, w: float, h: float) -> None:
    top, kick = min(0.04, h / 8), min(0.1, h / 6)
    board.box(-w / 2, w / 2, kick, h - top, pen="medium")
    board.box(-w / 2 - 0.01, w / 2 + 0.01, h - top, h, pen="medium")
    board.line([(-w / 2 + 0.04, 0), (-w / 2 + 0.04, kick)], "thin")
    board.line([(w / 2 - 0.04, 0), (w / 2 - 0.04, kick)], "thin")
    count = max(1, round(w / 0.6))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        board.line([(x, kick), (x, h - top)], "hair")


def _basin(board: Board, w: float, h: float) -> None:
    board.area(
        [(-w / 2, h), (w / 2, h), (w * 0.36, h * 0.25, 0.3), (-w * 0.36, h * 0.25)],
        fill="paper",
        pen="medium",
    )
    board.line([(-w * 0.1, 0), (-w * 0.1, h * 0.12)], "thin")
    board.line([(w * 0.1, 0), (w * 0.1, h * 0.12)], "thin")
    board.line([(0.0, h), (0.0, h + 0.09), (0.05, h + 0.09)], "thin")


def _bath(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, (0.01, 0.01, 0.04, 0.04), pen="medium")
    board.line([(-w / 2, h - 0.05), (w / 2, h - 0.05)], "hair")


def _toilet(board: Board, w: float, h: float) -> None:
    seat = h * 0.55
    board.box(-w * 0.45, w * 0.45, seat, h, 0.02, pen="medium")
    board.area(
        [(-w * 0.42, seat), (w * 0.42, seat), (w * 0.22, 0.0), (-w * 0.22, 0.0)], fill="paper", pen="medium"
    )
    board.line([(-w * 0.45, h - 0.04), (w * 0.45, h - 0.04)], "hair")


def _shower(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, pen="medium")
    board.line([(0.0, 0.0), (0.0, h)], "thin")
    board.line([(w * 0.06, h * 0.42), (w * 0.06, h * 0.55)], "medium")


def _closet(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, pen="medium")
    count = max(2, 2 * round(w / 1.1))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        board.line([(x, 0), (x, h)], "hair")


def _plain(board: Board, w: float, h: float) -> None:
    board.box(-w / 2, w / 2, 0.0, h, pen="medium")


_MAKERS: dict[str, Maker] = {
    "radiator": _radiator,
    "heater": _heater,
    "hearth": _hearth,
    "outlet": _plate(_outlet),
    "switch": _plate(_switch),
    "thermostat": _plate(_thermostat),
    "sconce": _sconce,
    "register": _register,
    "counter": _counter,
    "sink": _basin,
    "bath": _bath,
    "toilet": _toilet,
    "shower": _shower,
    "closet": _closet,
    "column": _plain,
}
