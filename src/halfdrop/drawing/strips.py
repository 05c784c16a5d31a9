"""A papered wall to scale, as a person in the room faces it: strips numbered as they are hung, plumb line, openings, match."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from halfdrop.base.formats import Units
from halfdrop.drawing.figure import Figure, chain_across, chain_up, lettered
from halfdrop.drawing.metrics import cap_height, text_width
from halfdrop.drawing.paper import Scale, largest_scale
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import XY, Anchor, Area, Begin, End, Line, Text, Verb

#: From a place on the wall [m] to the paper [mm].
At: TypeAlias = Callable[[float, float], XY]
#: A part of a face: left, right, bottom, top [m].
Box: TypeAlias = tuple[float, float, float, float]
#: Room left of the wall for its height, over it for the corners' names, under it for the chains [mm].
LEFT = 13.0
OVER = 6.0
UNDER = 15.0
#: Highest wall on the page [mm].
HIGH = 84.0


@dataclass(frozen=True)
class DrawnHole:
    """An opening in the face: its box [m], and what it is called."""

    path: str
    name: str
    left: float
    right: float
    bottom: float
    top: float


@dataclass(frozen=True)
class DrawnStrip:
    """What one wall shows of one strip.

    Attributes
    ----------
    order : int
        The how-manyth it is hung.
    left, right : float
        On this wall [m].
    parts : tuple of (float, float)
        Bottom and top of each of its lengths here [m].
    mark : float or None
        Height of one mark of the pattern on it [m]; None where nothing is to match.
    """

    order: int
    left: float
    right: float
    parts: tuple[tuple[float, float], ...]
    mark: float | None = None


@dataclass(frozen=True)
class DrawnWall:
    """A wall's face as it is drawn.

    Attributes
    ----------
    name, path : str
        As the survey has it; its place in the document.
    corners : (str, str)
        At its left and right end.
    length : float
        [m].
    heights : (float, float)
        Floor to ceiling at its left and right end [m].
    holes, strips : tuple
        Openings; strips from left to right.
    repeat : float
        Of the pattern [m]; 0 where there is none.
    plumb : float or None
        Where the plumb line stands, from the left end [m].
    plumb_from : {"left", "right"}
        The corner it is measured from.
    mismatch : float or None
        Where the pattern may fail to meet [m].
    texts : dict
        Printed lengths: `length`, `left`, `right`, `plumb`.
    """

    name: str
    path: str
    corners: tuple[str, str]
    length: float
    heights: tuple[float, float]
    holes: tuple[DrawnHole, ...]
    strips: tuple[DrawnStrip, ...]
    repeat: float = 0.0
    plumb: float | None = None
    plumb_from: str = "left"
    mismatch: float | None = None
    texts: tuple[tuple[str, str], ...] = ()

    def text(self, what: str) -> str:
        """Return a printed length."""
        return dict(self.texts).get(what, "")


def common_scale(
    walls: Sequence[DrawnWall], units: Units, *, wide: float = 172.0, high: float = HIGH
) -> Scale:
    """Return the largest standard scale at which each of some walls stands on the page.

    Raises
    ------
    InputError
        Where one is too large at the smallest.
    """
    size = (max(w.length for w in walls), max(max(w.heights) for w in walls))
    return largest_scale(size, (wide - LEFT - 3, high), units)


def wall_figure(wall: DrawnWall, scale: Scale) -> Figure:
    """Return a wall drawn at a scale, with the strips of its paper where it has any; as wide as it needs.

    Source: our own. Checked by: tests/drawing/test_strips.py.
    """
    mm = 1000 * scale.ratio
    top = OVER + max(wall.heights) * mm
    wide = max(LEFT + wall.length * mm + 3.0, 44.0)

    def at(x: float, y: float) -> XY:
        return (LEFT + x * mm, top - y * mm)

    face = (at(0, 0), at(wall.length, 0), at(wall.length, wall.heights[1]), at(0, wall.heights[0]))
    verbs: list[Verb] = [Begin("A-ELEV-OTLN", wall.path), Area((face,), "paper", None)]
    for strip in wall.strips:
        verbs += _strip(wall, strip, at)
    for hole in wall.holes:
        verbs += _hole(hole, at, mm)
    for strip in wall.strips:
        verbs += _number(wall, strip, at)
    verbs.append(Line((face[0], face[3], face[2], face[1]), "medium"))
    verbs.append(Line(((face[0][0] - 2, top), (face[1][0] + 2, top)), "heavy"))
    verbs += _lines(wall, at)
    small = tokens().sizes["small"]
    for name, point in zip(wall.corners, (face[3], face[2]), strict=True):
        verbs.append(Text((point[0], point[1] - 1.8), name, small, "strong", "ink", "middle"))
    verbs.append(End())
    verbs += _chains(wall, at, top)
    return Figure(f"Wall {wall.name}", wide, top + UNDER, tuple(verbs), scale)


def unfolded_figure(
    walls: Sequence[DrawnWall], units: Units, *, wide: float = 172.0, high: float = 30.0
) -> Figure:
    """Return walls side by side at one scale, in rows, each with its openings and its two lengths.

    Raises
    ------
    InputError
        Where one is too large at the smallest scale.

    Source: our own. Checked by: tests/drawing/test_strips.py.
    """
    small, gap = tokens().sizes["small"], 7.0
    scale = common_scale(walls, units, wide=wide + LEFT, high=high)
    mm = 1000 * scale.ratio
    tall = max(max(wall.heights) for wall in walls) * mm
    verbs: list[Verb] = []
    left, floor = 0.0, OVER + tall
    for wall in walls:
        label = " · ".join((wall.name, wall.text("length"), wall.text("left")))
        long = max(wall.length * mm, text_width(label, small))
        if left > 0 and left + long > wide:
            left, floor = 0.0, floor + tall + OVER + 7.0

        def at(x: float, y: float, left: float = left, floor: float = floor) -> XY:
            return (left + x * mm, floor - y * mm)

        face = (at(0, 0), at(0, wall.heights[0]), at(wall.length, wall.heights[1]), at(wall.length, 0))
        verbs += [Begin("A-ELEV-OTLN", wall.path), Area((face,), "wash", "thin")]
        for hole in wall.holes:
            verbs += _hole(hole, at, mm)
        verbs.append(Line((face[0], face[3]), "wide"))
        verbs.append(Text((left, floor + 4.4), label, small, "lettering", "graphite"))
        verbs.append(End())
        left += long + gap
    name = f"Walls {', '.join(wall.name for wall in walls)}"
    return Figure(name, wide, floor + 6.0, tuple(verbs), scale)


def _strip(wall: DrawnWall, strip: DrawnStrip, at: At) -> list[Verb]:
    out: list[Verb] = []
    for bottom, top in strip.parts:
        ring = tuple(
            at(x, y)
            for x, y in ((strip.left, bottom), (strip.right, bottom), (strip.right, top), (strip.left, top))
        )
        out.append(Area((ring,), "wash" if strip.order % 2 else "paper", "hair", "graphite"))
        if strip.mark is None or not wall.repeat:
            continue
        first = math.ceil((bottom - strip.mark) / wall.repeat - 1e-9)
        last = math.floor((top - strip.mark) / wall.repeat + 1e-9)
        reach = min(0.06, (strip.right - strip.left) / 4)
        for k in range(first, last + 1):
            y = strip.mark + k * wall.repeat
            for a, b in ((strip.left, strip.left + reach), (strip.right - reach, strip.right)):
                out.append(Line((at(a, y), at(b, y)), "medium", "slate"))
    return out


def _hole(hole: DrawnHole, at: At, mm: float) -> list[Verb]:
    ring = tuple(
        at(x, y)
        for x, y in (
            (hole.left, hole.bottom),
            (hole.right, hole.bottom),
            (hole.right, hole.top),
            (hole.left, hole.top),
        )
    )
    out: list[Verb] = [Begin("A-GLAZ", hole.path), Area((ring,), "paper", "medium")]
    if hole.bottom > 0 and (hole.right - hole.left) * mm > 9:
        inset = 0.05
        inner = (hole.left + inset, hole.right - inset, hole.bottom + inset, hole.top - inset)
        if inner[1] > inner[0] and inner[3] > inner[2]:
            ring = tuple(
                at(x, y)
                for x, y in (
                    (inner[0], inner[2]),
                    (inner[1], inner[2]),
                    (inner[1], inner[3]),
                    (inner[0], inner[3]),
                )
            )
            out.append(Line(ring, "hair", "graphite", closed=True))
    x, y = at(hole.left, (hole.bottom + hole.top) / 2)
    wide = (hole.right - hole.left) * mm
    out += lettered([hole.name], (x + 2.2, y - 2), wide - 4.0, 9.0, ink="graphite")
    return [*out, End()]


def _number(wall: DrawnWall, strip: DrawnStrip, at: At) -> list[Verb]:
    """Return a strip's number in the largest part of it that no opening covers and that is wide enough for it."""
    look = tokens().sizes
    text = str(strip.order)
    mm = at(1.0, 0.0)[0] - at(0.0, 0.0)[0]
    free = [(strip.left, strip.right, bottom, top) for bottom, top in strip.parts]
    for hole in wall.holes:
        free = [part for box in free for part in _around(box, hole)]
    for size in (look["lead"], look["small"]):
        need = (text_width(text, size, "strong") + 0.6) / mm
        fits = [box for box in free if box[1] - box[0] >= need and (box[3] - box[2]) * mm > size]
        if fits:
            left, right, low, up = max(fits, key=lambda b: (b[1] - b[0]) * (b[3] - b[2]))
            x, y = at((left + right) / 2, low + 0.62 * (up - low))
            return [Text((x, y + cap_height(size) / 2), text, size, "strong", "ink", "middle")]
    return []


def _around(box: Box, hole: DrawnHole) -> list[Box]:
    """Return what an opening leaves of a part of a strip: beside it, over it, under it; all of it where they do not meet."""
    left, right, low, up = box
    a, b = max(left, hole.left), min(right, hole.right)
    c, d = max(low, hole.bottom), min(up, hole.top)
    if b - a <= 0 or d - c <= 0:
        return [box]
    parts = [(left, a, low, up), (b, right, low, up), (left, right, low, c), (left, right, d, up)]
    return [p for p in parts if p[1] - p[0] > 1e-9 and p[3] - p[2] > 1e-9]


def _lines(wall: DrawnWall, at: At) -> list[Verb]:
    out: list[Verb] = []
    small = tokens().sizes["small"]
    if wall.plumb is not None:
        x, y = at(wall.plumb, max(wall.heights))
        foot = at(wall.plumb, 0.0)
        out.append(Line(((x, y - 2.5), (foot[0], foot[1] + 2.5)), "medium", "pencil", "overhead"))
        out.append(Text((x + 1.0, y - 2.2), "plumb line", small, "medium", "pencil"))
    if wall.mismatch is not None:
        x, y = at(wall.mismatch, max(wall.heights))
        foot = at(wall.mismatch, 0.0)
        out.append(Line(((x, y), foot), "medium", "pencil", "fine"))
        late = wall.mismatch > wall.length / 2
        side: Anchor = "end" if late else "start"
        way = -1.0 if late else 1.0
        out.append(Text((x + way, foot[1] - 1.6), "may not match", small, "medium", "pencil", side))
    return out


def _chains(wall: DrawnWall, at: At, top: float) -> list[Verb]:
    """Return the plumb line and the wall along the bottom, the height at the left."""
    left, right = at(0, 0)[0], at(wall.length, 0)[0]
    out: list[Verb] = [Begin("A-ANNO-DIMS")]
    row = top + 6.0
    if wall.plumb is not None and 1e-4 < wall.plumb < wall.length - 1e-4:
        x = at(wall.plumb, 0)[0]
        feet = (left, x) if wall.plumb_from == "left" else (x, right)
        out += chain_across(feet, top, row, [wall.text("plumb")])
        row += 5.5
    out += chain_across((left, right), top, row, [wall.text("length")])
    out += chain_up((top, at(0, wall.heights[0])[1]), left, left - 5.0, [wall.text("left")])
    if wall.text("right") and wall.text("right") != wall.text("left"):
        small = tokens().sizes["small"]
        x, y = at(wall.length, wall.heights[1])
        out.append(Text((x - 1.0, y + 4.0), wall.text("right"), small, "lettering", "graphite", "end"))
    return [*out, End()]
