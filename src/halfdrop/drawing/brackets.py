"""A window as the installer sees it: the wall to scale, each bracket numbered, off a fixed edge and over the finished floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.elevation import Hanging, Shown, draw_face
from halfdrop.drawing.figure import LIFT, Figure
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.paper import largest_scale
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Arc, Area, Begin, Dimension, End, Line, Text, Verb

#: Room round the wall [mm]: at its ends, for the running dimensions over it, for the corners' letters under it.
SIDE = 6.0
OVER = 24.0
UNDER = 7.0
#: Highest wall on the page [mm].
HIGH = 86.0
#: Radius of a bracket's mark, and its height over the rod [mm].
MARK = 2.1


@dataclass(frozen=True)
class DrawnBracket:
    """A bracket: its number, where it stands on the elevation [m], and its two numbers as printed.

    `edge` is the fixed edge it is measured from, on the elevation [m]; `floor` the floor's height below it [m].
    """

    number: int
    x: float
    edge: float
    floor: float
    off: str
    up: str


def bracket_figure(
    shown: Shown, hanging: Hanging, brackets: Sequence[DrawnBracket], units: Units, *, wide: float = 172.0
) -> Figure:
    """Return the elevation of a treatment with its brackets dimensioned.

    Over the wall stand running dimensions from the fixed edge, a circle at their origin; on the wall, the height of each bracket
    over the finished floor under it.

    Raises
    ------
    InputError
        Where the wall is too large for the page at the smallest scale.

    Source: running dimensions as in ISO 129-1, from memory, unverified. Checked by: tests/drawing/test_brackets.py.
    """
    face = shown.face
    scale = largest_scale((face.width, face.top - face.bottom), (wide - 2 * SIDE, HIGH), units)
    mm = 1000 * scale.ratio
    left = (wide - face.width * mm) / 2
    top = (OVER if brackets else 3.0) + (face.top - face.bottom) * mm
    board = Board(Frame((left, top + face.bottom * mm), mm))
    alone = replace(shown, hangings=tuple(h for h in shown.hangings if h.path == hanging.path))
    draw_face(board, alone, units, pieces=False)
    verbs: list[Verb] = list(board.verbs)
    verbs += _running(board, shown, brackets)
    verbs += _heights(board, hanging, brackets)
    verbs += _marks(board, hanging, brackets)
    return Figure(f"Brackets of {hanging.hung.name}", wide, top + UNDER, tuple(verbs), scale)


def _running(board: Board, shown: Shown, brackets: Sequence[DrawnBracket]) -> list[Verb]:
    """Return the running dimensions from each fixed edge, over the wall."""
    small = tokens().sizes["small"]
    base = board.frame(0.0, shown.face.top)[1] - 4.5
    out: list[Verb] = [Begin("A-ANNO-DIMS")]
    for edge in sorted({b.edge for b in brackets}):
        mine = [b for b in brackets if b.edge == edge]
        x0 = board.frame(edge, 0.0)[0]
        ends = [board.frame(b.x, 0.0)[0] for b in mine]
        out.append(Line(((min(x0, *ends), base), (max(x0, *ends), base)), "hair", "graphite"))
        out.append(Arc((x0, base), 1.0, 1.0, pen="medium", ink="graphite", fill="paper"))
        last = -100.0
        for bracket, x in sorted(zip(mine, ends, strict=True), key=lambda p: p[1]):
            top = board.frame(bracket.x, shown.face.ceiling(bracket.x))[1]
            out.append(Line(((x, top), (x, base - 1.2)), "hair", "graphite"))
            out.append(Line(((x - 0.6, base + 0.6), (x + 0.6, base - 0.6)), "medium", "graphite"))
            at = max(x + small * 0.35, last + small * 1.15)
            out.append(Text((at, base - 2.0), bracket.off, small, "medium", "ink", "start", -90.0))
            last = at
    return [*out, End()]


def _heights(board: Board, hanging: Hanging, brackets: Sequence[DrawnBracket]) -> list[Verb]:
    """Return the height of each bracket over the floor; of those that stand too near one another the first alone."""
    small = tokens().sizes["small"]
    out: list[Verb] = [Begin("A-ANNO-DIMS")]
    last = -100.0
    for bracket in brackets:
        x, high = board.frame(bracket.x, hanging.height)
        low = board.frame(bracket.x, bracket.floor)[1]
        if x - last < 2.6 * small:
            continue
        last = x
        base = x + 0.0
        middle = (base - LIFT, (high + low) / 2 + 0.18 * (low - high))
        if text_width(bracket.up, small) < low - high - 4:
            out.append(Dimension((x, high), (x, low), (base, high), bracket.up, middle, -90.0, small, "ink"))
    return [*out, End()]


def _marks(board: Board, hanging: Hanging, brackets: Sequence[DrawnBracket]) -> list[Verb]:
    small = tokens().sizes["small"]
    out: list[Verb] = [Begin("A-ANNO-TEXT", hanging.path)]
    for bracket in brackets:
        x, y = board.frame(bracket.x, hanging.height)
        center = (x, y - MARK - 1.4)
        out.append(
            Area((((x - 0.5, y - 0.5), (x + 0.5, y - 0.5), (x + 0.5, y + 0.5), (x - 0.5, y + 0.5)),), "ink")
        )
        out.append(Arc(center, MARK, MARK, pen="thin", ink="slate", fill="paper"))
        out.append(
            Text((x, center[1] + small * 0.33), str(bracket.number), small, "strong", "slate", "middle")
        )
    return [*out, End()]
