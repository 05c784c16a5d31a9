"""Heavy work behind an executor: counted, stopped, and failed when its worker dies."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from pathlib import Path
from threading import Lock
from typing import Any

import pytest

from halfdrop.base.errors import InputError
from halfdrop.services.workbench_tasks import (
    KEEP,
    KEPT,
    OVER,
    UNDER_WAY,
    Piece,
    Plan,
    Task,
    Tasks,
    TooManyTasksError,
    UnknownTaskError,
    pool,
    reason,
)


def double(n: int) -> int:
    return 2 * n


def die() -> None:
    os._exit(9)


def refuse() -> None:
    raise InputError("the room does not close", hint="tape it again")


def fault() -> None:
    raise RuntimeError("our own")


class Held(Executor):
    """An executor that runs nothing until it is let."""

    def __init__(self) -> None:
        self.waiting: list[tuple[Future[Any], Any, tuple[Any, ...]]] = []

    def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]
        future: Future[Any] = Future()
        self.waiting.append((future, fn, args))
        return future

    def run(self, count: int = 1) -> None:
        for future, fn, args in self.waiting[:count]:
            if future.set_running_or_notify_cancel():
                try:
                    future.set_result(fn(*args))
                except Exception as error:
                    future.set_exception(error)
        del self.waiting[:count]


def two_stages() -> Plan:
    first = yield [Piece(double, (n,), f"piece {n}") for n in range(3)]
    (total,) = yield [Piece(sum, (first,), "sum")]
    return total


def single(call: Any, *arguments: Any) -> Plan:
    (result,) = yield [Piece(call, arguments, "one")]
    return result


def awaited(task: Task, within: float = 60) -> None:
    end = time.monotonic() + within
    while task.status not in OVER:
        assert time.monotonic() < end, "the task did not end"
        time.sleep(0.01)


@pytest.fixture
def told() -> list[tuple[str, int, int]]:
    return []


@pytest.fixture
def held(told: list[tuple[str, int, int]]) -> tuple[Held, Tasks]:
    executor = Held()
    return executor, Tasks(lambda: executor, lambda task, event: told.append((event, task.done, task.total)))


def test_progress_counts_pieces_and_the_next_stage_has_their_results(held, told) -> None:
    """Each piece done is told; the stage after gets what they gave, in order; the result is the plan's own."""
    executor, tasks = held
    task = tasks.start("sum", "job", two_stages())
    executor.run(3)
    executor.run(1)
    assert (task.status, task.result) == ("done", 6)
    assert told == [
        ("progress", 1, 3),
        ("progress", 2, 3),
        ("progress", 3, 3),
        ("progress", 4, 4),
        ("done", 4, 4),
    ]


def test_a_cancelled_task_starts_no_more_pieces(held, told) -> None:
    """What waits is taken back; what was under way changes nothing any more."""
    executor, tasks = held
    task = tasks.start("sum", "job", two_stages())
    executor.run(1)
    tasks.cancel(task.id)
    executor.run(2)
    assert (task.status, task.done) == ("cancelled", 1)
    assert told[-1] == ("cancelled", 1, 3)
    assert not executor.waiting
    assert tasks.cancel(task.id).status == "cancelled"


def test_a_refusal_is_the_tasks_own_and_a_fault_is_ours(held, capsys) -> None:
    """An InputError comes through with its hint; our own fault is told without detail, its trace on stderr."""
    executor, tasks = held
    one, two = tasks.start("x", "job", single(refuse)), tasks.start("x", "job", single(fault))
    executor.run(2)
    assert (one.status, two.status) == ("failed", "failed")
    assert reason(one).hint == "tape it again"
    assert "bug" in reason(two).message
    assert "our own" not in reason(two).message
    assert "our own" in capsys.readouterr().err


def test_tasks_are_bounded_and_forgotten_in_time() -> None:
    """So many at once, so many kept, for so long."""
    now = [0.0]
    executor = Held()
    tasks = Tasks(lambda: executor, now=lambda: now[0])
    first = [tasks.start("x", "job", single(double, n)) for n in range(UNDER_WAY)]
    with pytest.raises(TooManyTasksError):
        tasks.start("x", "job", single(double, 1))
    executor.run(UNDER_WAY)
    for n in range(KEPT):
        tasks.start("x", "job", single(double, n))
        executor.run(1)
    with pytest.raises(UnknownTaskError):
        tasks.get(first[0].id)
    now[0] = KEEP + 1
    with pytest.raises(UnknownTaskError):
        tasks.get(first[-1].id)


@pytest.fixture
def processes() -> Iterator[Tasks]:
    tasks = Tasks(pool)
    yield tasks
    tasks.close()


def test_a_worker_that_dies_fails_its_task_and_the_next_task_runs(processes) -> None:
    """A process killed in the middle of its piece is an error of that task, not a hang; new workers take its place."""
    lost = processes.start("x", "job", single(die))
    awaited(lost)
    assert lost.status == "failed"
    assert "worker" in reason(lost).message
    after = processes.start("x", "job", single(double, 21))
    awaited(after)
    assert (after.status, after.result) == ("done", 42)


def linger(marker: str, seconds: float) -> str:
    Path(marker).write_text("begun")
    time.sleep(seconds)
    Path(marker).write_text("ended")
    return marker


def test_a_running_task_is_stopped_midway(processes, tmp_path: Path) -> None:
    """What a worker is in the middle of ends with it, at once; another task under way beside it is not touched."""
    long, short = tmp_path / "long", tmp_path / "short"
    stopped = processes.start("x", "job", single(linger, str(long), 30.0))
    beside = processes.start("x", "job", single(linger, str(short), 1.5))
    end = time.monotonic() + 30
    while not (long.exists() and short.exists()):
        assert time.monotonic() < end, "the workers did not begin"
        time.sleep(0.02)
    since = time.monotonic()
    assert processes.cancel(stopped.id).status == "cancelled"
    awaited(beside)
    after = processes.start("x", "job", single(double, 4))
    awaited(after)
    assert (beside.status, short.read_text()) == ("done", "ended")
    assert (after.status, after.result) == ("done", 8)
    assert long.read_text() == "begun"
    assert time.monotonic() - since < 20, "it waited for the end of the long one"


def test_what_cannot_be_sent_fails_its_own_task(processes, capsys) -> None:
    """A function or a result that no process can be sent is our fault, said; the workers go on."""
    for call, arguments in ((lambda: 1, ()), (Lock, ())):
        task = processes.start("x", "job", single(call, *arguments))
        awaited(task)
        assert task.status == "failed"
    after = processes.start("x", "job", single(double, 2))
    awaited(after)
    assert after.result == 4


def test_a_worker_is_made_ready_once(held) -> None:
    """Before the first task a worker is asked to do nothing, so that it has loaded what it needs; after that no more."""
    executor, tasks = held
    for _ in range(3):
        tasks.warm(time.monotonic)
    assert len(executor.waiting) == 1
    executor.run(1)
    task = tasks.start("x", "job", single(double, 4))
    executor.run(1)
    assert (task.status, task.result) == ("done", 8)


def test_a_fault_in_a_worker_brings_its_trace(processes, capsys) -> None:
    """What went wrong in the worker's process stands on the server's terminal, with where."""
    task = processes.start("x", "job", single(fault))
    awaited(task)
    said = capsys.readouterr().err
    assert "our own" in said
    assert "in fault" in said


_SERVER = """
import os, time
from halfdrop.services.workbench_tasks import Piece, Tasks, pool
if __name__ == "__main__":
    def plan():
        (number,) = yield [Piece(os.getpid, ())]
        print(number, flush=True)
    Tasks(pool).start("x", "job", plan())
    time.sleep(60)
"""


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs /proc to see the worker")
def test_workers_end_with_a_server_that_was_killed(tmp_path: Path) -> None:
    """After kill -9 of the server no worker stays behind."""
    script = tmp_path / "server.py"
    script.write_text(_SERVER)
    with subprocess.Popen([sys.executable, str(script)], stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        worker = int(server.stdout.readline())
        server.kill()
    end = time.monotonic() + 20
    while _runs(worker):
        assert time.monotonic() < end, "the worker stayed behind"
        time.sleep(0.05)


def _runs(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"


def test_closing_cancels_what_is_under_way() -> None:
    """When the server stops nothing is left running or waiting."""
    tasks = Tasks(lambda: ThreadPoolExecutor(1))
    running = [tasks.start("x", "job", single(time.sleep, 0.2)) for _ in range(3)]
    tasks.close()
    assert {t.status for t in running} <= {"done", "cancelled"}
    assert running[-1].status == "cancelled"
