"""One JSON shape for every error, whoever raised it; our own faults are told apart and never shown in full."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Mapping
from typing import Any, Literal

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from pydantic import BaseModel
from starlette.exceptions import HTTPException

from halfdrop.base.errors import HalfdropError, InputErrors, UsageError
from halfdrop.services.workbench_state import UnknownRoomError
from halfdrop.services.workbench_tasks import TooManyTasksError, UnknownTaskError, WorkerLostError
from halfdrop.store import Busy, Conflict, Missing, Revision, StoreError, TooLarge
from halfdrop.web.shapes import revision_json

Kind = Literal["usage", "input", "conflict", "missing", "too-large", "forbidden", "busy", "bug"]


class Place(BaseModel):
    """Where a fault lies."""

    file: str | None = None
    line: int | None = None
    path: str | None = None


class ErrorShape(BaseModel):
    """One error: what is wrong, where, and what to do."""

    message: str
    at: Place | None = None
    hint: str | None = None
    kind: Kind
    errors: list[ErrorShape] = []


class ErrorBody(BaseModel):
    """The body of every answer that is not a success; a conflict names the later revisions and where they meet."""

    error: ErrorShape
    revisions: list[dict[str, Any]] | None = None
    meets: list[str] | None = None


#: What any route may answer, for the OpenAPI description.
RESPONSES: dict[int | str, dict[str, Any]] = {
    code: {"model": ErrorBody, "description": text}
    for code, text in (
        (400, "The request cannot be read."),
        (403, "Not from this workbench's own page."),
        (404, "There is no such thing."),
        (405, "Not done with this method."),
        (409, "Others changed the same thing since, or it is not done yet."),
        (413, "More than is taken."),
        (415, "A body of another type is wanted."),
        (422, "What was sent is not valid."),
        (428, "A change says which revision it was made on."),
        (429, "Enough is under way."),
        (500, "A bug of ours; the job is as it was."),
        (503, "The store is busy or cannot be reached."),
    )
}

_KINDS: dict[int, Kind] = {401: "forbidden", 403: "forbidden", 404: "missing", 409: "conflict", 413: "too-large",
                           500: "bug", 503: "busy"}  # fmt: skip
_WORDS = {
    404: "there is nothing at this address",
    405: "this address does not take that method",
}


class Refused(HTTPException):
    """A refusal of the web layer itself: status, message, hint."""

    def __init__(
        self, status: int, message: str, hint: str | None = None, headers: Mapping[str, str] | None = None
    ) -> None:
        super().__init__(status, message, dict(headers) if headers else None)
        self.hint = hint


def shape(message: str, kind: Kind, hint: str | None = None) -> dict[str, Any]:
    """Return an error as its JSON body."""
    return {"error": {"message": message, "at": None, "hint": hint, "kind": kind, "errors": []}}


def of_halfdrop(error: HalfdropError, kind: Kind) -> dict[str, Any]:
    """Return one of our errors as the inner shape."""
    at = error.at
    inner = error.errors if isinstance(error, InputErrors) else ()
    first = inner[0] if len(inner) == 1 else None
    return {
        "message": first.message if first is not None else error.message,
        "at": None if at is None and first is None else _place(first.at if first is not None else at),
        "hint": (first.hint if first is not None else None) or error.hint,
        "kind": kind,
        "errors": [of_halfdrop(e, kind) for e in inner],
    }


def _place(at: Any) -> dict[str, Any] | None:
    return None if at is None else {"file": None, "line": at.line, "path": at.path}


def status_of(error: HalfdropError) -> tuple[int, Kind]:
    """Return the HTTP status and the kind of one of our errors."""
    if isinstance(error, Conflict):
        return 409, "conflict"
    if isinstance(error, Missing | UnknownRoomError | UnknownTaskError):
        return 404, "missing"
    if isinstance(error, TooManyTasksError):
        return 429, "busy"
    if isinstance(error, WorkerLostError):
        return 500, "bug"
    if isinstance(error, TooLarge):
        return 413, "too-large"
    if isinstance(error, Busy | StoreError):
        return 503, "busy"
    if isinstance(error, UsageError):
        return 422, "usage"
    return 422, "input"


def body_of(error: HalfdropError) -> tuple[int, dict[str, Any]]:
    """Return status and JSON body of one of our errors."""
    status, kind = status_of(error)
    body: dict[str, Any] = {"error": of_halfdrop(error, kind)}
    if isinstance(error, Conflict):
        body["revisions"] = [revision_json(r) for r in _revisions(error)]
        body["meets"] = list(error.meets)
    return status, body


def _revisions(error: Conflict) -> tuple[Revision, ...]:
    return error.revisions


def install(app: FastAPI) -> None:
    """Make an application answer every error in the one shape."""

    @app.exception_handler(HalfdropError)
    async def ours(request: Request, error: HalfdropError) -> JSONResponse:
        status, body = body_of(error)
        return JSONResponse(body, status)

    @app.exception_handler(HTTPException)
    async def refused(request: Request, error: HTTPException) -> JSONResponse:
        status = 400 if error.status_code < 400 else error.status_code
        message = error.detail if isinstance(error, Refused) else _WORDS.get(status, error.detail)
        body = shape(str(message), _KINDS.get(status, "usage"), getattr(error, "hint", None))
        return JSONResponse(body, status, headers=error.headers)

    @app.exception_handler(RequestValidationError)
    async def unread(request: Request, error: RequestValidationError) -> JSONResponse:
        faults = [_fault(e) for e in error.errors()[:50]]
        first = faults[0] if faults else {"message": "the request is not valid", "at": None}
        body = {
            "message": first["message"],
            "at": first["at"],
            "hint": None,
            "kind": "usage",
            "errors": faults,
        }
        return JSONResponse({"error": body}, 422)

    @app.exception_handler(Exception)
    async def bug(request: Request, error: Exception) -> JSONResponse:
        return JSONResponse(bug_body(error), 500)


def bug_body(error: BaseException) -> dict[str, Any]:
    """Print a bug of ours to stderr, and return what the page is told of it."""
    traceback.print_exception(error, file=sys.stderr)
    return shape(
        "this is a bug in halfdrop, not in your job; the job is as it was",
        "bug",
        "keep the lines on the terminal, and report them",
    )


def _fault(error: Any) -> dict[str, Any]:
    place = [str(part) for part in error.get("loc", ()) if part not in ("body", "query", "path", "header")]
    where = "/".join(place)[:200]
    said = str(error.get("msg", "not valid"))
    said = said[:1].lower() + said[1:]
    message = f"`{where}`: {said}" if where else f"the request cannot be read: {said}"
    message = message.encode("utf-8", "replace").decode()[:500]
    at = {"file": None, "line": None, "path": where.encode("utf-8", "replace").decode()} if where else None
    return {"message": message, "at": at, "hint": None, "kind": "usage", "errors": []}
