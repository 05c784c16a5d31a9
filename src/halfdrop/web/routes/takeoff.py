"""The take-off and the install sheets: counted and printed as tasks."""

from __future__ import annotations

from typing import Any, Literal

from fastapi import APIRouter
from pydantic import Field

from halfdrop.services.workbench_takeoff import install_plan, takeoff_plan
from halfdrop.web.parts import AtDesk, Body, JobId

router = APIRouter(prefix="/api", tags=["take-off"])


class Count(Body):
    """Under which scheme."""

    scheme: str | None = Field(default=None, max_length=40)


class Print(Body):
    """Whose sheets: a trade's, those of one thing by its id or path, or all."""

    scheme: str | None = Field(default=None, max_length=40)
    trade: Literal["installer", "workroom", "hanger", "painter", "art"] | None = None
    of: str | None = Field(default=None, max_length=120)


@router.post("/jobs/{job}/takeoff", status_code=202)
def count(job: JobId, desk: AtDesk, asked: Count | None = None) -> dict[str, Any]:
    """Count a job; the answer names the task, whose result is every quantity with its working, and the install sheets."""
    plan = takeoff_plan(desk.bench, job, scheme=(asked or Count()).scheme)
    return desk.tasks.start("takeoff", job, plan).to_json()


@router.post("/jobs/{job}/install", status_code=202)
def install(job: JobId, desk: AtDesk, asked: Print | None = None) -> dict[str, Any]:
    """Print install sheets; the answer names the task, whose result is a PDF."""
    asked = asked or Print()
    plan = install_plan(desk.bench, job, scheme=asked.scheme, trade=asked.trade, thing=asked.of)
    return desk.tasks.start("install", job, plan).to_json()
