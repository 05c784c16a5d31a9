"""What the routes share: the workbench behind the application, who asks, the revision they saw, bodies read with care."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any
from urllib.parse import unquote

from fastapi import Depends, Header, Path, Request
from pydantic import BaseModel, ConfigDict

from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_jobs import JobList
from halfdrop.services.workbench_tasks import Tasks
from halfdrop.web.errors import Refused
from halfdrop.web.events import Hub

#: JSON numbers longer than this are refused before they are read.
_DIGITS = 40


@dataclass
class Desk:
    """Everything a route needs."""

    bench: Workbench
    jobs: JobList
    tasks: Tasks
    hub: Hub


def desk_of(request: Request) -> Desk:
    """Return the desk of the application that answers."""
    desk: Desk = request.app.state.desk
    return desk


AtDesk = Annotated[Desk, Depends(desk_of)]
JobId = Annotated[str, Path(max_length=80, description="The job's id.")]
RoomId = Annotated[str, Path(max_length=40, description="The room's id in the job.")]


def _said(value: str | None, otherwise: str, most: int) -> str:
    """Return a header's text, percent-encoded as it came, fit for one line."""
    text = unquote(value or "", errors="replace")
    text = "".join(c if c.isprintable() else " " for c in text)
    return " ".join(text.split())[:most] or otherwise


def author_of(
    halfdrop_author: Annotated[str | None, Header(description="Who asks, percent-encoded.")] = None,
) -> str:
    """Return who makes a change."""
    return _said(halfdrop_author, "someone", 120)


def message_of(
    halfdrop_message: Annotated[
        str | None, Header(description="What the change is, percent-encoded.")
    ] = None,
) -> str:
    """Return what a change says of itself; empty where it says nothing."""
    return _said(halfdrop_message, "", 300)


Author = Annotated[str, Depends(author_of)]
Message = Annotated[str, Depends(message_of)]

Change = Annotated[
    str | None, Header(max_length=64, description="The sender's own mark: sent twice, kept once.")
]

_TAG = re.compile(r'(?:W/)?"?([0-9]{1,18})"?')


def base_of(
    if_match: Annotated[str | None, Header(description='The revision the sender saw: `"7"`.')] = None,
) -> int:
    """Return the revision that a change was made on.

    Raises
    ------
    Refused
        428 without the header, 400 where it is no revision.
    """
    if if_match is None:
        raise Refused(428, "a change says which revision it was made on", 'send `If-Match: "<revision>"`')
    match = _TAG.fullmatch(if_match.strip())
    if match is None:
        raise Refused(400, f"`{if_match[:40]}` is no revision", 'send `If-Match: "<revision>"`')
    return int(match[1])


Base = Annotated[int, Depends(base_of)]


class Body(BaseModel):
    """A JSON body: unknown members are faults."""

    model_config = ConfigDict(extra="forbid")


async def json_of(request: Request, *media: str) -> Any:
    """Read a JSON body strictly.

    Raises
    ------
    Refused
        415 where it is of another type, 400 where it is no JSON.
    """
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind not in media:
        raise Refused(415, f"a body of type `{kind[:80]}` is not taken here", f"send {' or '.join(media)}")
    return strict_json(await request.body())


def strict_json(data: bytes) -> Any:
    """Read JSON that another program can read too: no NaN, no endless digits, no bottomless nesting.

    Raises
    ------
    Refused
        400 with the reason.
    """

    def refuse(text: str) -> Any:
        raise ValueError(f"{text} is no number of JSON")

    def whole(text: str) -> int:
        if len(text) > _DIGITS:
            raise ValueError(f"a number has more than {_DIGITS} digits")
        return int(text)

    def real(text: str) -> float:
        value = float(text)
        if value in (float("inf"), float("-inf")):
            raise ValueError(f"{text[:40]} is too large a number")
        return value

    try:
        return json.loads(data.decode("utf-8"), parse_constant=refuse, parse_int=whole, parse_float=real)
    except RecursionError:
        raise Refused(400, "the body cannot be read as JSON: it is nested too deep") from None
    except ValueError as error:
        raise Refused(400, f"the body cannot be read as JSON: {str(error)[:200]}") from None


def body_schema(model: type[BaseModel] | dict[str, Any], media: str = "application/json") -> dict[str, Any]:
    """Return the OpenAPI description of a body that a route reads itself."""
    schema = model if isinstance(model, dict) else model.model_json_schema()
    return {"requestBody": {"required": True, "content": {media: {"schema": schema}}}}


Now = Callable[[], float]
