"""Notes that found no place in a drawing's margin, in columns on sheets of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from halfdrop.base.formats import Units
from halfdrop.drawing.notes import GAP, Column, Margin, Note, PlacedNote, draw_notes, line_height, note_lines
from halfdrop.drawing.paper import Paper
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.sheet import AIR, Sheet, TitleInfo, divide, sheet_of
from halfdrop.drawing.verbs import Verb

#: A column of notes is about this wide: some 55 characters of prose [mm].
COLUMN = 88.0


def notes_sheet(
    notes: Sequence[Note], *, title: TitleInfo, paper: str | Paper = "tabloid", units: Units = "imperial"
) -> Sheet:
    """Return a sheet of notes in columns, by number; those that do not fit are its `left`, for the next
    sheet.

    Parameters
    ----------
    notes : sequence of Note
        Such as a plan's `left`.
    title : TitleInfo
    paper : str or Paper
    units : {"imperial", "metric"}
    """
    page = paper_named(paper) if isinstance(paper, str) else paper
    parts = divide(page, margin=False)
    count = max(1, int((parts.field.width + 2 * AIR) / (COLUMN + 2 * AIR)))
    wide = (parts.field.width - 2 * AIR * (count - 1)) / count
    columns = [
        replace(parts.field, left=parts.field.left + k * (wide + 2 * AIR), width=wide) for k in range(count)
    ]
    waiting = sorted(notes, key=lambda n: n.number)
    verbs: list[Verb] = []
    for column in columns:
        placed, waiting = _fill(column, waiting)
        verbs += draw_notes(Margin(column, tuple(placed), (), ()))
    return sheet_of(page, title, units, [], verbs, parts, None, waiting)


def _fill(column: Column, notes: list[Note]) -> tuple[list[PlacedNote], list[Note]]:
    """Return the notes that stand in a column, and the rest; a note taller than the column stands alone,
    cut short.
    """
    placed: list[PlacedNote] = []
    y = column.top
    for k, note in enumerate(notes):
        lines = note_lines(note, column.width)
        most = int(column.height / line_height())
        if len(lines) > most:
            lines = (*lines[: most - 1], "…")
        high = len(lines) * line_height()
        if placed and y + high > column.top + column.height:
            return placed, notes[k:]
        placed.append(PlacedNote(note, lines, y, (0.0, 0.0), ()))
        y += high + GAP
    return placed, []
