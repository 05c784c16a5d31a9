"""Killed in the middle of writing: whatever was acknowledged is there, and the document is what the history says."""

from __future__ import annotations

import contextlib
import multiprocessing
import random
import time
from typing import Any

from halfdrop.job.patch import apply
from halfdrop.store import Store
from tests.store.conftest import Place
from tests.store.samples import begin
from tests.store.server import Server
from tests.store.writing import keep_appending

_PROCESSES = multiprocessing.get_context("forkserver")
_PROCESSES.set_forkserver_preload(["tests.store.writing"])

#: How often the writer is killed on each database.
ROUNDS = 20


def _begin_writing(where: str, id: str, tag: str) -> tuple[Any, Any]:
    mine, theirs = _PROCESSES.Pipe(duplex=False)
    process = _PROCESSES.Process(target=keep_appending, args=(where, id, tag, theirs), daemon=True)
    process.start()
    theirs.close()
    return process, mine


def _heard(pipe: Any) -> list[Any]:
    """Return all that a writer told before its end, however it ended."""
    told = []
    with contextlib.suppress(EOFError, ConnectionResetError):
        while True:
            told.append(pipe.recv())
    return told


def _check(store: Store, id: str, acknowledged: dict[int, Any]) -> None:
    """Check that each acknowledged revision is kept as told, and that the document is the replay of all."""
    history = store.revisions(id)
    assert [revision.number for revision in history] == list(range(1, len(history) + 1))
    kept = {revision.number: revision.patch for revision in history}
    assert {number: kept.get(number) for number in acknowledged} == acknowledged
    document = store.document(id, 1)
    for revision in history:
        document = apply(document, revision.patch)
    assert store.document(id) == document
    assert store.job(id).revision == len(history)


def test_nothing_acknowledged_is_lost_when_the_writer_is_killed(place: Place) -> None:
    """`kill -9` at random moments, again and again on one store: at most the one change then under way is in doubt."""
    where, rng = place(), random.Random(20)
    with contextlib.closing(Store.open(where)) as store:
        id = begin(store).id
    acknowledged: dict[int, Any] = {}
    for i in range(ROUNDS):
        process, pipe = _begin_writing(where, id, f"round {i}")
        told = [pipe.recv()]
        time.sleep(rng.uniform(0, 0.06))
        process.kill()
        told += _heard(pipe)
        process.join()
        assert process.exitcode == -9
        acknowledged |= dict(told)
        with contextlib.closing(Store.open(where)) as store:
            _check(store, id, acknowledged)
            in_doubt = store.job(id).revision - len(acknowledged) - 1
            assert 0 <= in_doubt <= i + 1
    assert len(acknowledged) > 2 * ROUNDS


def test_nothing_acknowledged_is_lost_when_the_server_is_killed(postgres: Server) -> None:
    """PostgreSQL stopped as by a power cut while a client writes: the client is told, and after a restart all is there."""
    where = postgres.new()
    survivor = Store.open(where)
    id = begin(survivor).id
    process, pipe = _begin_writing(where, id, "writer")
    told = [pipe.recv()]
    time.sleep(0.1)
    postgres.stop()
    told += _heard(pipe)
    process.join()
    postgres.start()
    assert isinstance(told.pop(), str)
    assert len(told) > 2
    _check(survivor, id, dict(told))
    survivor.close()
