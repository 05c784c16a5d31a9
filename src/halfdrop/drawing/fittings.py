"""What is fixed: heat, water, current, structure, stairs. Drawn about its center: x along the wall, y into
the room [m].
"""

from __future__ import annotations

import math
from collections.abc import Callable

from halfdrop.drawing.board import Board
from halfdrop.drawing.layers import FITTING_LAYER
from halfdrop.room import FixedFitting

Maker = Callable[[Board, FixedFitting, float, float], None]


def draw_fitting(board: Board, fitting: FixedFitting) -> None:
    """Draw a fitting in its place; small ones at a size that can be read, on the wall's face."""
    with board.group(FITTING_LAYER[fitting.model.kind], fitting.path):
        own = board.to(fitting.center, fitting.angle)
        _MAKERS[fitting.model.kind](own, fitting, fitting.width, max(fitting.depth, 1e-3))


def _radiator(board: Board, f: FixedFitting, w: float, d: float) -> None:
    d = max(d, 0.05)
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    count = max(3, round(w / 0.09))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        board.line([(x, -d / 2), (x, d / 2)], "hair")


def _heater(board: Board, f: FixedFitting, w: float, d: float) -> None:
    d = max(d, 0.06)
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    for part in (-0.17, 0.17):
        board.line([(-w / 2, part * d), (w / 2, part * d)], "hair")
    if f.model.clearance:
        c = float(f.model.clearance)
        board.line(
            [(-w / 2 - c, -d / 2), (-w / 2 - c, d / 2 + c), (w / 2 + c, d / 2 + c), (w / 2 + c, -d / 2)],
            "hair",
            "graphite",
            "fine",
        )


def _hearth(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    mouth = w * 0.30
    board.line(
        [
            (-mouth, -d / 2),
            (-mouth * 0.8, -d / 2 + d * 0.4),
            (mouth * 0.8, -d / 2 + d * 0.4),
            (mouth, -d / 2),
        ],
        "hair",
    )
    board.line([(-w / 2, d * 0.22), (w / 2, d * 0.22)], "hair")


def _on_wall(draw: Callable[[Board, float], None]) -> Maker:
    """Return a maker of a small symbol whose size is on the paper, not in the room."""

    def maker(board: Board, f: FixedFitting, w: float, d: float) -> None:
        draw(board.to((0.0, -d / 2)), 1.0 / board.frame.scale)

    return maker


def _outlet(board: Board, mm: float) -> None:
    board.line([(-1.1 * mm, 0.0, -1.0), (1.1 * mm, 0.0)], "medium")
    for x in (-0.4, 0.4):
        board.line([(x * mm, 0.0), (x * mm, 1.9 * mm)], "hair")


def _switch(board: Board, mm: float) -> None:
    board.line([(0.0, 0.0), (0.0, 2.2 * mm), (0.8 * mm, 2.6 * mm)], "medium")
    board.oval((0.0, 0.0), 1.0 * mm, 1.0 * mm, pen="thin", fill="paper")


def _thermostat(board: Board, mm: float) -> None:
    board.box(-0.9 * mm, 0.9 * mm, 0.0, 1.1 * mm, 0.3 * mm, pen="medium")
    board.line([(0.0, 0.3 * mm), (0.0, 0.8 * mm)], "hair")


def _sconce(board: Board, mm: float) -> None:
    board.line([(-1.2 * mm, 0.0, -1.0), (1.2 * mm, 0.0)], "medium")
    for t in (40, 90, 140):
        a = math.radians(t)
        board.line(
            [
                (1.5 * mm * math.cos(a), 1.5 * mm * math.sin(a)),
                (2.2 * mm * math.cos(a), 2.2 * mm * math.sin(a)),
            ],
            "hair",
        )


def _smoke_alarm(board: Board, f: FixedFitting, w: float, d: float) -> None:
    mm = 1.0 / board.frame.scale
    board.oval((0.0, 0.0), 3.2 * mm, 3.2 * mm, pen="medium", fill="paper")
    board.line([(-0.9 * mm, -0.45 * mm, -0.6), (0.0, 0.0, 0.6), (0.9 * mm, 0.45 * mm)], "hair")


def _beam(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, fill=None, pen="medium", dash="overhead")


def _column(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, fill="wash", pen="heavy")


def _closet(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    board.line([(-w / 2 + 0.03, 0.0), (w / 2 - 0.03, 0.0)], "hair", dash="overhead")
    board.line([(0.0, d / 2), (0.0, d / 2 - min(0.05, d / 8))], "hair")


def _counter(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    lip = min(0.03, d / 8)
    board.line([(-w / 2, d / 2 - lip), (w / 2, d / 2 - lip)], "hair")


def _sink(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, min(0.04, w / 8), pen="medium")
    board.oval((0.0, 0.03 * d), w * 0.72, d * 0.62, pen="hair")
    board.oval((0.0, -0.04 * d), 0.04, 0.04, pen="hair")
    board.line([(0.0, -d * 0.44), (0.0, -d * 0.20)], "medium")


def _bath(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    rim = min(0.07, w / 8, d / 8)
    long = max(w, d) / 2
    if w >= d:
        board.box(
            -w / 2 + rim,
            w / 2 - rim,
            -d / 2 + rim,
            d / 2 - rim,
            (0.08, 0.28, 0.28, 0.08),
            fill=None,
            pen="hair",
        )
        board.oval((-long + rim + 0.14, 0.0), 0.045, 0.045, pen="hair")
    else:
        board.box(
            -w / 2 + rim,
            w / 2 - rim,
            -d / 2 + rim,
            d / 2 - rim,
            (0.08, 0.08, 0.28, 0.28),
            fill=None,
            pen="hair",
        )
        board.oval((0.0, -long + rim + 0.14), 0.045, 0.045, pen="hair")


def _shower(board: Board, f: FixedFitting, w: float, d: float) -> None:
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    drain = 0.05
    for x, y in ((-w / 2, -d / 2), (w / 2, -d / 2), (w / 2, d / 2), (-w / 2, d / 2)):
        board.line([(x, y), (math.copysign(drain, x), math.copysign(drain, y))], "hair")
    board.oval((0.0, 0.0), 2 * drain, 2 * drain, pen="hair", fill="paper")


def _toilet(board: Board, f: FixedFitting, w: float, d: float) -> None:
    tank = min(0.2, d * 0.28)
    board.box(-w / 2, w / 2, -d / 2, -d / 2 + tank, 0.02, pen="medium")
    bowl = d - tank
    board.oval((0.0, -d / 2 + tank + bowl / 2), w * 0.80, bowl, pen="medium", fill="paper")
    board.oval((0.0, -d / 2 + tank + bowl * 0.53), w * 0.5, bowl * 0.68, pen="hair")


def _stair_head(board: Board, f: FixedFitting, w: float, d: float) -> None:
    """Draw the first treads down and the way down as an arrow; the head is the edge toward the room."""
    d = max(d, 0.25)
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    count = max(1, round(d / 0.26))
    for k in range(1, count):
        y = d / 2 - d * k / count
        board.line([(-w / 2, y), (w / 2, y)], "hair")
    tip = -d / 2 + 0.06
    board.line([(0.0, d / 2 - 0.05), (0.0, tip)], "thin")
    board.line([(-0.06, tip + 0.09), (0.0, tip), (0.06, tip + 0.09)], "thin")
    board.oval((0.0, d / 2 - 0.05), 0.04, 0.04, pen="thin", fill="ink")


def _register(board: Board, f: FixedFitting, w: float, d: float) -> None:
    d = max(d, 0.05)
    board.box(-w / 2, w / 2, -d / 2, d / 2, pen="medium")
    count = max(2, round(w / 0.04))
    for k in range(1, count):
        x = -w / 2 + w * k / count
        board.line([(x, -d / 2 + d * 0.15), (x, d / 2 - d * 0.15)], "hair")


_MAKERS: dict[str, Maker] = {
    "radiator": _radiator,
    "heater": _heater,
    "hearth": _hearth,
    "outlet": _on_wall(_outlet),
    "switch": _on_wall(_switch),
    "thermostat": _on_wall(_thermostat),
    "sconce": _on_wall(_sconce),
    "beam": _beam,
    "column": _column,
    "closet": _closet,
    "counter": _counter,
    "sink": _sink,
    "bath": _bath,
    "shower": _shower,
    "toilet": _toilet,
    "stair head": _stair_head,
    "smoke alarm": _smoke_alarm,
    "register": _register,
}
