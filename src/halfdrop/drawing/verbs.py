"""The seven draw verbs. Everything a sheet shows is a list of them, in the order it is drawn.

Coordinates are millimetres on the paper, from its top left corner, y down. A point is `(x, y)`; in a
`Line` or `Area` it may carry a bulge `(x, y, b)`: the way to the next point is then an arc, `b` the
tangent of a quarter of its sweep, positive where it turns from +x toward +y (clockwise on paper).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import Any, Literal, TypeAlias

from halfdrop.drawing.tokens import Dash, Font, Ink, Pen

Vertex: TypeAlias = tuple[float, ...]
XY: TypeAlias = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Line:
    """A run of straight lines and arcs, open or closed, drawn with a pen."""

    points: tuple[Vertex, ...]
    pen: Pen = "thin"
    ink: Ink = "ink"
    dash: Dash | None = None
    closed: bool = False


@dataclass(frozen=True)
class Area:
    """A filled shape, its edge drawn where it has a pen; further rings are holes.

    `color` is a real color, `#rrggbb`, in place of an ink: only where the room's colors are the subject.
    """

    rings: tuple[tuple[Vertex, ...], ...]
    fill: Ink | None = "paper"
    pen: Pen | None = None
    ink: Ink = "ink"
    dash: Dash | None = None
    color: str | None = None


@dataclass(frozen=True)
class Arc:
    """An ellipse or a part of one; angles in degrees from its own x axis toward its own y axis."""

    center: XY
    rx: float
    ry: float
    turn: float = 0.0
    start: float = 0.0
    sweep: float = 360.0
    pen: Pen | None = "thin"
    ink: Ink = "ink"
    dash: Dash | None = None
    fill: Ink | None = None


@dataclass(frozen=True)
class Text:
    """One line of lettering; `at` is on its baseline; `turn` in degrees, positive clockwise on paper."""

    at: XY
    text: str
    size: float
    font: Font = "lettering"
    ink: Ink = "ink"
    anchor: Anchor = "start"
    turn: float = 0.0


@dataclass(frozen=True)
class Dimension:
    """A measured length: between feet `a` and `b`, its line through `base`, its value already printed.

    `text_at` is the middle of the value's baseline; `turn` as for text.
    """

    a: XY
    b: XY
    base: XY
    text: str
    text_at: XY
    turn: float
    size: float
    ink: Ink = "graphite"


@dataclass(frozen=True)
class Begin:
    """Opens a group: what part of the job it shows (`path`), and on which layer."""

    layer: str
    path: str = ""


@dataclass(frozen=True)
class End:
    """Closes the group opened last."""


Verb: TypeAlias = Line | Area | Arc | Text | Dimension | Begin | End
VERBS = (Line, Area, Arc, Text, Dimension, Begin, End)


def to_json(verbs: Iterable[Verb]) -> list[dict[str, Any]]:
    """Return verbs as JSON-compatible objects, millimetres to 0.001, defaults left out."""
    out = []
    for verb in verbs:
        row: dict[str, Any] = {"verb": type(verb).__name__.lower()}
        for field in fields(verb):
            value = getattr(verb, field.name)
            if value != field.default:
                row[field.name] = _plain(value)
        out.append(row)
    return out


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return tidy(value)
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return value


def tidy(value: float, digits: int = 3) -> float:
    """Return a number rounded, never -0, whole numbers kept short when printed."""
    return round(float(value), digits) + 0.0


def from_json(rows: Sequence[dict[str, Any]]) -> tuple[Verb, ...]:
    """Return the verbs of `to_json`."""
    kinds = {kind.__name__.lower(): kind for kind in VERBS}
    return tuple(kinds[row["verb"]](**{k: _tuples(v) for k, v in row.items() if k != "verb"}) for row in rows)


def _tuples(value: Any) -> Any:
    return tuple(_tuples(part) for part in value) if isinstance(value, list) else value


def bulge_points(points: Sequence[Vertex], closed: bool, step: float = 0.5) -> list[XY]:
    """Return a run with its arcs taken apart into chords about `step` [mm] long."""
    out: list[XY] = []
    count = len(points)
    for i, vertex in enumerate(points):
        a = (vertex[0], vertex[1])
        out.append(a)
        bulge = vertex[2] if len(vertex) > 2 else 0.0
        if not bulge or (i == count - 1 and not closed):
            continue
        b = points[(i + 1) % count]
        center, radius, start, sweep = bulge_arc(a, (b[0], b[1]), bulge)
        parts = max(2, math.ceil(abs(sweep) * radius / step))
        for k in range(1, parts):
            t = start + sweep * k / parts
            out.append((center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)))
    return out


def bulge_arc(a: XY, b: XY, bulge: float) -> tuple[XY, float, float, float]:
    """Return center, radius, start angle and sweep [rad] of the arc from `a` to `b`."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    chord = math.hypot(dx, dy)
    sweep = 4 * math.atan(bulge)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    rise = chord * (1 - bulge * bulge) / (4 * bulge)
    center = ((a[0] + b[0]) / 2 - dy / chord * rise, (a[1] + b[1]) / 2 + dx / chord * rise)
    return center, radius, math.atan2(a[1] - center[1], a[0] - center[0]), sweep
