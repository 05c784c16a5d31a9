"""Names of things: each stands in its thing or beside it, clear of everything; else it becomes a number.

Every place is tried in one fixed order, so the same drawing is lettered the same way each time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.prepared import prep
from shapely.strtree import STRtree

from halfdrop.drawing.metrics import cap_height, text_width
from halfdrop.drawing.tokens import Font, Ink, tokens
from halfdrop.drawing.verbs import XY, Area, Begin, End, Text, Verb

#: Air round a label, and from its thing's edge when it stands beside it [mm].
AIR = 0.7
BESIDE = 1.1


@dataclass(frozen=True)
class Label:
    """A name to be lettered.

    Attributes
    ----------
    lines : tuple of str
        One line or two.
    home : BaseGeometry
        Its thing's visible shape on the paper [mm].
    path : str
        In the job document.
    ground : Ink
        What its thing is filled with: detail lines under the name are broken in that color.
    beside, inside : bool
        Whether it may stand beside its thing, and in it.
    """

    lines: tuple[str, ...]
    home: BaseGeometry
    path: str = ""
    ground: Ink = "paper"
    ink: Ink = "ink"
    font: Font = "lettering"
    beside: bool = True
    inside: bool = True


@dataclass(frozen=True)
class Stood:
    """A label in its place: middle of its box [mm], turned by a quarter or not, inside its thing or beside
    it.
    """

    label: Label
    middle: XY
    turned: bool
    inside: bool
    lines: tuple[str, ...]


@dataclass
class Lettered:
    """Labels in their places, and those that became numbers (with where the number stands)."""

    stood: list[Stood] = field(default_factory=list)
    keyed: list[tuple[Label, XY]] = field(default_factory=list)


def extent(lines: Sequence[str], font: Font = "lettering") -> tuple[float, float]:
    """Return width and height of a label's block [mm]."""
    size = tokens().sizes["small"]
    wide = max(text_width(line, size, font) for line in lines)
    return wide, cap_height(size, font) + (len(lines) - 1) * size * 1.15


def block(middle: XY, size: tuple[float, float], turned: bool, air: float = 0.0) -> Polygon:
    """Return a label's box [mm]."""
    w, h = (size[1], size[0]) if turned else size
    x, y = middle
    return box(x - w / 2 - air, y - h / 2 - air, x + w / 2 + air, y + h / 2 + air)


def place_labels(
    labels: Sequence[Label],
    floor: BaseGeometry,
    blocks: Iterable[BaseGeometry],
    edges: Iterable[BaseGeometry],
) -> Lettered:
    """Find each label a place.

    Parameters
    ----------
    labels : sequence of Label
        The most important first.
    floor : BaseGeometry
        Where names may stand beside their things [mm].
    blocks : iterable of BaseGeometry
        What no label may touch: marks, leaders, values of dimensions, walls [mm].
    edges : iterable of BaseGeometry
        Outlines of things: a name beside its own thing stays off them [mm].
    """
    done = Lettered()
    fixed = STRtree([b for b in blocks if not b.is_empty])
    lines = STRtree([e for e in edges if not e.is_empty])
    ground = prep(floor)
    taken: list[Polygon] = []

    def free(shape: Polygon) -> bool:
        return not len(fixed.query(shape, predicate="intersects")) and not any(
            shape.intersects(t) for t in taken
        )

    for label in labels:
        stood = _inside(label, free) if label.inside else None
        if stood is None and label.beside:
            stood = _beside(
                label,
                lambda s: free(s) and ground.contains(s) and not len(lines.query(s, predicate="intersects")),
            )
        if stood is None:
            spot = _number_spot(label, free)
            taken.append(block(spot, (4.0, 2.4), False, 0.2))
            done.keyed.append((label, spot))
            continue
        taken.append(block(stood.middle, extent(stood.lines, label.font), stood.turned, AIR * 0.8))
        done.stood.append(stood)
    return done


def _layouts(label: Label) -> list[tuple[tuple[str, ...], bool]]:
    """Return the ways a name may be set: one line, two lines, and each upright."""
    ways: list[tuple[str, ...]] = [label.lines]
    if len(label.lines) == 1 and " " in label.lines[0]:
        words = label.lines[0].split(" ")
        cut = min(
            range(1, len(words)), key=lambda k: abs(len(" ".join(words[:k])) - len(" ".join(words[k:])))
        )
        ways.append((" ".join(words[:cut]), " ".join(words[cut:])))
    return [(way, False) for way in ways] + [(way, True) for way in ways]


def _inside(label: Label, free: Callable[[Polygon], bool]) -> Stood | None:
    home = prep(label.home)
    x0, y0, x1, y1 = label.home.bounds
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    for lines, turned in _layouts(label):
        size = extent(lines, label.font)
        w, h = (size[1], size[0]) if turned else size
        if w + 2 * AIR > x1 - x0 or h + 2 * AIR > y1 - y0:
            continue
        for middle in _grid(cx, cy, (x1 - x0 - w) / 2 - AIR, (y1 - y0 - h) / 2 - AIR):
            shape = block(middle, size, turned, AIR)
            if home.contains(shape) and free(shape):
                return Stood(label, middle, turned, True, lines)
    return None


def _grid(cx: float, cy: float, rx: float, ry: float) -> list[XY]:
    """Return places about a center, the nearest first, out to `rx`, `ry`."""
    nx, ny = min(int(rx / 1.5), 24), min(int(ry / 1.5), 24)
    xs = [rx * k / nx for k in range(-nx, nx + 1)] if nx else [0.0]
    ys = [ry * k / ny for k in range(-ny, ny + 1)] if ny else [0.0]
    spots = [(dx, dy) for dx in xs for dy in ys]
    spots.sort(key=lambda s: (round(s[0] ** 2 + s[1] ** 2, 6), s[1], s[0]))
    return [(cx + dx, cy + dy) for dx, dy in spots]


def _beside(label: Label, free: Callable[[Polygon], bool]) -> Stood | None:
    x0, y0, x1, y1 = label.home.bounds
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    for lines, turned in _layouts(label):
        size = extent(lines, label.font)
        w, h = (size[1], size[0]) if turned else size
        for off in (BESIDE, BESIDE + 1.2):
            below, above = y1 + off + h / 2, y0 - off - h / 2
            right, left = x1 + off + w / 2, x0 - off - w / 2
            spots = [(cx, below), (cx, above), (right, cy), (left, cy)]
            spots += [(right, y1 - h / 2), (left, y1 - h / 2), (right, y0 + h / 2), (left, y0 + h / 2)]
            spots += [(x0 + w / 2, below), (x1 - w / 2, below), (x0 + w / 2, above), (x1 - w / 2, above)]
            for middle in spots:
                if free(block(middle, size, turned, AIR * 0.8)):
                    return Stood(label, middle, turned, False, lines)
    return None


def _number_spot(label: Label, free: Callable[[Polygon], bool]) -> XY:
    """Return where a number stands: on its thing, else half on it, else at its middle."""
    shape = label.home
    x0, y0, x1, y1 = shape.bounds
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    point = shape.representative_point()
    spots = [(point.x, point.y), *_grid(cx, cy, (x1 - x0) / 2 + 4, (y1 - y0) / 2 + 4)]
    home = prep(shape)
    for test in (home.contains, home.intersects):
        for spot in spots:
            area = block(spot, (3.6, 2.3), False, 0.2)
            if test(area) and free(area):
                return spot
    return spots[0]


def draw_labels(lettered: Lettered, first_key: int) -> tuple[list[Verb], list[tuple[int, str]]]:
    """Return the labels as verbs, and the key: number and name of each that found no place."""
    look = tokens()
    size = look.sizes["small"]
    verbs: list[Verb] = []
    for s in lettered.stood:
        wide, high = extent(s.lines, s.label.font)
        verbs.append(Begin("A-ANNO-TEXT", s.label.path))
        if s.inside:
            ring = tuple(block(s.middle, (wide, high), s.turned, 0.45).exterior.coords)[:-1]
            verbs.append(Area((ring,), s.label.ground))
        cap = cap_height(size, s.label.font)
        x, y = s.middle
        for k, line in enumerate(s.lines):
            base = -high / 2 + cap + k * size * 1.15
            at = (x + base, y) if s.turned else (x, y + base)
            verbs.append(
                Text(at, line, size, s.label.font, s.label.ink, "middle", -90.0 if s.turned else 0.0)
            )
        verbs.append(End())
    key: list[tuple[int, str]] = []
    for k, (label, spot) in enumerate(lettered.keyed):
        number = first_key + k
        key.append((number, " ".join(label.lines)))
        text = str(number)
        wide = text_width(text, size, "medium")
        ring = tuple(block(spot, (wide, cap_height(size)), False, 0.35).exterior.coords)[:-1]
        at = (spot[0], spot[1] + cap_height(size) / 2)
        verbs += [
            Begin("A-ANNO-TEXT", label.path),
            Area((ring,), label.ground),
            Text(at, text, size, "medium", "graphite", "middle"),
            End(),
        ]
    return verbs, key


def thread(points: Sequence[XY], wide: float = 0.4) -> BaseGeometry:
    """Return a leader or an edge as a shape that labels stay off [mm]."""
    return LineString(points).buffer(wide, cap_style="flat") if len(points) > 1 else Polygon()
