"""The hanging sheets of a room as files: bound as a PDF, or the drawing of one wall."""

from __future__ import annotations

from halfdrop.art.setting_out import Edge
from halfdrop.audit.art_case import walls_hung
from halfdrop.base.errors import InputError, UsageError
from halfdrop.drawing.elevation import shown_of
from halfdrop.drawing.printing import printed
from halfdrop.job.part import corners_of
from halfdrop.services.hanging_job import hung_on
from halfdrop.services.jobs import OpenJob
from halfdrop.services.trade_art import art_sheet, figure_of
from halfdrop.services.trade_sheets import bind_sheets, counts_of

FORMATS = ("pdf", "svg", "png")


def hanging_sheet(
    job: OpenJob,
    room: str,
    format: str,
    *,
    scheme: str | None = None,
    wall: str | None = None,
    edge: Edge = "left",
) -> tuple[bytes, int]:
    """Return the hanging sheets of a room in one of `FORMATS`, and how many walls are on them.

    Parameters
    ----------
    format : {"pdf", "svg", "png"}
        As a PDF every wall has its sheet; as a picture the drawing of one wall.
    scheme : str, optional
        The job under this scheme; as found without it.
    wall : str, optional
        Only this wall, by its corners; needed for a picture where works hang on several.
    edge : {"left", "right"}
        The end of the wall that is taped from.

    Raises
    ------
    UsageError
        For another format, or a picture of several walls.
    InputError
        Where no work hangs there.
    """
    if format not in FORMATS:
        raise UsageError(
            f"hanging sheets cannot be written as `{format}`", hint=f"known: {', '.join(FORMATS)}"
        )
    counts = counts_of(job, scheme, room=room)
    case = counts.after.case(room)
    walls = [w for w in walls_hung(case) if wall is None or _same(w.name, wall)]
    if not walls:
        raise InputError(
            f"nothing hangs {f'on wall {wall}' if wall else 'in this room'}",
            hint=f"run `halfdrop hang {job.path.name} --room {room} --art A,B --on WALL` to find a place",
        )
    if format == "pdf":
        sheets = tuple(art_sheet(counts, case, w, f"A{n}", edge) for n, w in enumerate(walls, 1))
        return bind_sheets(job, sheets), len(sheets)
    if len(walls) > 1:
        names = ", ".join(w.name for w in walls)
        raise UsageError(
            f"works hang on walls {names}", hint="name one with --on, or write a .pdf with them all"
        )
    hung = hung_on(case, walls[0], edge)
    figure, _, _ = figure_of(
        shown_of(case.room, walls[0].name, counts.cloths, counts.practice), hung, counts.say, edge
    )
    return (figure.svg(fonts=True).encode() if format == "svg" else printed(figure, "png")), 1


def _same(name: str, wall: str) -> bool:
    try:
        return set(corners_of(name)) == set(corners_of(wall))
    except ValueError:
        return False
