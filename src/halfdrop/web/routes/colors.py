"""Colors: a picture's palette, swatch libraries, the colors of a room, schemes from a picture."""

from __future__ import annotations

from typing import Annotated, Any
from urllib.parse import unquote

from fastapi import APIRouter, Header, Query, Request
from pydantic import Field
from starlette.concurrency import run_in_threadpool

from halfdrop.job.conflicts import touched
from halfdrop.services.workbench_bounds import check_patch
from halfdrop.services.workbench_colors import found_in, keep_library, libraries, library_of, lifted
from halfdrop.services.workbench_palette import colors_json, given, schemes_from, shown_in
from halfdrop.services.workbench_state import check_resolves
from halfdrop.web.errors import Refused
from halfdrop.web.parts import AtDesk, Body, JobId, RoomId
from halfdrop.web.routes.files import Sha

router = APIRouter(prefix="/api", tags=["colors"])

Scheme = Annotated[
    str | None, Query(max_length=40, description="The job under this scheme; as found without it.")
]
_PICTURE = {
    "requestBody": {
        "required": True,
        "content": {"image/*": {"schema": {"type": "string", "format": "binary"}}},
    }
}
_CSV = {"requestBody": {"required": True, "content": {"text/csv": {"schema": {"type": "string"}}}}}


@router.post("/palette", openapi_extra=_PICTURE)
async def lift_palette(
    request: Request,
    white: Annotated[
        str | None,
        Query(
            pattern=r"^[0-9]{1,6}(,[0-9]{1,6}){3}$",
            description="A patch known to be white or grey: left,top,width,height in pixels of the upright picture.",
        ),
    ] = None,
    lrv: Annotated[
        float | None, Query(gt=0, le=100, description="How light that patch is: 18 for a grey card.")
    ] = None,
    recorded: bool = False,
    most: Annotated[int, Query(ge=1, le=24)] = 8,
) -> dict[str, Any]:
    """Lift the colors of a picture and how much of each; the picture is not kept, nor anything it says of place and time."""
    kind = request.headers.get("content-type", "").lower()
    if not kind.startswith("image/"):
        raise Refused(
            415, f"a body of type `{kind[:80]}` is not taken here", "send a picture as image/jpeg or so"
        )
    data = await request.body()
    parts = [int(part) for part in white.split(",")] if white else None
    patch = (parts[0], parts[1], parts[2], parts[3]) if parts else None
    return await run_in_threadpool(
        lifted, data, white=patch, lrv=lrv if patch else None, recorded=recorded and not patch, most=most
    )


@router.post("/jobs/{job}/libraries", status_code=201, openapi_extra=_CSV)
async def add_library(
    request: Request,
    job: JobId,
    desk: AtDesk,
    halfdrop_name: Annotated[str | None, Header(description="The file's name, percent-encoded.")] = None,
) -> dict[str, Any]:
    """Keep a library of swatches (CSV) with a job; a fault in it is told by row and column, and nothing is kept."""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != "text/csv":
        raise Refused(415, f"a body of type `{kind[:80]}` is not taken here", "send a library as text/csv")
    name = unquote(halfdrop_name or "", errors="replace").replace("\\", "/").rsplit("/", 1)[-1].strip()
    name = "".join(c for c in name if c.isprintable())[:120] or "swatches.csv"
    data = await request.body()
    kept: dict[str, Any] = await run_in_threadpool(keep_library, desk.bench.store, job, data, name)
    desk.hub.tell(f"job {job}", "files", {})
    return kept


@router.get("/jobs/{job}/libraries")
def list_libraries(job: JobId, desk: AtDesk) -> dict[str, Any]:
    """List a job's swatch libraries and how many swatches each has."""
    return {"libraries": libraries(desk.bench.store, job)}


@router.get("/jobs/{job}/libraries/{sha256}/swatches")
def search_library(
    job: JobId,
    sha256: Sha,
    desk: AtDesk,
    near: Annotated[str | None, Query(max_length=60, description="#7a8b6f, or L*, a*, b*.")] = None,
    words: Annotated[str, Query(max_length=120)] = "",
    count: Annotated[int, Query(ge=1, le=200)] = 12,
) -> dict[str, Any]:
    """Search a library: the nearest to a color first, only those that have the words."""
    return found_in(desk.bench.store, job, sha256, near=near, words=words, count=count)


@router.get("/jobs/{job}/rooms/{room}/colors")
def colors_of(job: JobId, room: RoomId, desk: AtDesk, scheme: Scheme = None) -> dict[str, Any]:
    """Return a room's colors: swatches by day and of an evening, what wears them and how much is seen, measures, findings."""
    revision, state = desk.bench.state(job, scheme)
    state.case(room)
    return {"revision": revision, "room": room, **colors_json(state.auditor, room, state.findings(room))}


class Give(Body):
    """A thing of the room, by its path, and the swatch it is given."""

    path: str = Field(max_length=200)
    swatch: str = Field(max_length=40)
    scheme: str | None = Field(default=None, max_length=40)


@router.post("/jobs/{job}/rooms/{room}/colors/give")
def give_color(job: JobId, room: RoomId, desk: AtDesk, give: Give) -> dict[str, Any]:
    """Return the patch that gives a thing a color: as found what it wears, under a scheme what is done; nothing is kept."""
    revision, state = desk.bench.state(job, give.scheme)
    state.case(room)
    made = given(state.auditor, room, give.path, give.swatch, scheme=give.scheme is not None)
    return {"revision": revision, **made}


class TryColors(Body):
    """A patch on the job under the scheme, to be seen in color."""

    scheme: str | None = Field(default=None, max_length=40)
    patch: list[dict[str, Any]] = Field(min_length=1, max_length=400)


@router.post("/jobs/{job}/rooms/{room}/colors/try")
def try_colors(job: JobId, room: RoomId, desk: AtDesk, trial: TryColors) -> dict[str, Any]:
    """Return the board and the tints of a room under a patch; nothing is kept."""
    revision, state = desk.bench.state(job, trial.scheme)
    patch = check_patch(trial.patch)
    after = state.after(patch)
    check_resolves(state, after, touched(patch))
    return {"revision": revision, **shown_in(after.auditor, room)}


class ArtShare(Body):
    """One color of a picture: L* a* b*, and its share."""

    lab: tuple[
        Annotated[float, Field(ge=0, le=100)],
        Annotated[float, Field(ge=-200, le=200)],
        Annotated[float, Field(ge=-200, le=200)],
    ]
    share: float = Field(gt=0, le=1, allow_inf_nan=False)


class Start(Body):
    """What to start from: a work of the room whose colors are recorded, or a palette; and where swatches are chosen from."""

    scheme: str | None = Field(default=None, max_length=40)
    art: str | None = Field(default=None, max_length=40)
    palette: list[ArtShare] | None = Field(default=None, min_length=1, max_length=24)
    name: str = Field(default="", max_length=80)
    library: str | None = Field(default=None, pattern=r"^[0-9a-f]{64}$")
    seed: int = Field(default=0, ge=0, le=1_000_000)


@router.post("/jobs/{job}/rooms/{room}/color-schemes")
def start_from_art(job: JobId, room: RoomId, desk: AtDesk, start: Start) -> dict[str, Any]:
    """Return three schemes that start from a picture: what each thing wears, how it measures, its steps; nothing is kept."""
    if (start.art is None) == (start.palette is None):
        raise Refused(422, "three schemes start from `art` or from a `palette`, one of them")
    revision, state = desk.bench.state(job, start.scheme)
    state.case(room)
    library = library_of(desk.bench.store, job, start.library) if start.library else None
    palette = [one.model_dump() for one in start.palette] if start.palette else None
    made = schemes_from(
        state.auditor, room, art=start.art, palette=palette, name=start.name, library=library, seed=start.seed
    )
    return {"revision": revision, "schemes": made}
