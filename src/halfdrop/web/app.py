"""The ASGI application: routes over a workbench, behind the door."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Iterable
from concurrent.futures import Executor
from contextlib import asynccontextmanager
from dataclasses import dataclass

from fastapi import FastAPI

from halfdrop import __version__
from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_jobs import JobList
from halfdrop.services.workbench_tasks import Task, Tasks, pool
from halfdrop.store import Store
from halfdrop.web import errors, pages
from halfdrop.web.events import Hub
from halfdrop.web.guard import Guard, Keys
from halfdrop.web.parts import Desk
from halfdrop.web.routes import art, colors, facts, files, jobs, rooms, takeoff, tasks


@dataclass(frozen=True)
class Site:
    """What is served: the guarded application, the bare one (for its description), and what stands behind it."""

    asgi: Guard
    app: FastAPI
    desk: Desk


def make_site(
    store: Store,
    *,
    executor: Callable[[], Executor] = pool,
    hosts: Iterable[str] = (),
    keys: Keys | None = None,
) -> Site:
    """Return the workbench over a store as an ASGI application.

    Parameters
    ----------
    store : Store
        Open; whoever opened it closes it.
    executor : callable
        Makes what heavy work runs on; any `concurrent.futures.Executor` will do.
    hosts : iterable of str
        Names by which the server may be called, besides loopback's.
    keys : Keys, optional
        Where given, nothing is answered without a key.
    """
    hub = Hub()

    def told(job: str, event: dict[str, object]) -> None:
        hub.tell(f"job {job}", "removed" if event["kind"] == "removed" else "revision", event)

    def task_told(task: Task, event: str) -> None:
        hub.tell(f"task {task.id}", event, tasks.task_json(task))

    bench = Workbench(store, told)
    desk = Desk(bench, JobList(bench), Tasks(executor, task_told), hub)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        yield
        hub.close()
        desk.tasks.close()

    app = FastAPI(
        title="halfdrop workbench",
        version=__version__,
        summary="A decorator's job: read, changed by patches, judged, drawn and bound.",
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=lifespan,
        responses=errors.RESPONSES,
    )
    app.state.desk = desk
    errors.install(app)
    for routes in (jobs, rooms, art, takeoff, tasks, files, colors, facts):
        app.include_router(routes.router)
    pages.install(app)
    return Site(Guard(app, hosts=hosts, keys=keys, scripts=pages.import_maps()), app, desk)
