"""Sheets: one front end that knows rooms, seven draw verbs, and back ends for SVG, DXF and JSON."""

from halfdrop.drawing.compare import before_after_sheet
from halfdrop.drawing.notes import Note
from halfdrop.drawing.notes_sheet import notes_sheet
from halfdrop.drawing.paper import Paper, Scale, paper, scale
from halfdrop.drawing.plan import plan_sheet
from halfdrop.drawing.sheet import Sheet, TitleInfo, View
from halfdrop.drawing.survey_sheet import survey_sheet

__all__ = [
    "Note",
    "Paper",
    "Scale",
    "Sheet",
    "TitleInfo",
    "View",
    "before_after_sheet",
    "notes_sheet",
    "paper",
    "plan_sheet",
    "scale",
    "survey_sheet",
]
