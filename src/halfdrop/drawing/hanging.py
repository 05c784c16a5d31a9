"""A wall as the person sees it who hangs its works: frames to scale, each hook numbered, off a fixed edge and over the floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.elevation import Shown, draw_face
from halfdrop.drawing.figure import Figure
from halfdrop.drawing.paper import largest_scale
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Arc, Begin, End, Line, Text, Verb

#: Room beside the wall for heights, and at its other end; over it for running dimensions; under it for the corners' letters [mm].
TOLD = 19.0
SIDE = 6.0
OVER = 26.0
UNDER = 7.0
#: Highest wall on the page [mm].
HIGH = 92.0
#: Half of a hook's cross, and the radius of a number's ring [mm].
CROSS = 1.3
MARK = 2.1
#: Values nearer than this share of their size would run into one another.
APART = 1.15
#: A value that had to give way stands this much farther off, joined to its tick [mm].
SHIFTED = 1.6


@dataclass(frozen=True)
class DrawnHook:
    """A hook: its mark (`2`, `2a`), where it bears on the elevation [m], and its two numbers as printed."""

    mark: str
    x: float
    y: float
    off: str
    up: str


@dataclass(frozen=True)
class DrawnFrame:
    """A frame whose hooks are not known: its mark, and its middle and top on the elevation [m]."""

    mark: str
    x: float
    top: float


def hook_figure(
    shown: Shown,
    hooks: Sequence[DrawnHook],
    units: Units,
    *,
    bare: Sequence[DrawnFrame] = (),
    edge: Literal["left", "right"] = "left",
    wide: float = 172.0,
) -> Figure:
    """Return the elevation of a wall with the hooks of its works dimensioned.

    Over the wall stand running dimensions from the fixed edge, beside it the heights over the finished floor, a circle at the
    origin of each.

    Parameters
    ----------
    shown : Shown
        The wall.
    hooks : sequence of DrawnHook
        In the order the works are hung.
    units : {"imperial", "metric"}
        For the scale.
    bare : sequence of DrawnFrame
        Frames without hooks to draw: numbered alone.
    edge : {"left", "right"}
        The fixed edge.
    wide : float
        Width of the figure [mm].

    Raises
    ------
    InputError
        Where the wall is too large for the page at the smallest scale.

    Source: running dimensions as in ISO 129-1, from memory, unverified. Checked by: tests/drawing/test_hanging.py.
    """
    face = shown.face
    scale = largest_scale((face.width, face.top - face.bottom), (wide - TOLD - SIDE, HIGH), units)
    mm = 1000 * scale.ratio
    slack = (wide - TOLD - SIDE - face.width * mm) / 2
    left = (TOLD if edge == "left" else SIDE) + slack
    top = OVER + (face.top - face.bottom) * mm
    board = Board(Frame((left, top + face.bottom * mm), mm))
    draw_face(board, shown, units)
    x0 = 0.0 if edge == "left" else face.width
    verbs: list[Verb] = [*board.verbs, *_across(board, shown, hooks, x0), *_up(board, shown, hooks, x0, edge)]
    verbs += _marks(board, hooks, bare)
    return Figure(f"Hooks on wall {face.name}", wide, top + UNDER, tuple(verbs), scale)


def _across(board: Board, shown: Shown, hooks: Sequence[DrawnHook], x0: float) -> list[Verb]:
    """Return the running dimensions from the fixed edge, over the wall; one of two hooks that stand over each other."""
    small = tokens().sizes["small"]
    base = board.frame(0.0, shown.face.top)[1] - 4.5
    origin = board.frame(x0, 0.0)[0]
    seen = {h.off: board.frame(h.x, 0.0)[0] for h in hooks}
    out: list[Verb] = [Begin("A-ANNO-DIMS")]
    if seen:
        ends = [origin, *seen.values()]
        out.append(Line(((min(ends), base), (max(ends), base)), "hair", "graphite"))
        out.append(Arc((origin, base), 1.0, 1.0, pen="medium", ink="graphite", fill="paper"))
    last = -100.0
    for off, x in sorted(seen.items(), key=lambda s: s[1]):
        lowest = max(board.frame(0.0, h.y)[1] for h in hooks if h.off == off)
        out.append(Line(((x, lowest), (x, base - 1.2)), "hair", "graphite", "ghost"))
        out.append(Line(((x - 0.6, base + 0.6), (x + 0.6, base - 0.6)), "medium", "graphite"))
        at = max(x + small * 0.35, last + small * APART)
        told = base - 2.0
        if at - small * 0.35 > x + 0.05:
            told -= SHIFTED
            out.append(Line(((x, base - 1.2), (at - small * 0.35, told + 0.4)), "hair", "graphite"))
        out.append(Text((at, told), off, small, "medium", "ink", "start", -90.0))
        last = at
    return [*out, End()]


def _up(board: Board, shown: Shown, hooks: Sequence[DrawnHook], x0: float, edge: str) -> list[Verb]:
    """Return the running heights from the floor, beside the fixed edge."""
    small = tokens().sizes["small"]
    wall, floor = board.frame(x0, shown.face.floor(x0))
    out_ = -1.0 if edge == "left" else 1.0
    base = wall + out_ * 4.0
    seen = {h.up: board.frame(0.0, h.y)[1] for h in hooks}
    out: list[Verb] = [Begin("A-ANNO-DIMS")]
    if seen:
        out.append(Line(((base, floor), (base, min(seen.values()))), "hair", "graphite"))
        out.append(Arc((base, floor), 1.0, 1.0, pen="medium", ink="graphite", fill="paper"))
    last = 1e9
    for up, y in sorted(seen.items(), key=lambda s: -s[1]):
        xs = [board.frame(h.x, 0.0)[0] for h in hooks if h.up == up]
        far = max(xs) if edge == "left" else min(xs)
        out.append(Line(((far, y), (base + out_ * 1.2, y)), "hair", "graphite", "ghost"))
        out.append(Line(((base - 0.6, y + 0.6), (base + 0.6, y - 0.6)), "medium", "graphite"))
        at = min(y + small * 0.35, last - small * APART)
        anchor: Literal["start", "end"] = "end" if edge == "left" else "start"
        told = base + out_ * 2.0
        if at < y + small * 0.35 - 0.05:
            told += out_ * SHIFTED
            out.append(
                Line(((base + out_ * 1.2, y), (told - out_ * 0.4, at - small * 0.35)), "hair", "graphite")
            )
        out.append(Text((told, at), up, small, "medium", "ink", anchor))
        last = at
    return [*out, End()]


def _marks(board: Board, hooks: Sequence[DrawnHook], bare: Sequence[DrawnFrame]) -> list[Verb]:
    small = tokens().sizes["small"]
    out: list[Verb] = [Begin("A-ANNO-TEXT")]
    for hook in hooks:
        x, y = board.frame(hook.x, hook.y)
        out.append(Line(((x - CROSS, y), (x + CROSS, y)), "medium", "slate"))
        out.append(Line(((x, y - CROSS), (x, y + CROSS)), "medium", "slate"))
        out += _ring((x, y + CROSS + MARK + 0.3), hook.mark, small)
    for frame in bare:
        x, y = board.frame(frame.x, frame.top)
        out += _ring((x, y + MARK + 1.0), frame.mark, small)
    return [*out, End()]


def _ring(center: tuple[float, float], mark: str, small: float) -> list[Verb]:
    return [
        Arc(center, MARK, MARK, pen="thin", ink="slate", fill="paper"),
        Text((center[0], center[1] + small * 0.33), mark, small, "strong", "slate", "middle"),
    ]
