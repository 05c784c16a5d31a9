"""What the writing processes of the tests do; module-level, so that a fresh process can find it."""

from __future__ import annotations

import contextlib
from multiprocessing.connection import Connection
from typing import Any

from halfdrop.store import Conflict, Store, StoreError
from tests.store.samples import put


def keep_appending(where: str, id: str, tag: str, acknowledged: Connection) -> None:
    """Append change after change until killed, and tell of each once the store has acknowledged it.

    Where the store does not answer, tell that and end.
    """
    with contextlib.closing(Store.open(where)) as store:
        base = store.job(id).revision
        for i in range(100_000):
            patch = growth(tag, i)
            try:
                done = store.append(id, patch, base=base, author=tag, message=f"change {i}")
            except StoreError as error:
                acknowledged.send(error.message)
                return
            base = done.revision
            acknowledged.send((done.revision, patch))


def growth(tag: str, i: int) -> list[dict[str, Any]]:
    """Return the patch of one change: a text that differs each time, long enough to span pages now and then."""
    return [{"op": "add", "path": "/job/brief", "value": f"{tag} {i} " + "word " * (i * 37 % 700)}]


def append_some(where: str, id: str, path: str, count: int, told: Connection) -> None:
    """Append changes of one place on the revision last seen, again on the latest after a conflict."""
    with contextlib.closing(Store.open(where)) as store:
        base, conflicts = store.job(id).revision, 0
        for i in range(count):
            while True:
                try:
                    done = store.append(id, put(path, f"{i + 1} in"), base=base, author=path, message=str(i))
                    break
                except Conflict:
                    conflicts += 1
                    base = store.job(id).revision
            base = done.revision
        told.send(conflicts)
