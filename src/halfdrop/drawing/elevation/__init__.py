"""Elevations: a wall face on, to scale, with what is in, on and before it."""

from halfdrop.drawing.elevation.compare import FaceChanges, compare_faces
from halfdrop.drawing.elevation.scene import draw_face
from halfdrop.drawing.elevation.sheet import elevation_sheet
from halfdrop.drawing.elevation.shown import Hanging, PaperStrip, Shown, runs_of, shown_of

__all__ = [
    "FaceChanges",
    "Hanging",
    "PaperStrip",
    "Shown",
    "compare_faces",
    "draw_face",
    "elevation_sheet",
    "runs_of",
    "shown_of",
]
