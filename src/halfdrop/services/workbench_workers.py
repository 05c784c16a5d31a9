"""A pool of processes behind the standard executor interface, whose work can be stopped while it runs.

The standard library's own pool cannot let go of one running piece: it waits, or breaks as a whole. Here each worker has
one piece at a time; to stop it is to end its process and start another when there is work again. A worker that dies
takes down its own piece and nothing else.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import traceback
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess
from queue import SimpleQueue
from threading import Lock, Thread
from typing import Any, TypeVar

from halfdrop.base.errors import HalfdropError

T = TypeVar("T")

_SPAWN = multiprocessing.get_context("spawn")  # a fork would copy locks that other threads hold


class WorkerDiedError(BrokenExecutor):
    """The process that did a piece ended before it was done."""


class Stoppable(Future[T]):
    """A future whose work can be stopped while it runs."""

    def __init__(self) -> None:
        super().__init__()
        self.stopped = False
        self._end: Callable[[], None] | None = None
        self._turn = Lock()

    def stop(self) -> None:
        """Cancel it where it waits; end its process where it runs. Where it is done, nothing happens."""
        if self.cancel():
            return
        with self._turn:
            self.stopped = True
            if self._end is not None:
                self._end()

    def running_in(self, end: Callable[[], None] | None) -> None:
        """Say what ends the work; None when it is over."""
        with self._turn:
            self._end = end
            if end is not None and self.stopped:
                end()


_Job = tuple[Stoppable[Any], Callable[..., Any], tuple[Any, ...], dict[str, Any]]


class Workers(Executor):
    """So many processes, each begun when it is first needed.

    Parameters
    ----------
    count : int
        Most pieces at once.
    """

    def __init__(self, count: int) -> None:
        self._waiting: SimpleQueue[_Job | None] = SimpleQueue()
        self._workers = [_Worker(self._waiting) for _ in range(count)]
        self._closed = False
        self._lock = Lock()

    def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Stoppable[T]:
        """Have a function run in a worker; it and its arguments must be such that they can be sent to one."""
        future: Stoppable[T] = Stoppable()
        with self._lock:
            if self._closed:
                raise RuntimeError("the workers are let go already")
            self._waiting.put((future, fn, args, kwargs))
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """Let the workers go: after what was submitted, or at once with `cancel_futures`."""
        with self._lock:
            if not self._closed:
                self._closed = True
                if cancel_futures:
                    self._cancel_waiting()
                for _ in self._workers:
                    self._waiting.put(None)
        for worker in self._workers:
            if cancel_futures:
                worker.stop()
            if wait:
                worker.thread.join()

    def _cancel_waiting(self) -> None:
        while not self._waiting.empty():
            job = self._waiting.get()
            if job is not None:
                job[0].cancel()


class _Worker:
    """A thread with a process: takes a piece, has it done, passes on what came of it."""

    def __init__(self, waiting: SimpleQueue[_Job | None]) -> None:
        self._waiting = waiting
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._now: Stoppable[Any] | None = None
        self.thread = Thread(target=self._run, daemon=True)
        self.thread.start()

    def stop(self) -> None:
        """Stop what is under way."""
        now = self._now
        if now is not None:
            now.stop()

    def _run(self) -> None:
        while (job := self._waiting.get()) is not None:
            future, call, args, kwargs = job
            if future.set_running_or_notify_cancel():
                self._now = future
                self._do(future, (call, args, kwargs))
                self._now = None
        self._let_go()

    def _do(self, future: Stoppable[Any], what: tuple[Any, ...]) -> None:
        try:
            process, pipe = self._ready()
            future.running_in(process.kill)
            pipe.send(what)
            wait([pipe, process.sentinel])
            done, value = pipe.recv() if pipe.poll() else (False, WorkerDiedError("the worker ended"))
        except (EOFError, BrokenPipeError, ConnectionResetError):
            done, value = False, WorkerDiedError("the worker ended")
        except Exception as error:  # what cannot be sent, or not be read
            done, value = False, error
        future.running_in(None)
        if future.stopped:
            self._let_go()
            future.set_exception(CancelledError())
        elif done:
            future.set_result(value)
        else:
            if isinstance(value, WorkerDiedError):
                self._let_go()
            future.set_exception(value)

    def _ready(self) -> tuple[SpawnProcess, Connection]:
        if self._process is None or self._pipe is None or not self._process.is_alive():
            self._let_go()
            self._pipe, theirs = _SPAWN.Pipe()
            self._process = _SPAWN.Process(target=_serve, args=(theirs,), daemon=True)
            self._process.start()
            theirs.close()
        return self._process, self._pipe

    def _let_go(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process.join()
        if self._pipe is not None:
            self._pipe.close()
        self._process = self._pipe = None


def _serve(pipe: Connection) -> None:
    """Do one piece after another; run in the worker. Ctrl-C is for the server, which ends its workers."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_leave_with_server, daemon=True).start()
    while True:
        try:
            call, args, kwargs = pipe.recv()
        except EOFError:
            return
        answer: tuple[bool, Any]
        try:
            answer = (True, call(*args, **kwargs))
        except Exception as error:
            if not isinstance(error, HalfdropError):
                error.add_note("in the worker:\n" + traceback.format_exc())
            answer = (False, error)
        try:
            pipe.send(answer)
        except Exception as error:
            pipe.send((False, RuntimeError(f"what the worker made cannot be sent: {error}")))


def _leave_with_server() -> None:
    """End with the server where it was killed."""
    server = multiprocessing.parent_process()
    if server is not None:
        wait([server.sentinel])
        os._exit(1)
