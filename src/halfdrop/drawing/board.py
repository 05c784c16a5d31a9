"""The board things are drawn on: local metres in, draw verbs in paper millimetres out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field

from halfdrop.drawing.tokens import Dash, Font, Ink, Pen
from halfdrop.drawing.verbs import XY, Anchor, Arc, Area, Begin, End, Line, Text, Verb, Vertex
from halfdrop.geometry.plane import Array


@dataclass(frozen=True)
class Frame:
    """A similarity from y-up metres to y-down paper millimetres.

    Attributes
    ----------
    origin : tuple
        Where local (0, 0) falls on the paper [mm].
    scale : float
        Paper millimetres to a local metre.
    angle : float
        Turn of the local axes, counterclockwise as seen on the plan [rad].
    """

    origin: XY
    scale: float
    angle: float = 0.0

    def __call__(self, x: float, y: float) -> XY:
        """Return the paper point of a local one."""
        c, s = math.cos(self.angle) * self.scale, math.sin(self.angle) * self.scale
        return (self.origin[0] + c * x - s * y, self.origin[1] - (s * x + c * y))

    def inverse(self, point: XY) -> XY:
        """Return the local point of a paper one."""
        x, y = (point[0] - self.origin[0]) / self.scale, (self.origin[1] - point[1]) / self.scale
        c, s = math.cos(self.angle), math.sin(self.angle)
        return (c * x + s * y, c * y - s * x)

    def at(self, center: Sequence[float] | Array, angle: float = 0.0) -> Frame:
        """Return the frame of a thing that stands at `center` [m], turned by `angle` [rad]."""
        return Frame(self(float(center[0]), float(center[1])), self.scale, self.angle + angle)


@dataclass
class Board:
    """Collects verbs. Points are local to `frame`; inks may be swapped as a whole (all of a thing in
    slate).
    """

    frame: Frame
    verbs: list[Verb] = field(default_factory=list)
    swap: dict[Ink, Ink] = field(default_factory=dict)

    def to(self, center: Sequence[float] | Array, angle: float = 0.0) -> Board:
        """Return a board on the same sheet in the frame of a thing."""
        return Board(self.frame.at(center, angle), self.verbs, self.swap)

    def inked(self, swap: dict[Ink, Ink]) -> Board:
        """Return the same board with inks swapped."""
        return Board(self.frame, self.verbs, swap)

    def paper(self, vertex: Vertex) -> Vertex:
        """Return a local vertex on the paper, its bulge turned with the flip of y."""
        point = self.frame(vertex[0], vertex[1])
        return point if len(vertex) < 3 or not vertex[2] else (*point, -vertex[2])

    def ink(self, ink: Ink) -> Ink:
        """Return the ink that stands for `ink` on this board."""
        return self.swap.get(ink, ink)

    @contextmanager
    def group(self, layer: str, path: str = "") -> Iterator[None]:
        """Group what is drawn inside under a layer and a path of the job."""
        self.verbs.append(Begin(layer, path))
        yield
        self.verbs.append(End())

    def line(
        self,
        points: Iterable[Vertex],
        pen: Pen = "thin",
        ink: Ink = "ink",
        dash: Dash | None = None,
        *,
        closed: bool = False,
    ) -> None:
        """Draw a run of lines and arcs."""
        self.verbs.append(Line(tuple(self.paper(p) for p in points), pen, self.ink(ink), dash, closed))

    def area(
        self,
        *rings: Iterable[Vertex],
        fill: Ink | None = "paper",
        pen: Pen | None = "thin",
        ink: Ink = "ink",
        dash: Dash | None = None,
    ) -> None:
        """Fill a shape, and draw its edge where it has a pen."""
        paper = tuple(tuple(self.paper(p) for p in ring) for ring in rings)
        self.verbs.append(Area(paper, self.ink(fill) if fill else None, pen, self.ink(ink), dash))

    def oval(
        self,
        center: XY,
        width: float,
        depth: float,
        *,
        pen: Pen | None = "thin",
        ink: Ink = "ink",
        fill: Ink | None = None,
        dash: Dash | None = None,
        start: float = 0.0,
        sweep: float = 360.0,
        turn: float = 0.0,
    ) -> None:
        """Draw an ellipse or a part of one; angles in degrees counterclockwise on the plan."""
        scale = self.frame.scale
        whole = sweep >= 360.0
        self.verbs.append(
            Arc(
                center=self.frame(*center),
                rx=width / 2 * scale,
                ry=depth / 2 * scale,
                turn=-turn - math.degrees(self.frame.angle),
                start=0.0 if whole else -start,
                sweep=360.0 if whole else -sweep,
                pen=pen,
                ink=self.ink(ink),
                dash=dash,
                fill=self.ink(fill) if fill else None,
            )
        )

    def box(
        self,
        left: float,
        right: float,
        back: float,
        front: float,
        radius: float | Sequence[float] = 0.0,
        *,
        fill: Ink | None = "paper",
        pen: Pen | None = "thin",
        ink: Ink = "ink",
        dash: Dash | None = None,
    ) -> None:
        """Draw a rectangle with rounded corners; radii from the back left, counterclockwise [m]."""
        self.area(rounded(left, right, back, front, radius), fill=fill, pen=pen, ink=ink, dash=dash)

    def text(
        self,
        at: XY,
        text: str,
        size: float,
        font: Font = "lettering",
        ink: Ink = "ink",
        anchor: Anchor = "middle",
        turn: float = 0.0,
    ) -> None:
        """Letter a line; `at` is local, size in paper millimetres, turn in degrees clockwise on paper."""
        self.verbs.append(Text(self.frame(*at), text, size, font, self.ink(ink), anchor, turn))


#: Bulge of a quarter circle.
QUARTER = math.tan(math.pi / 8)


def rounded(
    left: float, right: float, back: float, front: float, radius: float | Sequence[float] = 0.0
) -> list[Vertex]:
    """Return a rectangle, counterclockwise from its back left corner, its corners rounded by `radius` [m]."""
    radii = [float(radius)] * 4 if isinstance(radius, int | float) else list(radius)
    limit = min(right - left, front - back) / 2
    corners = ((left, back), (right, back), (right, front), (left, front))
    into = ((0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0))
    out: list[Vertex] = []
    for (x, y), (dx, dy), r in zip(corners, into, radii, strict=True):
        r = min(r, limit)
        if r <= 0:
            out.append((x, y))
        else:
            # arrive from the corner before, leave toward the next: the arc turns a quarter between them
            ox, oy = (dy, -dx)
            out.append((x + dx * r, y + dy * r, QUARTER))
            out.append((x + ox * r, y + oy * r))
    return out
