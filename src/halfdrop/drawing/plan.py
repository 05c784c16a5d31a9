"""Plans: a room to scale on a sheet, with its notes, its key, and what a proposal changes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from halfdrop.base.formats import Units
from halfdrop.drawing.annotate import Annotated, annotate, draw_key, key_height
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.changes import Changes, changes
from halfdrop.drawing.dimensions import reach
from halfdrop.drawing.notes import Column, Note, draw_notes, notes_height
from halfdrop.drawing.openings import extent
from halfdrop.drawing.paper import Paper, Scale, largest_scale
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.paper import scale as scale_named
from halfdrop.drawing.scene import draw_room
from halfdrop.drawing.sheet import AIR, Parts, Sheet, TitleInfo, View, divide, sheet_of
from halfdrop.drawing.verbs import Verb
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
        For the margin, their anchors in plan metres. Those that do not fit are the sheet's `left`.
    before : ResolvedRoom, optional
        The room as found: what differs in `room` is drawn as proposed, with its ghost and one arrow.
    paper : str or Paper
        `tabloid`, `A3 portrait`, `phone` …; a narrow sheet grows in height to hold its notes.
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
    found = changes(before, room) if before is not None else Changes()

    def draw(parts: Parts) -> Drawn:
        return _drawn(room, parts, notes, found, scale, units)

    return lay_out(paper, title, notes, draw, units, onward)


def lay_out(
    paper: str | Paper,
    title: TitleInfo,
    notes: Sequence[Note],
    draw: Callable[[Parts], Drawn],
    units: Units,
    onward: str = "",
) -> Sheet:
    """Return a sheet with one drawing, its notes and its key in the margin; a narrow one grows to hold them.

    Parameters
    ----------
    paper : str or Paper
    title : TitleInfo
    notes : sequence of Note
        That the drawing carries.
    draw : callable
        Draws on a paper so divided.
    units : {"imperial", "metric"}
    onward : str
        Where notes that do not fit go on.
    """
    page = paper_named(paper) if isinstance(paper, str) else paper
    drawn = draw(divide(page, margin=bool(notes)))
    if drawn.annotated.key and not notes and not drawn.parts.narrow:
        drawn = draw(divide(page))
    for _ in range(2 if drawn.parts.narrow else 0):
        page, parts = _grown(page, drawn, notes)
        drawn = draw(parts)
    margin = [*draw_notes(drawn.annotated.margin, onward), *draw_key(drawn.annotated.key, drawn.parts.margin)]
    return sheet_of(
        page, title, units, [drawn.view], margin, drawn.parts, drawn.scale, drawn.annotated.margin.left
    )


@dataclass(frozen=True)
class Drawn:
    """A drawing laid out on a divided paper.

    Attributes
    ----------
    parts : Parts
        How the paper is divided.
    view : View
    scale : Scale
    annotated : Annotated
        What is written round it.
    height : float
        That the drawing and its dimensions take [mm].
    """

    parts: Parts
    view: View
    scale: Scale
    annotated: Annotated
    height: float


def _drawn(
    room: ResolvedRoom,
    parts: Parts,
    notes: Sequence[Note],
    found: Changes,
    scale: str | Scale | None,
    units: Units,
) -> Drawn:
    detail = not parts.narrow
    dims = reach(room, detail=detail)
    chosen, frame = fit(room, parts.field, dims, scale, units, narrow=parts.narrow)
    verbs: list[Verb] = []
    scene = draw_room(Board(frame, verbs), room, units, scale=chosen.ratio, found=found)
    annotated = annotate(scene, room, notes, frame, parts, units, detail=detail)
    _, y0, _, y1 = extent(room)
    height = (y1 - y0) * frame.scale + dims["north"] + dims["south"]
    return Drawn(parts, View(frame, (*verbs, *annotated.verbs)), chosen, annotated, height)


def _grown(page: Paper, drawn: Drawn, notes: Sequence[Note]) -> tuple[Paper, Parts]:
    """Return a narrow paper as tall as its drawing, notes and key need, and how it is divided."""
    column = drawn.parts.field.width
    below = notes_height(notes, column) + key_height(len(drawn.annotated.key))
    field = replace(drawn.parts.field, height=drawn.height)
    margin = Column(field.left, field.top + field.height + AIR, column, below)
    strip_top = margin.top + below + AIR
    bottom = page.height - drawn.parts.strip_top  # the strip and the edge under it
    return replace(page, height=strip_top + bottom), Parts(field, margin, True, strip_top)


def fit(
    room: ResolvedRoom,
    field: Column,
    dims: dict[str, float],
    scale: str | Scale | None,
    units: Units,
    head: float = 0.0,
    *,
    narrow: bool = False,
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
    narrow : bool
        True fills the width of a screen at any scale of 1 to a multiple of 5; such a sheet grows in height.
    """
    return fit_box(extent(room), field, dims, scale, units, head, narrow=narrow)


def fit_box(
    bounds: tuple[float, float, float, float],
    field: Column,
    dims: dict[str, float],
    scale: str | Scale | None,
    units: Units,
    head: float = 0.0,
    *,
    narrow: bool = False,
) -> tuple[Scale, Frame]:
    """Return the scale and the frame that stand a box (left, bottom, right, top) [m] in the middle of a field; see `fit`."""
    x0, y0, x1, y1 = bounds
    space = (
        field.width - dims["west"] - dims["east"],
        field.height - dims["north"] - dims["south"] - head,
    )
    if scale is None and narrow:
        part = max(5, 5 * math.ceil((x1 - x0) * 1000 / space[0] / 5 - 1e-9))
        chosen = Scale(f"1:{part}", 1 / part)
    elif scale is None:
        chosen = largest_scale((x1 - x0, y1 - y0), space, units)
    else:
        chosen = scale_named(scale) if isinstance(scale, str) else scale
    k = 1000 * chosen.ratio
    left = field.left + dims["west"] + (space[0] - (x1 - x0) * k) / 2
    top = field.top + head + dims["north"] + (space[1] - (y1 - y0) * k) / 2
    return chosen, Frame((left - x0 * k, top + y1 * k), k)
