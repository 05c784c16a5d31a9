"""Walls of a finish in paper ready to be drawn: faced from the room, strips in hanging order, the plumb line."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from halfdrop.drawing.figure import Figure
from halfdrop.drawing.strips import DrawnHole, DrawnStrip, DrawnWall, common_scale, wall_figure
from halfdrop.job.finishes import Paper
from halfdrop.job.part import corners_of
from halfdrop.room import ResolvedRoom
from halfdrop.room.face import runs_right
from halfdrop.services.trade_words import Say
from halfdrop.walls import PaperRoom, SettingOut
from halfdrop.walls.chain import Placed
from halfdrop.walls.cuts import Cut
from halfdrop.walls.faces import Face


def hanging_order(run: SettingOut) -> dict[int, int]:
    """Return the how-manyth each strip of a run is hung, by its index: from the first one way, then the other way."""
    indices = sorted(column.index for column in run.columns)
    forth = [i for i in indices if i >= 0]
    back = [i for i in reversed(indices) if i < 0]
    return {index: n for n, index in enumerate([*forth, *back], 1)}


def paper_walls(room: ResolvedRoom, paper: Paper, counted: PaperRoom, say: Say) -> tuple[DrawnWall, ...]:
    """Return every wall of one finish ready to be drawn, run by run, in walking order."""
    out: list[DrawnWall] = []
    for run in counted.runs:
        order = hanging_order(run)
        cuts: dict[int, list[Cut]] = {}
        lead = f"{counted.path}/{run.chain.name}/"
        for cut in counted.cuts:
            if cut.id.startswith(lead):
                cuts.setdefault(cut.column, []).append(cut)
        out += [_wall(room, paper, run, at, order, cuts, counted.path, say) for at in run.chain.placed]
    return tuple(out)


def drawn_face(room: ResolvedRoom, face: Face, path: str, say: Say) -> DrawnWall:
    """Return a wall's face as a person in the room faces it, bare."""
    flip = not runs_right(room.wall(face.name))
    first, second = corners_of(face.name)
    names, heights = (first, second), (face.height_start, face.height_end)
    if flip:
        names, heights = (second, first), (face.height_end, face.height_start)
    holes = tuple(
        DrawnHole(
            h.path, _hole_name(room, h.id), *_turned(h.start, h.end, face.length, flip), h.bottom, h.top
        )
        for h in face.holes
    )
    texts = (("length", say.fix(face.length)), ("left", say.fix(heights[0])), ("right", say.fix(heights[1])))
    return DrawnWall(face.name, path, names, face.length, heights, holes, (), texts=texts)


def _hole_name(room: ResolvedRoom, key: str) -> str:
    model = room.model.openings[key]
    return str(model.name or key.replace("-", " "))


def _turned(low: float, high: float, length: float, flip: bool) -> tuple[float, float]:
    return (length - high, length - low) if flip else (low, high)


def _wall(room: ResolvedRoom, paper: Paper, run: SettingOut, placed: Placed, order: dict[int, int],
          cuts: dict[int, list[Cut]], path: str, say: Say) -> DrawnWall:  # fmt: skip
    face, repeat = placed.face, float(paper.repeat or 0.0)
    flip = not runs_right(room.wall(face.name))
    strips = []
    for column in run.columns:
        for low, high in run.chain.spans(column.start, column.end):
            a, b = max(low, placed.start), min(high, placed.end)
            if b - a < 1e-6:
                continue
            here = cuts.get(column.index, [])
            parts = tuple((cut.bottom, cut.top) for cut in here)
            mark = _mark(here[0], repeat, say) if here and repeat else None
            left, right = _turned(a - placed.start, b - placed.start, face.length, flip)
            strips.append(DrawnStrip(order[column.index], left, right, parts, mark))
    wall = drawn_face(room, face, path, say)
    wall = replace(wall, strips=tuple(sorted(strips, key=lambda s: s.left)), repeat=repeat)
    plumb = plumb_of(room, run)
    if plumb.wall == face.name:
        texts = (*wall.texts, ("plumb", say.fix(plumb.off)))
        wall = replace(wall, plumb=plumb.x, plumb_from=plumb.side, texts=texts)
    if run.mismatch is not None:
        name, along = run.chain.locate(run.mismatch.at)
        if name == face.name:
            wall = replace(wall, mismatch=face.length - along if flip else along)
    return wall


def _mark(cut: Cut, repeat: float, say: Say) -> float:
    """Return the height of one mark of the pattern on a strip [m]: a phase is counted down from the mark to the cut's top edge."""
    trim = (cut.length - (cut.top - cut.bottom)) / 2
    return cut.top + trim + cut.phase


@dataclass(frozen=True)
class Plumb:
    """Where the plumb line stands: its wall, from the wall's left end as faced, and off the nearer corner [m]."""

    wall: str
    x: float
    side: Literal["left", "right"]
    corner: str
    off: float


def plumb_of(room: ResolvedRoom, run: SettingOut) -> Plumb:
    """Return where the plumb line of a run stands: at the first strip's near edge, dimensioned from the nearer corner."""
    first = next(column for column in run.columns if column.index == 0)
    name, along = run.chain.locate(first.start)
    length, corners = run.chain.at(name).face.length, corners_of(name)
    if not runs_right(room.wall(name)):
        along, corners = length - along, (corners[1], corners[0])
    if along <= length / 2 + 1e-9:
        return Plumb(name, along, "left", corners[0], along)
    return Plumb(name, along, "right", corners[1], length - along)


def paper_figures(room: ResolvedRoom, paper: Paper, counted: PaperRoom, say: Say) -> tuple[Figure, ...]:
    """Return every wall of one finish drawn with its strips, all at one scale."""
    walls = paper_walls(room, paper, counted, say)
    scale = common_scale(walls, say.units)
    return tuple(wall_figure(wall, scale) for wall in walls)
