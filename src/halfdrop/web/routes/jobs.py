"""Jobs: listed, begun, read, changed, undone, and what happens to them told to every open page."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Any, Literal
from urllib.parse import quote

from fastapi import APIRouter, Header, Query, Request, Response
from fastapi.responses import StreamingResponse
from pydantic import Field, TypeAdapter, ValidationError
from starlette.concurrency import run_in_threadpool

from halfdrop.job.model import PatchOp, RoomUse
from halfdrop.services.workbench import Edit
from halfdrop.services.workbench_files import Returned, look_in, take_in
from halfdrop.services.workbench_heavy import ready
from halfdrop.services.workbench_jobs import begin_demo, begin_new, begin_text
from halfdrop.web.errors import Refused
from halfdrop.web.events import Event, stream
from halfdrop.web.parts import AtDesk, Author, Base, Body, Change, JobId, Message, body_schema, json_of
from halfdrop.web.shapes import appended_json, revision_json, time_text

router = APIRouter(prefix="/api", tags=["jobs"])

PATCH_JSON = "application/json-patch+json"
#: How often the events of a job look for what another process kept [s].
LOOK = 2.0


class StartDemo(Body):
    """Begin the demo job."""

    start: Literal["demo"]


class StartNew(Body):
    """Begin a job with rooms to type over."""

    start: Literal["new"]
    name: str = Field(min_length=1, max_length=120)
    client: str | None = Field(None, max_length=120)
    units: Literal["imperial", "metric"] = "imperial"
    rooms: list[RoomUse] = Field(default=["living"], max_length=40)


class StartFile(Body):
    """Begin a job from a job file."""

    start: Literal["file"]
    name: str = Field(min_length=1, max_length=200)
    text: str


Start = Annotated[StartDemo | StartNew | StartFile, Field(discriminator="start")]
_START: TypeAdapter[StartDemo | StartNew | StartFile] = TypeAdapter(Start)

_PATCH_SCHEMA = {"type": "array", "minItems": 1, "items": PatchOp.model_json_schema()}


@router.get("/jobs")
def list_jobs(desk: AtDesk) -> dict[str, Any]:
    """List the jobs, the last changed first, each with what it waits for."""
    lines = desk.jobs.all()
    for one in lines:
        one["begun"], one["changed"] = time_text(one["begun"]), time_text(one["changed"])
        if one["origin"]:
            one["origin"] = one["origin"].replace("\\", "/").rsplit("/", 1)[-1]
    return {"jobs": lines}


@router.post("/jobs", status_code=201, openapi_extra=body_schema(_START.json_schema()))
async def begin_job(request: Request, desk: AtDesk, author: Author) -> dict[str, Any]:
    """Begin a job: the demo, a new one, or one from a file."""
    body = await json_of(request, "application/json")
    try:
        start = _START.validate_python(body)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = "/".join(str(p) for p in first["loc"][1:])
        message = (
            f"`{where[:100]}`: {first['msg'].lower()}"
            if where
            else "the body says `start`: demo, new or file"
        )
        raise Refused(
            422, message, 'send {"start": "demo"}, or "new" with a name, or "file" with its text'
        ) from None

    def begin() -> dict[str, Any]:
        match start:
            case StartDemo():
                head = begin_demo(desk.bench, author=author)
            case StartNew():
                head = begin_new(
                    desk.bench, name=start.name, client=start.client or None, units=start.units,
                    rooms=list(start.rooms), author=author,
                )  # fmt: skip
            case StartFile():
                head = begin_text(desk.bench, start.text, name=start.name, author=author)
        return {"id": head.id, "revision": head.revision}

    return await run_in_threadpool(begin)


@router.get("/jobs/{job}")
def read_job(job: JobId, desk: AtDesk) -> dict[str, Any]:
    """Return a job: its document at the latest revision, its rooms and its schemes."""
    head = desk.bench.store.job(job)
    _, state = desk.bench.state(job, head=head)
    model = state.auditor.job
    return {
        "id": head.id,
        "revision": head.revision,
        "changed": time_text(head.changed),
        "document": head.document,
        "rooms": [
            {
                "id": i,
                "name": room.name,
                "use": [use for use, so in room.use.items() if so],
                "whole": i not in state.refused,
                "why": state.refused[i].message if i in state.refused else None,
                "survey": state.auditor.cases[i].room.survey.verdict if i in state.auditor.cases else None,
            }
            for i, room in model.rooms.items()
        ],
        "schemes": [{"id": i, "name": s.name, "steps": len(s.steps)} for i, s in model.schemes.items()],
    }


@router.delete("/jobs/{job}", status_code=204)
def remove_job(job: JobId, desk: AtDesk) -> Response:
    """Remove a job for good, with its history."""
    desk.bench.remove(job)
    return Response(status_code=204)


@router.get("/jobs/{job}/file", response_class=Response)
def job_file(
    job: JobId, desk: AtDesk, format: Annotated[Literal["yaml", "json"] | None, Query()] = None
) -> Response:
    """Return a job as its job file, comments and all; its name says the revision, for the way back."""
    revision = desk.bench.store.job(job).revision
    written = desk.bench.store.export(job, revision, format)
    name = f"{job}-r{revision}.{written.format}"
    return Response(
        written.text,
        media_type="application/json" if written.format == "json" else "application/yaml",
        headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"},
    )


class ComesBack(Body):
    """A job file that was edited elsewhere."""

    name: str = Field(min_length=1, max_length=200)
    text: str
    base: int | None = Field(
        default=None,
        ge=1,
        le=2**31 - 1,
        description="The revision it was taken out at; the nearest without it.",
    )
    over: bool = Field(
        default=False, description="Where others changed the same things, the file's word counts."
    )
    take: bool = Field(
        default=False, description="Keep its changes as a revision; without it they are only told."
    )


@router.post("/jobs/{job}/file", openapi_extra=body_schema(ComesBack))
async def file_comes_back(request: Request, job: JobId, desk: AtDesk, author: Author) -> dict[str, Any]:
    """Tell what a job file that comes back would change of its job; with `take`, keep that as one revision."""
    body = await json_of(request, "application/json")
    try:
        back = ComesBack.model_validate(body)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = "/".join(str(p) for p in first["loc"])[:100]
        raise Refused(422, f"`{where}`: {first['msg'].lower()}") from None

    def returned() -> Returned:
        if back.take:
            return take_in(
                desk.bench, job, back.text, name=back.name, base=back.base, author=author, over=back.over
            )
        return look_in(desk.bench, job, back.text, name=back.name, base=back.base)

    return asdict(await run_in_threadpool(returned))


@router.patch("/jobs/{job}", openapi_extra=body_schema(_PATCH_SCHEMA, PATCH_JSON))
async def change_job(
    request: Request,
    job: JobId,
    desk: AtDesk,
    author: Author,
    message: Message,
    base: Base,
    scheme: Annotated[str | None, Query(pattern=r"^[a-z0-9][a-z0-9_-]{0,39}$")] = None,
    scheme_name: Annotated[str | None, Query(min_length=1, max_length=120)] = None,
    kind: Annotated[Literal["edit", "remedy"], Query()] = "edit",
    finding: Annotated[str | None, Query(max_length=300)] = None,
    cost: Annotated[str | None, Query(max_length=40)] = None,
    halfdrop_change: Change = None,
) -> dict[str, Any]:
    """Keep a change; it is on the disk when this answers.

    With `scheme` the patch is on the job under that scheme, and becomes a step of it.
    """
    patch = await json_of(request, PATCH_JSON)
    edit = Edit(
        patch=patch, base=base, author=author, message=message, kind=kind, scheme=scheme,
        scheme_name=scheme_name, finding=finding, cost=cost, change=halfdrop_change or None,
    )  # fmt: skip
    return appended_json(await run_in_threadpool(desk.bench.edit, job, edit))


class Which(Body):
    """Which revision to take back; the author's latest without one. `author` may stand here or in the header."""

    revision: int | None = Field(default=None, ge=1, le=2**31 - 1)
    author: str | None = Field(default=None, min_length=1, max_length=120)


@router.post("/jobs/{job}/undo")
def undo(
    job: JobId, desk: AtDesk, author: Author, which: Which | None = None, halfdrop_change: Change = None
) -> dict[str, Any]:
    """Take a change back; says what it undid."""
    which = which or Which()
    done = desk.bench.undo(job, which.revision, author=which.author or author, change=halfdrop_change or None)
    return {**appended_json(done), "undid": done.message}


@router.post("/jobs/{job}/redo")
def redo(
    job: JobId, desk: AtDesk, author: Author, which: Which | None = None, halfdrop_change: Change = None
) -> dict[str, Any]:
    """Bring again what an undo took back."""
    which = which or Which()
    done = desk.bench.redo(job, which.revision, author=which.author or author, change=halfdrop_change or None)
    return {**appended_json(done), "redid": done.message}


@router.get("/jobs/{job}/revisions")
def revisions(
    job: JobId,
    desk: AtDesk,
    since: Annotated[
        int | None, Query(ge=0, le=2**31 - 1, description="Those after it, oldest first.")
    ] = None,
    before: Annotated[
        int | None, Query(ge=1, le=2**31 - 1, description="Those before it, newest first.")
    ] = None,
    limit: Annotated[int, Query(ge=1, le=500)] = 100,
) -> dict[str, Any]:
    """Return a page of the history: newest first, or oldest first after `since`."""
    store = desk.bench.store
    found = store.revisions(job, since, limit) if since is not None else store.history(job, before, limit)
    return {"revisions": [revision_json(r) for r in found]}


@router.get("/jobs/{job}/events", response_class=StreamingResponse)
async def events(
    job: JobId,
    desk: AtDesk,
    last_event_id: Annotated[str | None, Header(description="The last revision seen.")] = None,
) -> StreamingResponse:
    """Tell what happens to a job as server-sent events: `here` at first, then `revision` for each change."""
    store = desk.bench.store
    head = await run_in_threadpool(store.job, job)
    desk.tasks.warm(ready)  # a page is open at this job: the first note that is picked finds a worker ready
    seen = (
        int(last_event_id) if last_event_id and last_event_id.isdigit() and len(last_event_id) < 10 else None
    )
    known = head.revision

    async def first() -> list[Event]:
        nonlocal known
        now = await run_in_threadpool(store.job, job)
        known = now.revision
        news = [("here", {"revision": now.revision})]
        return (await since(seen)) + news if seen is not None and seen < now.revision else news

    async def since(revision: int) -> list[Event]:
        found = await run_in_threadpool(store.revisions, job, revision, 500)
        return [
            ("revision", {"revision": r.number, "author": r.author, "message": r.message, "kind": r.kind})
            for r in found
        ]

    async def missed() -> list[Event]:
        nonlocal known
        if (await run_in_threadpool(store.job, job)).revision == known:
            return []
        news = await since(known)
        known = max([known, *(data["revision"] for _, data in news)])
        return news

    return stream(desk.hub, f"job {job}", first, last=frozenset({"removed"}), beat=LOOK, missed=missed)
