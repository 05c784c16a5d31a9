"""One room as a page shows it: drawn and judged in one answer."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import HalfdropError, UsageError
from halfdrop.job.read import LoadedJob
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import ViewName, default_paper, drawn, notes_of
from halfdrop.services.workbench_state import State
from halfdrop.services.workbench_view import (
    bare_svg,
    finding_json,
    frame_json,
    point,
    things_json,
    walls_json,
)


def opened(auditor: Auditor, refused: Mapping[str, HalfdropError] | None = None) -> OpenJob:
    """Return a job that is not a file as the other services take it; rooms that are `refused` are left out."""
    name = auditor.job.job.name
    return OpenJob(
        Path("job"), LoadedJob(auditor.document, auditor.job, {}, "", "json", name), auditor, refused or {}
    )


def findings_json(state: State, room: str) -> list[dict[str, Any]]:
    """Return the findings of a room, numbered gravest first."""
    case = state.case(room)
    return [finding_json(f, n, case) for n, f in enumerate(state.findings(room), 1)]


def room_json(
    found: State,
    state: State,
    room: str,
    view: ViewName,
    scheme: str | None,
    *,
    proposed: bool | None = None,
    paper: str | None = None,
    scale: str | None = None,
    notes: bool = True,
    dark: bool = False,
) -> dict[str, Any]:
    """Return a room's drawing, how plan metres stand on it, its findings and its things.

    Parameters
    ----------
    found, state : State
        The job as found, and as it is to be shown.
    scheme : str or None
        Under which it is shown.
    proposed : bool, optional
        Draw what differs from the room as found as proposed; where there is a scheme, without it.

    Raises
    ------
    InputError
        Where the room does not resolve, or the paper or scale is not known or too small.
    """
    if view == "before-after" and scheme is None:
        raise UsageError("before and after needs a scheme", hint="name one with `scheme=`")
    case = state.case(room)
    judged = found if view == "before-after" else state
    made = drawn(
        view,
        found.case(room),
        case,
        notes_of(judged.findings(room)) if notes and view != "survey" else [],
        proposed=scheme is not None if proposed is None else proposed,
        paper=paper or default_paper(opened(found.auditor)),
        scale=scale,
    )
    return {
        "room": room,
        "view": view,
        "scheme": scheme,
        "svg": bare_svg(made, dark=dark),
        "paper": {"name": made.paper.name, "width": made.paper.width, "height": made.paper.height},
        "scale": made.scale.name if made.scale else None,
        "frame": frame_json(made.views[0].frame),
        "frames": [frame_json(v.frame) for v in made.views],
        "findings": findings_json(judged, room),
        "things": things_json(case, state.document),
        "walls": walls_json(case),
        "outline": [point(p) for p in case.room.survey.xy],
    }
