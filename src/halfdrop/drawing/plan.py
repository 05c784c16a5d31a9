"""Plans: a room to scale on a sheet, with its notes, its key, and what a proposal changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.changes import Changes, changes, mark_disk
from halfdrop.drawing.dimensions import draw_dimensions, reach
from halfdrop.drawing.labels import draw_labels, place_labels, thread
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import (
    GAP,
    INDENT,
    RING,
    SECOND,
    Column,
    Margin,
    Note,
    draw_notes,
    line_height,
    place_notes,
)
from halfdrop.drawing.paper import Paper, Scale, largest_scale
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.paper import scale as scale_named
from halfdrop.drawing.scene import Scene, draw_room
from halfdrop.drawing.sheet import Parts, Sheet, TitleInfo, View, divide, heading, sheet_of
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Begin, End, Text, Verb
from halfdrop.drawing.walls import THICK
from halfdrop.room import ResolvedRoom


def plan_sheet(
    room: ResolvedRoom,
    *,
    title: TitleInfo,
    notes: Sequence[Note] = (),
    before: ResolvedRoom | None = None,
    paper: str | Paper = "tabloid",
    scale: str | Scale | None = None,
    units: Units = "imperial",
    onward: str = "",
) -> Sheet:
    """Return the plan of a room as a sheet.

    Parameters
    ----------
    room : ResolvedRoom
        As it is to be drawn.
    title : TitleInfo
        For the title strip.
    notes : sequence of Note
        For the margin, their anchors in plan metres.
    before : ResolvedRoom, optional
        The room as found: what differs in `room` is drawn as proposed, with its ghost and one arrow.
    paper : str or Paper
        `tabloid`, `A3 portrait`, `phone` …
    scale : str or Scale, optional
        By default the largest standard scale of the units that fits.
    units : {"imperial", "metric"}
    onward : str
        Where notes that do not fit go on, such as `sheet 4`.

    Raises
    ------
    InputError
        Where the paper or scale is not known, or the room does not fit.
    """
    page = paper_named(paper) if isinstance(paper, str) else paper
    found = changes(before, room) if before is not None else Changes()
    parts = divide(page)
    dims = reach(room)
    chosen, frame = fit(room, parts.field, dims, scale, units)
    verbs: list[Verb] = []
    board = Board(frame, verbs)
    scene = draw_room(board, room, units, scale=chosen.ratio, found=found)
    lettering = annotate(scene, room, notes, frame, parts, units)
    view = View(frame, (*verbs, *lettering.verbs))
    margin, key = lettering.margin, lettering.key
    drawn = [*draw_notes(margin, onward), *draw_key(key, parts.margin)]
    return sheet_of(page, title, units, [view], drawn, parts, chosen, margin.left)


def fit(
    room: ResolvedRoom,
    field: Column,
    dims: dict[str, float],
    scale: str | Scale | None,
    units: Units,
    head: float = 0.0,
) -> tuple[Scale, Frame]:
    """Return the scale and the frame that stand a room in the middle of a field, its dimensions round it.

    Parameters
    ----------
    room : ResolvedRoom
    field : Column
        On the paper [mm].
    dims : mapping
        Space for dimensions on each side [mm].
    scale : str or Scale, optional
        The largest that fits where not given.
    units : {"imperial", "metric"}
    head : float
        Space kept at the top for a heading [mm].
    """
    x0, y0, x1, y1 = room.outline.buffer(THICK, join_style="mitre", mitre_limit=2.5).bounds
    space = (
        field.width - dims["west"] - dims["east"],
        field.height - dims["north"] - dims["south"] - head,
    )
    if scale is None:
        chosen = largest_scale((x1 - x0, y1 - y0), space, units)
    else:
        chosen = scale_named(scale) if isinstance(scale, str) else scale
    k = 1000 * chosen.ratio
    left = field.left + dims["west"] + (space[0] - (x1 - x0) * k) / 2
    top = field.top + head + dims["north"] + (space[1] - (y1 - y0) * k) / 2
    return chosen, Frame((left - x0 * k, top + y1 * k), k)


@dataclass(frozen=True)
class Annotated:
    """Dimensions and names as verbs, the margin's notes, and the key."""

    verbs: tuple[Verb, ...]
    margin: Margin
    key: tuple[tuple[int, str], ...]


def annotate(
    scene: Scene, room: ResolvedRoom, notes: Sequence[Note], frame: Frame, parts: Parts, units: Units
) -> Annotated:
    """Place notes, dimensions and names, in that order: each stays off what stands already.

    A name that finds no place becomes a number; the notes then make way for the key under them.
    """
    anchors = [frame(*note.anchor) for note in notes]
    first = max((note.number for note in notes), default=0) + 1
    assert scene.floor is not None
    keyed = 0
    for _ in range(4):
        column = replace(parts.margin, height=parts.margin.height - key_height(keyed))
        margin = place_notes(notes, anchors, column, leaders=not parts.narrow)
        stood = mark_shapes(margin)
        sizes = draw_dimensions(frame, room, units, blocks=stood)
        lettered = place_labels(scene.labels, scene.floor, [*scene.blocks, *stood, *sizes.boxes], scene.edges)
        if len(lettered.keyed) <= keyed:
            break
        keyed = len(lettered.keyed)
    verbs, key = draw_labels(lettered, first)
    return Annotated((*sizes.verbs, *verbs), margin, tuple(key))


def mark_shapes(margin: Margin) -> list[BaseGeometry]:
    """Return marks and leaders as shapes that lettering stays off [mm]."""
    shapes: list[BaseGeometry] = [
        mark_disk(spot, RING + (SECOND if note.grade == "hazard" else 0.0) + 0.5)
        for note, spot in margin.marks
    ]
    for placed in margin.placed:
        shapes += [thread(pair, 0.5) for pair in zip(placed.leader, placed.leader[1:], strict=False)]
    return shapes


def key_height(count: int) -> float:
    """Return the height of a key of so many lines [mm]."""
    return 0.0 if not count else (count + 1) * line_height() + 2 * GAP


def draw_key(key: Sequence[tuple[int, str]], column: Column) -> list[Verb]:
    """Return the key at the foot of the margin: number and name of each thing that could not be lettered in place."""
    if not key:
        return []
    size, high = tokens().sizes["small"], line_height()
    top = column.top + column.height - key_height(len(key)) + GAP
    out: list[Verb] = [Begin("A-ANNO-TEXT"), *heading("Key", (column.left, top + high * 0.8), "small")]
    for k, (number, name) in enumerate(key):
        base = top + high * (k + 1.8)
        out.append(Text((column.left + INDENT - 2.2, base), str(number), size, "medium", "graphite", "end"))
        shown = name
        while text_width(shown, size) > column.width - INDENT and len(shown) > 1:
            shown = shown[:-2].rstrip() + "…"
        out.append(Text((column.left + INDENT, base), shown, size, "lettering", "ink"))
    return [*out, End()]
