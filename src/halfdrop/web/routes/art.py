"""Art: what a room has to hang, and where works could hang together."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from pydantic import Field

from halfdrop.base.errors import InputError, UsageError
from halfdrop.base.units import Length
from halfdrop.services.hanging_room import RoomAsk
from halfdrop.services.workbench_art import art_of, hang_ways
from halfdrop.web.errors import Refused
from halfdrop.web.parts import AtDesk, Body, JobId, RoomId

router = APIRouter(prefix="/api", tags=["art"])


class Hang(Body):
    """Which works, as what, where; lengths as typed."""

    scheme: str | None = Field(default=None, max_length=40)
    art: list[Annotated[str, Field(max_length=40)]] = Field(min_length=1, max_length=24)
    form: Literal["row", "grid", "stack", "cluster"] = "row"
    wall: str | None = Field(default=None, max_length=8)
    over: str | None = Field(default=None, max_length=40)
    gap: str | None = Field(default=None, max_length=40)
    center: str | None = Field(default=None, max_length=40)
    candidates: int = Field(default=3, ge=1, le=6)
    seed: int = Field(default=0, ge=0, le=1000)


@router.get("/jobs/{job}/rooms/{room}/art")
def room_art(
    job: JobId, room: RoomId, desk: AtDesk, scheme: Annotated[str | None, Query(max_length=40)] = None
) -> dict[str, Any]:
    """Return the works of a room, hung or waiting, and what they may hang over."""
    revision, state = desk.bench.state(job, scheme)
    return {"revision": revision, **art_of(state.case(room))}


@router.post("/jobs/{job}/rooms/{room}/hang")
def hang(job: JobId, room: RoomId, desk: AtDesk, asked: Hang) -> dict[str, Any]:
    """Return where works could hang: each way with the patch that hangs them so. Nothing is kept."""
    revision, state = desk.bench.state(job, asked.scheme)
    ask = RoomAsk(
        tuple(asked.art), form=asked.form, wall=asked.wall, over=asked.over, gap=_length(asked.gap, "gap"),
        center=_length(asked.center, "center"), candidates=asked.candidates, seed=asked.seed,
    )  # fmt: skip
    try:
        return {"revision": revision, **hang_ways(state.case(room), ask)}
    except UsageError as error:
        raise Refused(422, error.message, hint=error.hint) from None


def _length(text: str | None, key: str) -> float | None:
    if text is None or not text.strip():
        return None
    try:
        return float(Length.parse(text))
    except InputError as error:
        raise Refused(422, f"{key}: {error.message}", hint=error.hint) from None
