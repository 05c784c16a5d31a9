"""The elevation of a wall as a sheet: drawing, notes, key."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units
from halfdrop.drawing.annotate import annotate_with
from halfdrop.drawing.board import Board
from halfdrop.drawing.dimensions import Lettering
from halfdrop.drawing.elevation.chains import draw_chains, reach
from halfdrop.drawing.elevation.compare import FaceChanges, compare_faces
from halfdrop.drawing.elevation.scene import draw_face
from halfdrop.drawing.elevation.shown import Shown
from halfdrop.drawing.notes import Note
from halfdrop.drawing.paper import Paper, Scale
from halfdrop.drawing.plan import Drawn, fit_box, lay_out
from halfdrop.drawing.sheet import Parts, Sheet, TitleInfo, View
from halfdrop.drawing.verbs import Verb
from halfdrop.drawing.walls import THICK


def elevation_sheet(
    shown: Shown,
    *,
    title: TitleInfo,
    notes: Sequence[Note] = (),
    before: Shown | None = None,
    paper: str | Paper = "tabloid",
    scale: str | Scale | None = None,
    units: Units = "imperial",
    onward: str = "",
    shut: bool = False,
    pieces: bool = True,
    first: int | None = None,
) -> Sheet:
    """Return the elevation of a wall as a sheet.

    Parameters
    ----------
    shown : Shown
        From `shown_of`.
    title : TitleInfo
        For the title strip.
    notes : sequence of Note
        For the margin, their anchors in metres of the elevation. Those that do not fit are the sheet's `left`.
    before : Shown, optional
        The wall as found: what differs in `shown` is drawn as proposed, with its ghost and one arrow.
    paper, scale, units, onward
        As for `plan_sheet`.
    shut : bool
        Draw curtains drawn shut.
    pieces : bool
        False leaves out what stands before the wall.
    first : int, optional
        First number of the key; by default the one after the notes'.

    Raises
    ------
    InputError
        Where the paper or scale is not known, or the wall does not fit.
    """
    found = compare_faces(before, shown) if before is not None else FaceChanges()
    noted = {note.path for note in notes} if pieces else set()

    def draw(parts: Parts) -> Drawn:
        detail = not parts.narrow
        dims = reach(shown, detail=detail, noted=noted)
        face = shown.face
        bounds = (-THICK, face.bottom, face.width + THICK, face.top)
        chosen, frame = fit_box(bounds, parts.field, dims, scale, units, narrow=parts.narrow)
        verbs: list[Verb] = []
        scene = draw_face(Board(frame, verbs), shown, units, found=found, shut=shut, pieces=pieces)

        def dimensions(blocks: Sequence[BaseGeometry]) -> Lettering:
            return draw_chains(frame, shown, units, blocks, detail=detail, noted=noted)

        annotated = annotate_with(scene, notes, frame, parts, dimensions, first=first)
        height = (face.top - face.bottom) * frame.scale + dims["north"] + dims["south"]
        return Drawn(parts, View(frame, (*verbs, *annotated.verbs)), chosen, annotated, height)

    return lay_out(paper, title, notes, draw, units, onward)
