"""Rooms: drawn and judged in one answer, tried under the hand, their remedies sought, their surveys reported."""

from __future__ import annotations

import hashlib
import re
from base64 import b64encode
from typing import Annotated, Any, Literal
from urllib.parse import quote

from fastapi import APIRouter, Query, Request, Response
from pydantic import Field, ValidationError
from starlette.concurrency import run_in_threadpool

from halfdrop.services.book import Left
from halfdrop.services.compare import compare_schemes
from halfdrop.services.sheets import as_bytes, sheet
from halfdrop.services.shopping import shopping
from halfdrop.services.surveying import report
from halfdrop.services.workbench_heavy import book_plan, remedies_plan
from halfdrop.services.workbench_room import opened
from halfdrop.services.workbench_survey import walk_sketch
from halfdrop.web.errors import Refused
from halfdrop.web.parts import AtDesk, Body, JobId, RoomId, body_schema, json_of

router = APIRouter(prefix="/api", tags=["rooms"])

View = Literal["plan", "before-after", "survey", "elevation"]
Scheme = Annotated[
    str | None, Query(max_length=40, description="The job under this scheme; as found without it.")
]
Paper = Annotated[
    str | None, Query(max_length=40, description="Such as tabloid, a3, letter portrait, phone.")
]
Scale = Annotated[str | None, Query(max_length=40)]
WallName = Annotated[
    str | None,
    Query(max_length=120, description="Which wall an elevation shows: CD, or a bay by its corners."),
]

MEDIA = {"svg": "image/svg+xml", "pdf": "application/pdf", "png": "image/png", "dxf": "image/vnd.dxf"}


@router.get("/jobs/{job}/rooms/{room}/view")
def view(
    job: JobId,
    room: RoomId,
    desk: AtDesk,
    view: Annotated[View, Query()] = "plan",
    scheme: Scheme = None,
    paper: Paper = None,
    scale: Scale = None,
    notes: bool = True,
    dark: bool = False,
    wall: WallName = None,
    shut: Annotated[bool, Query(description="On an elevation: curtains drawn shut.")] = False,
) -> dict[str, Any]:
    """Return the drawing of a room with its frame, its findings, and where each thing stands.

    `frame` says how metres stand on the drawing: x mm = left + x · mm_per_m, y mm = top − y · mm_per_m. They are metres of
    the plan, or of a wall's elevation: to the right of its left corner, and up from the floor. The SVG has no style of its
    own: `/tokens.css` has its classes.
    """
    return desk.bench.view(
        job, room, view, scheme=scheme, paper=paper, scale=scale, notes=notes, dark=dark, wall=wall, shut=shut
    )


class Move(Body):
    """A hand's move of one thing: by metres on the drawing, turned counterclockwise by radians about its middle.

    On an elevation `handle` says which end of a rod is moved along; without it the rod is raised or lowered. Of a
    work `group` moves its whole group.
    """

    path: str = Field(max_length=200)
    dx: float = Field(0.0, ge=-1000, le=1000, allow_inf_nan=False)
    dy: float = Field(0.0, ge=-1000, le=1000, allow_inf_nan=False)
    turn: float = Field(0.0, ge=-1000, le=1000, allow_inf_nan=False)
    exact: bool = False
    handle: Literal["left", "right", "both", "group"] | None = None


class Try(Body):
    """A change to try: a patch on the job under the scheme, or a hand's move; `live` leaves the drawing out.

    With `wall` it is looked at, and moved, on that wall's elevation.
    """

    scheme: str | None = Field(default=None, max_length=40)
    patch: list[dict[str, Any]] | None = None
    move: Move | None = None
    live: bool = False
    paper: str | None = Field(default=None, max_length=40)
    dark: bool = False
    wall: str | None = Field(default=None, max_length=120)
    shut: bool = False


@router.post("/jobs/{job}/rooms/{room}/try", openapi_extra=body_schema(Try))
async def try_change(request: Request, job: JobId, room: RoomId, desk: AtDesk) -> dict[str, Any]:
    """Return what a change would make of a room; nothing is kept.

    The answer's `patch` is what would be sent to keep it; `clearances` are the gaps of what is moved; `snaps` are
    suggestions, each with the patch that takes it.
    """
    body = await json_of(request, "application/json")
    try:
        trial = Try.model_validate(body)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = "/".join(str(p) for p in first["loc"])[:100]
        raise Refused(422, f"`{where}`: {first['msg'].lower()}") from None
    return await run_in_threadpool(
        desk.bench.tried, job, room, scheme=trial.scheme, patch=trial.patch,
        move=trial.move.model_dump() if trial.move else None, live=trial.live, paper=trial.paper, dark=trial.dark,
        wall=trial.wall, shut=trial.shut,
    )  # fmt: skip


class Seek(Body):
    """Whose remedies: one finding's, or all of the room's."""

    scheme: str | None = Field(default=None, max_length=40)
    finding: str | None = Field(default=None, max_length=300)


@router.post("/jobs/{job}/rooms/{room}/remedies", status_code=202)
def seek_remedies(job: JobId, room: RoomId, desk: AtDesk, seek: Seek | None = None) -> dict[str, Any]:
    """Seek proven remedies; the answer names the task, whose result is the findings with them."""
    seek = seek or Seek()
    plan = remedies_plan(desk.bench, job, room, scheme=seek.scheme, finding=seek.finding)
    return desk.tasks.start("remedies", job, plan).to_json()


class Bind(Body):
    """Which book, and which parts are left out of it."""

    scheme: str | None = Field(default=None, max_length=40)
    paper: str | None = Field(default=None, max_length=40)
    without: tuple[Left, ...] = Field(default=(), max_length=3)


@router.post("/jobs/{job}/book", status_code=202)
def bind_book(job: JobId, desk: AtDesk, bind: Bind | None = None) -> dict[str, Any]:
    """Bind the book; the answer names the task, whose result is a PDF."""
    bind = bind or Bind()
    plan = book_plan(desk.bench, job, scheme=bind.scheme, paper=bind.paper, without=bind.without)
    return desk.tasks.start("book", job, plan).to_json()


_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)


@router.get("/jobs/{job}/sheet", response_class=Response)
def one_sheet(
    job: JobId,
    desk: AtDesk,
    room: Annotated[str, Query(max_length=40)],
    view: Annotated[View, Query()] = "plan",
    scheme: Scheme = None,
    paper: Paper = None,
    scale: Scale = None,
    format: Annotated[Literal["svg", "pdf", "png", "dxf"], Query()] = "svg",
    dark: bool = False,
    wall: WallName = None,
    shut: Annotated[bool, Query(description="On an elevation: curtains drawn shut.")] = False,
) -> Response:
    """Return one sheet of a room as a file."""
    _, found = desk.bench.open_job(job)
    made = sheet(found, room, view, scheme=scheme, paper=paper, scale=scale, wall=wall, shut=shut)
    data = as_bytes(made, format, dark=dark)
    headers = {"content-disposition": f"inline; filename*=UTF-8''{quote(f'{room}-{view}.{format}')}"}
    if format == "svg":
        style = _STYLE.search(data.decode())
        digest = b64encode(hashlib.sha256((style[1] if style else "").encode()).digest()).decode()
        headers["content-security-policy"] = f"default-src 'none'; style-src 'sha256-{digest}'; sandbox"
    return Response(data, media_type=MEDIA[format], headers=headers)


@router.get("/jobs/{job}/compare")
def compare(job: JobId, desk: AtDesk) -> dict[str, Any]:
    """Set the schemes side by side: what each leaves open, changes and costs."""
    revision, found = desk.bench.open_job(job)
    return {"revision": revision, "schemes": compare_schemes(found)}


@router.get("/jobs/{job}/shopping")
def shopping_list(
    job: JobId, desk: AtDesk, scheme: Scheme = None, room: Annotated[str | None, Query(max_length=40)] = None
) -> dict[str, Any]:
    """Return what is bought, moved and let go for a scheme, and what it comes to."""
    revision, found = desk.bench.open_job(job)
    return {"revision": revision, **shopping(found, scheme, room=room).to_json()}


@router.get("/jobs/{job}/survey/{room}")
def survey(job: JobId, room: RoomId, desk: AtDesk) -> dict[str, Any]:
    """Report on a room's survey: does it close, which measure is suspect, what to measure next."""
    revision, state = desk.bench.state(job)
    if room in state.refused:
        error = state.refused[room]
        return {
            "revision": revision,
            "room": room,
            "whole": False,
            "verdict": "not whole",
            "message": error.message,
            "hint": error.hint,
            "advice": [error.message, *([error.hint] if error.hint else [])],
            "sketch": walk_sketch(state.auditor.job.rooms[room].survey, state.auditor.practice),
        }
    state.case(room)
    one = report(opened(state.auditor), room)[0]
    return {
        "revision": revision,
        "whole": True,
        "misclosure": one.misclosure,
        "area": one.area,
        "things": one.things,
        "measures": one.measures,
        "steps": one.working,
        **one.to_json(),
    }
