"""Heavy work behind the standard executor interface: cut into pieces, counted as they are done, stopped at once.

A task is a plan: the pieces of its next stage, given what the stages before it gave. Each piece is a plain function
with plain arguments, so that any `concurrent.futures.Executor` will do: a pool of processes here, a cluster's elsewhere.
Progress is how many pieces are done; to cancel is to start no more of them, and to stop those that run where the
executor can (`workbench_workers` can). A worker that dies fails its task.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import sys
import time
import traceback
from collections import OrderedDict
from collections.abc import Callable, Generator
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future
from dataclasses import dataclass, field
from threading import Lock
from typing import Any, Literal

from halfdrop.base.errors import HalfdropError, InputError
from halfdrop.services.workbench_workers import Stoppable, Workers

Status = Literal["waiting", "running", "done", "failed", "cancelled"]
OVER: frozenset[str] = frozenset({"done", "failed", "cancelled"})

#: Most tasks under way at once, and most kept after they ended; for how long [s].
UNDER_WAY, KEPT, KEEP = 16, 64, 1800.0


@dataclass(frozen=True)
class Piece:
    """A function and its arguments, all of which can be sent to another process; what it is called in progress."""

    call: Callable[..., Any]
    arguments: tuple[Any, ...]
    name: str = ""


#: Yields the pieces of a stage, is sent their results in order, and returns the task's result.
Plan = Generator[list[Piece], list[Any], Any]


class UnknownTaskError(InputError):
    """There is no such task (any more)."""


class TooManyTasksError(InputError):
    """As many tasks are under way as are taken."""


@dataclass(eq=False)
class Task:
    """One piece of heavy work.

    Attributes
    ----------
    status : str
        `waiting`, `running`, `done`, `failed` or `cancelled`.
    done, total : int
        Pieces of the stages begun so far.
    at : str
        What was done last.
    error : BaseException or None
        Why it failed.
    """

    id: str
    kind: str
    job: str
    plan: Plan
    status: Status = "waiting"
    done: int = 0
    total: int = 0
    at: str = ""
    result: Any = None
    error: BaseException | None = None
    ended: float = 0.0
    lock: Lock = field(default_factory=Lock)
    futures: list[Future[Any]] = field(default_factory=list)

    def to_json(self) -> dict[str, Any]:
        """Return its state, without the result."""
        return {
            "task": self.id,
            "kind": self.kind,
            "job": self.job,
            "state": self.status,
            "done": self.done,
            "total": self.total,
            "at": self.at,
        }


def pool() -> Executor:
    """Return the executor used by default: a process for each core, at most four."""
    return Workers(max(1, min(4, os.cpu_count() or 1)))


class Tasks:
    """Runs tasks and keeps their results for a while.

    Parameters
    ----------
    executor : callable
        Makes the executor, when it is first needed and again after it broke.
    told : callable, optional
        Called with a task, `progress`, `done`, `failed` or `cancelled`, from any thread.
    now : callable
        A clock that only goes forward [s].
    """

    def __init__(
        self,
        executor: Callable[[], Executor] = pool,
        told: Callable[[Task, str], None] | None = None,
        now: Callable[[], float] = time.monotonic,
    ) -> None:
        self._make = executor
        self._executor: Executor | None = None
        self._told = told or (lambda task, event: None)
        self._now = now
        self._tasks: OrderedDict[str, Task] = OrderedDict()
        self._lock = Lock()

    def start(self, kind: str, job: str, plan: Plan) -> Task:
        """Begin a task.

        Raises
        ------
        TooManyTasksError
            Where enough are under way.
        """
        task = Task(secrets.token_urlsafe(12), kind, job, plan)
        with self._lock:
            self._tidy()
            if sum(t.status not in OVER for t in self._tasks.values()) >= UNDER_WAY:
                raise TooManyTasksError(
                    f"{UNDER_WAY} tasks are under way, the most at once", hint="wait for one, or cancel it"
                )
            self._tasks[task.id] = task
        self._step(task, None)
        return task

    def warm(self, call: Callable[[], None]) -> None:
        """Have a worker ready before the first task asks for one, where there is none yet; a failure is told by the task."""
        with self._lock:
            if self._executor is not None:
                return
        with contextlib.suppress(Exception):
            self._submit(Piece(call, ()))

    def get(self, id: str) -> Task:
        """Return a task.

        Raises
        ------
        UnknownTaskError
            Where there is none, or it ended too long ago.
        """
        with self._lock:
            self._tidy()
            if id not in self._tasks:
                raise UnknownTaskError("there is no such task (any more)", hint="start it again")
            return self._tasks[id]

    def cancel(self, id: str) -> Task:
        """Stop a task, in the middle of a piece where the executor can; one that is over stays as it is."""
        task = self.get(id)
        self._end(task, "cancelled")
        return task

    def close(self) -> None:
        """Cancel everything and let go of the workers."""
        with self._lock:
            tasks, executor = list(self._tasks.values()), self._executor
            self._executor = None
        for task in tasks:
            self._end(task, "cancelled")
        if executor is not None:
            executor.shutdown(wait=False, cancel_futures=True)

    # One stage after another; every step runs in whichever thread ended the stage before.

    def _step(self, task: Task, results: list[Any] | None) -> None:
        try:
            pieces = next(task.plan) if results is None else task.plan.send(results)
            while not pieces:
                pieces = task.plan.send([])
        except StopIteration as stop:
            task.result = stop.value
            self._end(task, "done")
            return
        except Exception as error:
            self._fail(task, error)
            return
        with task.lock:
            if task.status in OVER:
                return
            task.status = "running"
            task.total += len(pieces)
            task.futures = []
        left = len(pieces)
        lock = Lock()

        def ended(future: Future[Any], piece: Piece) -> None:
            nonlocal left
            if task.status in OVER:
                return
            error = CancelledError() if future.cancelled() else future.exception()
            if error is not None:
                self._fail(task, error)
                return
            with lock:
                left -= 1
                last = left == 0
                task.done += 1
                task.at = piece.name
            self._told(task, "progress")
            if last:
                self._step(task, [f.result() for f in task.futures])

        try:
            futures = [self._submit(piece) for piece in pieces]
        except Exception as error:
            self._fail(task, error)
            return
        task.futures = futures
        for future, piece in zip(futures, pieces, strict=True):
            future.add_done_callback(lambda f, p=piece: ended(f, p))  # type: ignore[misc]

    def _submit(self, piece: Piece) -> Future[Any]:
        for attempt in range(2):
            with self._lock:
                if self._executor is None:
                    self._executor = self._make()
                executor = self._executor
            try:
                return executor.submit(piece.call, *piece.arguments)
            except BrokenExecutor:
                self._broken(executor)
                if attempt:
                    raise
        raise AssertionError

    def _broken(self, executor: Executor) -> None:
        with self._lock:
            if self._executor is executor:
                self._executor = None
        executor.shutdown(wait=False, cancel_futures=True)

    def _fail(self, task: Task, error: BaseException) -> None:
        if not isinstance(error, HalfdropError | CancelledError | BrokenExecutor):
            traceback.print_exception(error, file=sys.stderr)
        task.error = error
        self._end(task, "failed")

    def _end(self, task: Task, status: Literal["done", "failed", "cancelled"]) -> None:
        with task.lock:
            if task.status in OVER:
                return
            task.status = status
            task.ended = self._now()
            futures, task.futures = task.futures, []
        for future in futures:
            if isinstance(future, Stoppable):
                future.stop()
            else:
                future.cancel()
        self._told(task, status)

    def _tidy(self) -> None:
        over = [t for t in self._tasks.values() if t.status in OVER]
        gone = over[: max(0, len(over) - KEPT)] + [t for t in over if self._now() - t.ended > KEEP]
        for task in gone:
            self._tasks.pop(task.id, None)


def reason(task: Task) -> HalfdropError:
    """Return why a task failed, fit to be shown."""
    error = task.error
    if isinstance(error, HalfdropError):
        return error
    if isinstance(error, BrokenExecutor):
        return WorkerLostError("the worker that did this ended before it was done", hint="start it again")
    return WorkerLostError(
        "this is a bug in halfdrop, not in your job; the job is as it was",
        hint="keep the lines on the terminal, and report them",
    )


class WorkerLostError(HalfdropError):
    """A worker died, or our own fault ended it."""
