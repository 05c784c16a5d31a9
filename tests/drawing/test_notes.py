"""Margin notes: grades without hue, overflow, marks."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

from halfdrop.drawing import notes_sheet
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import RING, Column, Note, draw_mark, note_lines, place_notes, spread_marks
from halfdrop.drawing.verbs import Arc, Line, Text
from tests.drawing.rooms import title

COLUMN = Column(300.0, 10.0, 90.0, 200.0)


def _rings(note: Note) -> list[Arc]:
    return [v for v in draw_mark(note, (0.0, 0.0), solid=False) if isinstance(v, Arc)]


def test_grades_show_without_hue() -> None:
    """A hazard has two rings, a fault one, taste an underline and no ring; all in the same ink."""
    marks = {g: Note(1, g, "x", (0.0, 0.0)) for g in ("hazard", "fault", "taste", "plain")}  # type: ignore[arg-type]
    assert {g: len(_rings(n)) for g, n in marks.items()} == {"hazard": 2, "fault": 1, "taste": 0, "plain": 0}
    lines = {g: [v for v in draw_mark(n, (0.0, 0.0)) if isinstance(v, Line)] for g, n in marks.items()}
    assert {g: len(found) for g, found in lines.items()} == {"hazard": 0, "fault": 0, "taste": 1, "plain": 0}
    inks = {v.ink for n in marks.values() for v in draw_mark(n, (0.0, 0.0), solid=False)}  # type: ignore[union-attr]
    assert inks == {"pencil"}


def test_within_tape_error_dashes_the_ring() -> None:
    """A finding that the tape's error could undo has a dashed ring or a dashed underline."""
    fault = Note(3, "fault", "x", (0.0, 0.0))
    assert [r.dash for r in _rings(fault)] == [None]
    assert [r.dash for r in _rings(replace(fault, within_tape=True))] == ["fine"]
    taste = draw_mark(Note(3, "taste", "x", (0.0, 0.0), True), (0.0, 0.0))
    assert [v.dash for v in taste if isinstance(v, Line)] == ["fine"]


def test_a_hazard_says_so_first() -> None:
    """The first word of a hazard's note is `Hazard`, once."""
    assert note_lines(Note(1, "hazard", "The shelf tips.", (0, 0)), 90.0)[0].startswith("Hazard. The shelf")
    assert note_lines(Note(1, "hazard", "Hazard: it tips.", (0, 0)), 90.0)[0].startswith("Hazard: it")
    assert note_lines(Note(1, "fault", "It's short.", (0, 0)), 90.0) == ("It’s short.",)


def test_lines_keep_within_the_column() -> None:
    """A note's lines, measured in the shipped font, fit beside its number."""
    note = Note(1, "fault", "The rug stops 7 in short of the armchairs' front legs. " * 4, (0, 0))
    assert all(text_width(line, 3.175, "prose") <= 82.0 for line in note_lines(note, 90.0))


def test_marks_move_apart() -> None:
    """Nine notes on one point get nine marks that do not touch, the first on its anchor."""
    spots = spread_marks([(50.0, 50.0)] * 9)
    assert spots[0] == (50.0, 50.0)
    assert min(math.dist(a, b) for a, b in combinations(spots, 2)) >= 2 * RING


def test_what_does_not_fit_goes_on_and_the_graver_stay() -> None:
    """Where the column is too short the hazards keep their place and the rest is handed on, none lost."""
    text = "Measured first, then wanted, then why; the sentence runs on for a while. " * 3
    grades = ("taste", "fault", "hazard")
    notes = [Note(k + 1, grades[k % 3], text, (0.0, 0.0)) for k in range(24)]  # type: ignore[arg-type]
    anchors = [(10.0 * k, 8.0 * k) for k in range(24)]
    margin = place_notes(notes, anchors, COLUMN)
    here = {p.note.number for p in margin.placed}
    away = {n.number for n in margin.left}
    assert here | away == set(range(1, 25))
    assert not here & away
    assert {n.grade for n in notes if n.number in here} == {"hazard"}
    assert len(here) >= 4
    assert len(margin.marks) == 24
    assert max(p.top + len(p.lines) * 4.4 for p in margin.placed) <= COLUMN.top + COLUMN.height


def test_the_rest_stands_in_columns_on_sheets_of_its_own() -> None:
    """Notes handed on fill a sheet column by column, by number; what still does not fit goes on again."""
    notes = [Note(k + 1, "fault", "A long note about a short rug. " * 12, (0.0, 0.0)) for k in range(60)]
    told: list[str] = []
    rest: tuple[Note, ...] = tuple(notes)
    for _ in range(9):
        sheet = notes_sheet(rest, title=title("Notes", "9"), paper="letter")
        told += [v.text for v in sheet.margin if isinstance(v, Text) and v.font == "strong"]
        rest = sheet.left
        if not rest:
            break
    assert told == [str(k + 1) for k in range(60)]
