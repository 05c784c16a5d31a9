"""Cut walls with their poché, broken where an opening is."""

from __future__ import annotations

from collections.abc import Iterable

from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.drawing.board import Board
from halfdrop.drawing.verbs import XY
from halfdrop.room import ResolvedRoom, WallOpening

#: Thickness a wall is drawn with, outward of the taped face [m]; nobody taped it (a stud wall with boards
#: both sides).
THICK = 0.12
#: Scales larger than this hatch their walls; smaller ones fill them.
HATCH_FROM = 1 / 26
#: Distance of hatch lines [mm].
HATCH_STEP = 1.6


def gap(opening: WallOpening, thick: float = THICK) -> Polygon:
    """Return the hole an opening cuts through its wall [m]."""
    out = -thick * 1.5 * opening.wall.inward
    into = 1e-3 * opening.wall.inward
    a, b = opening.start, opening.end
    return Polygon([a + into, b + into, b + out, a + out])


def wall_shapes(room: ResolvedRoom, thick: float = THICK) -> list[Polygon]:
    """Return the cut walls as shapes [m], from left to right."""
    band = room.outline.buffer(thick, join_style="mitre", mitre_limit=2.5).difference(room.outline)
    for opening in room.openings.values():
        band = band.difference(gap(opening, thick))
    return sorted(polygons(band), key=lambda p: tuple(round(v, 6) for v in p.bounds))


def polygons(shape: BaseGeometry) -> list[Polygon]:
    """Return the polygons of a shape, each started and wound the same way every run."""
    parts: Iterable[BaseGeometry] = shape.geoms if hasattr(shape, "geoms") else [shape]
    return [p.normalize() for p in parts if isinstance(p, Polygon) and p.area > 1e-9]


def ring(coords: Iterable[Iterable[float]]) -> list[XY]:
    """Return a closed ring's points without the repeated last one."""
    points = [(float(p[0]), float(p[1])) for p in map(tuple, coords)]
    return points[:-1]


def draw_walls(board: Board, room: ResolvedRoom, scale: float, thick: float = THICK) -> None:
    """Draw the walls: cut faces heavy, filled at small scales, hatched at large ones."""
    shapes = wall_shapes(room, thick)
    hatched = scale >= HATCH_FROM
    with board.group("A-WALL-PATT"):
        for shape in shapes:
            rings = [ring(shape.exterior.coords), *(ring(i.coords) for i in shape.interiors)]
            board.area(*rings, fill="wash", pen=None)
            if hatched:
                for start, end in hatch_lines(shape, HATCH_STEP / board.frame.scale):
                    board.line([start, end], "hair", "graphite")
    with board.group("A-WALL", f"{room.path}/survey/walls"):
        for shape in shapes:
            for part in (shape.exterior, *shape.interiors):
                board.line(ring(part.coords), "heavy", closed=True)


def hatch_lines(shape: Polygon | MultiPolygon, step: float) -> list[tuple[XY, XY]]:
    """Return 45° lines across a shape, `step` apart [same unit]."""
    from shapely.geometry import LineString

    x0, y0, x1, y1 = shape.bounds
    pitch = step * 2**0.5
    reach = (x1 - x0) + (y1 - y0)
    lines: list[tuple[XY, XY]] = []
    first = int((x0 - y1) // pitch)
    last = int((x1 - y0) // pitch) + 1
    for k in range(first, last + 1):
        c = k * pitch  # x - y = c
        line = LineString([(c + y0 - reach, y0 - reach), (c + y1 + reach, y1 + reach)])
        cut = shape.intersection(line)
        parts = cut.geoms if hasattr(cut, "geoms") else [cut]
        for part in parts:
            if part.geom_type == "LineString" and part.length > step * 0.2:
                (ax, ay), (bx, by) = part.coords[0], part.coords[-1]
                lines.append(((ax, ay), (bx, by)))
    return lines
