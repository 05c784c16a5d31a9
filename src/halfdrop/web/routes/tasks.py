"""Tasks: how far heavy work is, what came of it, and stopping it."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Response
from fastapi.responses import JSONResponse, StreamingResponse

from halfdrop.services.workbench_tasks import OVER, Task, reason
from halfdrop.web.errors import Refused, body_of
from halfdrop.web.events import Event, stream
from halfdrop.web.parts import AtDesk

router = APIRouter(prefix="/api/tasks", tags=["tasks"])

TaskId = Annotated[str, Path(max_length=40, description="The task's id.")]


def task_json(task: Task) -> dict[str, Any]:
    """Return a task; with its result where that is JSON, its error where it failed."""
    out = task.to_json()
    if task.status == "done":
        out["result"] = f"/api/tasks/{task.id}/result" if isinstance(task.result, bytes) else task.result
    if task.status == "failed":
        out |= body_of(reason(task))[1]
    return out


@router.get("/{task}")
def read_task(task: TaskId, desk: AtDesk) -> dict[str, Any]:
    """Return how far a task is, and what came of it."""
    return task_json(desk.tasks.get(task))


@router.get("/{task}/events", response_class=StreamingResponse)
async def task_events(task: TaskId, desk: AtDesk) -> StreamingResponse:
    """Tell a task's `progress`, then `done`, `failed` or `cancelled`, as server-sent events."""
    one = desk.tasks.get(task)

    async def first() -> list[Event]:
        return [(one.status if one.status in OVER else "progress", task_json(one))]

    return stream(desk.hub, f"task {task}", first, last=OVER)


@router.get("/{task}/result", response_class=Response)
def result(task: TaskId, desk: AtDesk) -> Response:
    """Return what came of a task: a PDF, or JSON."""
    one = desk.tasks.get(task)
    if one.status == "failed":
        status, body = body_of(reason(one))
        return JSONResponse(body, status)
    if one.status != "done":
        raise Refused(409, f"the task is {one.status}", "listen to its events, and ask again when it is done")
    if isinstance(one.result, bytes):
        headers = {"content-disposition": f"inline; filename*=UTF-8''{one.job}.pdf"}
        return Response(one.result, media_type="application/pdf", headers=headers)
    return JSONResponse(one.result)


@router.delete("/{task}")
def cancel(task: TaskId, desk: AtDesk) -> dict[str, Any]:
    """Stop a task, in the middle of what it does; one that is over stays as it is."""
    return task_json(desk.tasks.cancel(task))
