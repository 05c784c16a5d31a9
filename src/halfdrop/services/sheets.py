"""Sheets of a job: survey, plan as found or proposed, before and after; with the findings as margin notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, get_args

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding
from halfdrop.base.errors import UsageError, did_you_mean
from halfdrop.drawing.compare import before_after_sheet
from halfdrop.drawing.notes import Note
from halfdrop.drawing.plan import plan_sheet
from halfdrop.drawing.printing import printed
from halfdrop.drawing.sheet import Sheet, TitleInfo
from halfdrop.drawing.survey_sheet import survey_sheet
from halfdrop.services.elevations import elevation_drawn, walls_named
from halfdrop.services.jobs import OpenJob

ViewName = Literal["plan", "before-after", "survey", "elevation"]
FORMATS = ("svg", "dxf", "pdf", "png")


def notes_of(findings: Sequence[Finding], first: int = 1) -> list[Note]:
    """Return findings as numbered margin notes, in their order."""
    return [
        Note(n, f.grade.value, f.message, f.anchor, f.within_tape, f.subjects[0])
        for n, f in enumerate(findings, first)
    ]


def default_paper(job: OpenJob) -> str:
    """Return the paper of a job's sheets by its units."""
    return "tabloid" if job.found.job.job.units == "imperial" else "a3"


def sheet(
    job: OpenJob,
    room: str,
    view: ViewName = "plan",
    *,
    scheme: str | None = None,
    notes: bool = True,
    paper: str | None = None,
    scale: str | None = None,
    number: str = "",
    wall: str | None = None,
    shut: bool = False,
) -> Sheet:
    """Return one sheet of a room.

    Parameters
    ----------
    job : OpenJob
    room : str
        Its id.
    view : {"plan", "before-after", "survey", "elevation"}
    scheme : str, optional
        Draw the room under this scheme; what it changes is drawn as proposed.
    notes : bool
        Write the findings in the margin.
    paper, scale : str, optional
        By the job's units, and the largest that fits, where not given.
    wall : str, optional
        Which wall an elevation shows: `CD`, or a run of walls by its corners.
    shut : bool
        On an elevation: curtains drawn shut.

    Raises
    ------
    InputError
        Where the room, the wall, the scheme, the paper or the scale is not known, or the room does not fit.
    """
    job.room_ids(room)
    if view not in get_args(ViewName):
        raise UsageError(f"there is no view `{view}`", hint=did_you_mean(view, get_args(ViewName)))
    if view == "before-after" and scheme is None:
        raise UsageError("before and after needs a scheme", hint="add `--scheme NAME`")
    state = job.under(scheme)
    if view == "elevation":
        return _elevation(job, state, room, wall, scheme, notes, paper, scale, number, shut)
    judged = job.found if view == "before-after" else state  # its notes are marked on the room as found
    margin = notes_of(judged.findings(room)) if notes and view != "survey" else []
    return drawn(
        view,
        job.found.case(room),
        state.case(room),
        margin,
        proposed=scheme is not None,
        paper=paper or default_paper(job),
        scale=scale,
        number=number,
    )


def _elevation(
    job: OpenJob,
    state: Auditor,
    room: str,
    wall: str | None,
    scheme: str | None,
    notes: bool,
    paper: str | None,
    scale: str | None,
    number: str,
    shut: bool,
) -> Sheet:
    case = state.case(room)
    if wall is None:
        raise UsageError(
            "an elevation needs its wall", hint="add `--wall CD`, or leave it out with `-o` for all"
        )
    findings = state.findings(room)
    return elevation_drawn(
        job.found.case(room),
        case,
        walls_named(case, wall),
        findings if notes else (),
        {f.id: n for n, f in enumerate(findings, 1)},
        proposed=scheme is not None,
        paper=paper or default_paper(job),
        scale=scale,
        number=number,
        shut=shut,
    )


def drawn(
    view: ViewName,
    found: RoomCase,
    after: RoomCase,
    notes: Sequence[Note],
    *,
    proposed: bool,
    paper: str,
    scale: str | None = None,
    number: str = "",
    onward: str = "",
) -> Sheet:
    """Return one sheet of a room of which both states are at hand.

    Parameters
    ----------
    view : {"plan", "before-after", "survey"}
    found, after : RoomCase
        The room as found, and as it is to be drawn.
    notes : sequence of Note
        For the margin.
    proposed : bool
        Whether `after` is a proposal, its changes drawn as such.
    onward : str
        Where notes that do not fit go on.
    """
    info, units = found.job.job, found.job.job.units
    names = {
        "plan": "Plan as proposed" if proposed else "Plan as found",
        "before-after": "Before and after",
        "survey": "Survey",
        "elevation": "Elevation",
    }
    title = TitleInfo(
        job=info.name,
        room=after.room.model.name,
        view=names[view],
        date=info.date or "",
        revision=info.revision or "",
        number=number,
        decorator=info.decorator or "",
    )
    if view == "survey":
        return survey_sheet(found.room, title=title, paper=paper, scale=scale, units=units)
    if view == "before-after":
        return before_after_sheet(
            found.room, after.room, title=title, notes=notes, paper=paper, scale=scale, units=units
        )
    before = found.room if proposed else None
    return plan_sheet(
        after.room,
        title=title,
        notes=notes,
        before=before,
        paper=paper,
        scale=scale,
        units=units,
        onward=onward,
    )


def as_bytes(made: Sheet, format: str, *, dark: bool = False) -> bytes:
    """Return a sheet in one of `FORMATS`."""
    if format == "svg":
        return made.svg("dark" if dark else "light", fonts=True).encode()
    if format == "dxf":
        return made.dxf()
    if format == "pdf":
        return printed(made, "pdf")
    if format == "png":
        return printed(made, "png", ground="dark" if dark else "light")
    raise UsageError(f"sheets cannot be written as `{format}`", hint=f"known: {', '.join(FORMATS)}")
