"""Headings face on: pleats, eyelets, tabs, tape, the pocket on the rod."""

from __future__ import annotations

from collections.abc import Callable

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.shown import Hanging

Ends = tuple[float, float]
#: How deep a sewn pleat is seen [m].
DEEP = 0.09


def draw_heading(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    """Draw the heading of one panel between its edges [m], one pleat, eyelet or tab to a fold."""
    maker = _MAKERS.get(hanging.hung.treatment.heading or "", _flat)
    maker(board, hanging, edges, folds)


def _at(edges: Ends, folds: int) -> list[float]:
    a, b = edges
    return [a + (b - a) * (k + 0.5) / folds for k in range(folds)]


def _pinched(lines: int) -> Callable[[Board, Hanging, Ends, int], None]:
    """Return a maker of pleats with `lines` folds each, caught together at their foot."""

    def maker(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
        spread = min((edges[1] - edges[0]) / folds * 0.34, 0.03)
        top = hanging.top
        for x in _at(edges, folds):
            for k in range(lines):
                off = spread * ((2 * k / (lines - 1) - 1) if lines > 1 else 0.0)
                board.line([(x + off, top), (x, top - DEEP)], "hair")
            _ring(board, hanging, x)

    return maker


def _ring(board: Board, hanging: Hanging, x: float) -> None:
    """Draw a ring on the rod over a pleat, where the cloth hangs below it."""
    hung = hanging.hung
    if (
        hung.treatment.hardware.kind not in ("rod", "pole")
        or hanging.top > hanging.height - hung.diameter / 2
    ):
        return
    across = max(hung.diameter * 1.5, hanging.height - hanging.top + hung.diameter * 0.3)
    middle = hanging.height + hung.diameter * 0.25 - across / 2
    board.oval((x, middle), min(across * 0.4, 0.02), across, pen="hair")


def _goblet(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    wide = min((edges[1] - edges[0]) / folds * 0.6, 0.06)
    top = hanging.top
    for x in _at(edges, folds):
        board.line(
            [
                (x - wide / 2, top),
                (x - wide * 0.12, top - DEEP, 0.5),
                (x + wide * 0.12, top - DEEP),
                (x + wide / 2, top),
            ],
            "hair",
        )
        _ring(board, hanging, x)


def _boxes(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    wide = min((edges[1] - edges[0]) / folds * 0.55, 0.06)
    for x in _at(edges, folds):
        for side in (-1, 1):
            board.line(
                [(x + side * wide / 2, hanging.top), (x + side * wide / 2, hanging.top - DEEP)], "hair"
            )
        _ring(board, hanging, x)


def _pencil(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    a, b = edges
    tape = 0.075
    board.line([(a, hanging.top - tape), (b, hanging.top - tape)], "hair")
    count = max(4, min(folds * 3, int((b - a) * board.frame.scale / 0.8)))
    for k in range(1, count):
        x = a + (b - a) * k / count
        board.line([(x, hanging.top), (x, hanging.top - tape)], "hair")


def _eyelets(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    hung = hanging.hung
    size = max(hung.diameter * 1.5, 0.03)
    middle = hanging.height - hung.diameter / 2
    for x in _at(edges, 2 * folds):
        board.oval(
            (x, middle), min(size, (edges[1] - edges[0]) / folds * 0.45), size, pen="hair", fill="wash"
        )


def _tabs(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    wide = min(0.05, (edges[1] - edges[0]) / folds * 0.5)
    for x in _at(edges, folds):
        board.box(x - wide / 2, x + wide / 2, hanging.top, hanging.height + 0.005, pen="hair")


def _pocket(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    """Draw the stitching over and under the rod, and the little frill above it."""
    a, b = edges
    for y in (hanging.height - hanging.hung.diameter * 1.6, hanging.height + hanging.hung.diameter * 0.3):
        if y < hanging.top:
            board.line([(a, y), (b, y)], "hair", dash="fine")
    count = max(4, min(folds * 2, int((b - a) * board.frame.scale / 1.0)))
    for k in range(1, count):
        x = a + (b - a) * k / count
        board.line([(x, hanging.top), (x, hanging.height - hanging.hung.diameter * 1.6)], "hair")


def _wave(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    a, b = edges
    each = (b - a) / folds
    for k in range(folds):
        x = a + k * each
        board.line([(x, hanging.top, -0.35), (x + each, hanging.top)], "hair")


def _flat(board: Board, hanging: Hanging, edges: Ends, folds: int) -> None:
    board.line([(edges[0], hanging.top - 0.04), (edges[1], hanging.top - 0.04)], "hair", dash="fine")


_MAKERS: dict[str, Callable[[Board, Hanging, Ends, int], None]] = {
    "pencil": _pencil,
    "single pinch": _pinched(1),
    "double pinch": _pinched(2),
    "triple pinch": _pinched(3),
    "cartridge": _boxes,
    "box": _boxes,
    "goblet": _goblet,
    "eyelet": _eyelets,
    "tab": _tabs,
    "rod pocket": _pocket,
    "wave": _wave,
    "flat": _flat,
}
