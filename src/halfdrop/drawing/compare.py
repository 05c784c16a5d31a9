"""Before and after: the room as found and as proposed, side by side at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from halfdrop.base.formats import Units
from halfdrop.drawing.annotate import annotate, draw_key, key_height
from halfdrop.drawing.board import Board
from halfdrop.drawing.changes import Changes, changes
from halfdrop.drawing.dimensions import reach
from halfdrop.drawing.notes import Column, Note, draw_notes
from halfdrop.drawing.openings import extent
from halfdrop.drawing.paper import Paper, Scale
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.plan import fit
from halfdrop.drawing.scene import draw_room
from halfdrop.drawing.sheet import AIR, Parts, Sheet, TitleInfo, View, divide, heading, sheet_of
from halfdrop.drawing.verbs import Begin, End, Verb
from halfdrop.room import ResolvedRoom

#: Space over each view for its heading [mm].
HEAD = 9.0


def before_after_sheet(
    before: ResolvedRoom,
    after: ResolvedRoom,
    *,
    title: TitleInfo,
    notes: Sequence[Note] = (),
    paper: str | Paper = "tabloid",
    scale: str | Scale | None = None,
    units: Units = "imperial",
    headings: tuple[str, str] = ("As found", "As proposed"),
) -> Sheet:
    """Return a room as found and as proposed on one sheet.

    The two stand side by side, or one over the other where the sheet is upright; both at the larger scale
    that fits both.

    Parameters
    ----------
    before, after : ResolvedRoom
        The same room in two states.
    title : TitleInfo
    notes : sequence of Note
        Marked by number on the room as found; their text belongs on the plan's own sheet.
    paper : str or Paper
    scale : str or Scale, optional
    units : {"imperial", "metric"}
    headings : tuple of str
        Over the two views.

    Raises
    ------
    InputError
        Where the rooms do not fit.
    """
    page = paper_named(paper) if isinstance(paper, str) else paper
    parts = divide(page, margin=False)
    halves = _halves(parts.field)
    states = ((before, Changes()), (after, changes(before, after)))
    dims = [reach(room, detail=False) for room, _ in states]
    if scale is None:
        fits = (
            fit(room, half, dim, None, units, HEAD)[0]
            for (room, _), half, dim in zip(states, halves, dims, strict=True)
        )
        scale = min(fits, key=lambda s: s.ratio)
    keyed = 0
    for _ in range(3):
        views, margin, count = _views(states, halves, dims, scale, units, notes, headings, keyed)
        if count <= keyed:
            break
        keyed = count
    chosen = fit(before, halves[0], dims[0], scale, units, HEAD)[0]
    return sheet_of(page, title, units, views, margin, parts, chosen)


def _halves(field: Column) -> tuple[Column, Column]:
    """Return the two parts of a field: left and right, or upper and lower where it is taller than wide."""
    if field.width >= field.height:
        half = (field.width - 2 * AIR) / 2
        return (
            replace(field, width=half),
            replace(field, left=field.left + half + 2 * AIR, width=half),
        )
    half = (field.height - AIR) / 2
    return replace(field, height=half), replace(field, top=field.top + half + AIR, height=half)


def _views(
    states: Sequence[tuple[ResolvedRoom, Changes]],
    halves: Sequence[Column],
    dims: Sequence[dict[str, float]],
    scale: str | Scale,
    units: Units,
    notes: Sequence[Note],
    headings: Sequence[str],
    keyed: int,
) -> tuple[list[View], list[Verb], int]:
    """Draw both states; return views, what stands round them, and how many names went into the keys."""
    views: list[View] = []
    margin: list[Verb] = []
    first = max((n.number for n in notes), default=0) + 1
    most = 0
    for k, ((room, found), half) in enumerate(zip(states, halves, strict=True)):
        field = replace(half, height=half.height - key_height(keyed))
        chosen, frame = fit(room, field, dims[k], scale, units, HEAD)
        verbs: list[Verb] = []
        scene = draw_room(Board(frame, verbs), room, units, scale=chosen.ratio, found=found)
        column = replace(half, height=half.height + 1e4)
        shown = notes if k == 0 else ()
        parts = Parts(field, column, True, 0.0)
        drawn = annotate(scene, room, shown, frame, parts, units, detail=False, first=first)
        first += len(drawn.key)
        most = max(most, len(drawn.key))
        views.append(View(frame, (*verbs, *drawn.verbs)))
        left, _, _, top = extent(room)
        left, top = frame(left, top)
        margin += [
            Begin("G-ANNO-NOTE"),
            *heading(headings[k], (left, top - dims[k]["north"] - 2.0), "lead"),
            End(),
        ]
        margin += draw_notes(replace(drawn.margin, placed=(), left=()))
        margin += draw_key(drawn.key, half)
    return views, margin, most
