"""Wallpaper on an elevation: a fine line at each seam, and a tick at each repeat of the pattern where it has to match."""

from __future__ import annotations

from itertools import groupby

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.shown import PaperStrip, Shown

#: A tick at a repeat reaches this far to each side of its seam [mm on paper].
TICK = 1.0
#: Repeats nearer than this are not ticked [mm on paper].
NEAR = 2.5
#: A seam nearer to a corner than this is the corner's line [m].
EDGE = 0.006


def draw_paper(board: Board, shown: Shown) -> None:
    """Draw the strips of every papered wall of an elevation, under what hangs and stands before them."""
    corners = [x for stretch in shown.face.stretches for x in (stretch.left, stretch.right)]
    for path, strips in groupby(shown.strips, key=lambda s: s.path):
        with board.group("A-ELEV-PAPR", path):
            for strip in strips:
                _strip(board, strip, seam=all(abs(strip.left - x) > EDGE for x in corners))


def _strip(board: Board, strip: PaperStrip, *, seam: bool) -> None:
    if seam:
        board.line([(strip.left, strip.bottom), (strip.left, strip.top)], "hair", "graphite", "fine")
    if strip.mark is None or strip.repeat * board.frame.scale < NEAR:
        return
    reach = min(TICK / board.frame.scale, (strip.right - strip.left) / 2)
    y = strip.mark - ((strip.mark - strip.bottom) // strip.repeat) * strip.repeat
    while y <= strip.top:
        board.line([(strip.left, y), (strip.left + reach, y)], "hair", "graphite")
        board.line([(strip.right - reach, y), (strip.right, y)], "hair", "graphite")
        y += strip.repeat
