"""Sheets: one front end that knows rooms, seven draw verbs, and back ends for SVG, DXF and JSON."""

from halfdrop.drawing.notes import Note
from halfdrop.drawing.paper import Paper, Scale, paper, scale
from halfdrop.drawing.plan import plan_sheet
from halfdrop.drawing.sheet import Sheet, TitleInfo, View

__all__ = ["Note", "Paper", "Scale", "Sheet", "TitleInfo", "View", "paper", "plan_sheet", "scale"]
