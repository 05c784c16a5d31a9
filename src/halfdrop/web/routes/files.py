"""Pictures of a job: sent in, listed, shown, and taken away."""

from __future__ import annotations

from typing import Annotated, Any
from urllib.parse import unquote

from fastapi import APIRouter, Header, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from halfdrop.services.workbench_pictures import clean_picture
from halfdrop.web.errors import Refused
from halfdrop.web.parts import AtDesk, JobId
from halfdrop.web.shapes import file_json

router = APIRouter(prefix="/api", tags=["files"])

Sha = Annotated[str, Path(pattern=r"^[0-9a-f]{64}$", description="SHA-256 of the bytes, in hexadecimal.")]
_PICTURE = {
    "requestBody": {
        "required": True,
        "content": {"image/*": {"schema": {"type": "string", "format": "binary"}}},
    }
}


@router.post("/jobs/{job}/files", status_code=201, openapi_extra=_PICTURE)
async def add_file(
    request: Request,
    job: JobId,
    desk: AtDesk,
    halfdrop_name: Annotated[str | None, Header(description="The file's name, percent-encoded.")] = None,
    halfdrop_attached: Annotated[
        str | None, Header(description="JSON pointer of what it shows, percent-encoded.")
    ] = None,
) -> dict[str, Any]:
    """Keep a picture for a job: its pixels, upright and in sRGB; where and when it was taken is not kept."""
    kind = request.headers.get("content-type", "").lower()
    if not kind.startswith("image/"):
        raise Refused(
            415, f"a body of type `{kind[:80]}` is not taken here", "send a picture as image/jpeg or so"
        )
    data = await request.body()

    def keep() -> dict[str, Any]:
        clean = clean_picture(data)
        name = unquote(halfdrop_name or "", errors="replace").replace("\\", "/").rsplit("/", 1)[-1].strip()
        name = "".join(c for c in name if c.isprintable())[:120] or "picture"
        attached = unquote(halfdrop_attached or "", errors="replace")
        ref = desk.bench.store.put_file(
            job, clean.data, media_type=clean.media_type, name=name, attached=attached
        )
        return file_json(ref)

    kept = await run_in_threadpool(keep)
    desk.hub.tell(f"job {job}", "files", {})
    return kept


@router.get("/jobs/{job}/files")
def list_files(job: JobId, desk: AtDesk) -> dict[str, Any]:
    """List a job's pictures, in the order they came."""
    return {"files": [file_json(f) for f in desk.bench.store.files(job)]}


@router.delete("/jobs/{job}/files/{sha256}", status_code=204)
def drop_file(
    job: JobId, sha256: Sha, desk: AtDesk, attached: Annotated[str | None, Query(max_length=400)] = None
) -> Response:
    """Take a picture from one place of a job, or from all."""
    desk.bench.store.drop_file(job, sha256, attached)
    desk.hub.tell(f"job {job}", "files", {})
    return Response(status_code=204)


@router.get("/files/{sha256}", response_class=Response)
def read_file(sha256: Sha, desk: AtDesk) -> Response:
    """Return a picture, as what its bytes say it is."""
    stored = desk.bench.store.file(sha256)
    return Response(
        stored.data,
        media_type=stored.media_type,
        headers={
            "cache-control": "private, max-age=31536000, immutable",
            "content-security-policy": "default-src 'none'; sandbox",
        },
    )
