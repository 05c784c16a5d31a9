"""The store with 1,000 jobs and 100,000 revisions, against plain inserts into SQLite, each flushed, in the same run.

Reference: one table in a file of its own, WAL, `synchronous = FULL`, one row with the same patch text an insert,
one commit each. Both measured with the store full; the disk's flush is in both.
"""

from __future__ import annotations

import json
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from sqlalchemy import insert

from bench.rooms import job as generated
from halfdrop.job.patch import apply
from halfdrop.job.read import validated
from halfdrop.store import Store, documents
from halfdrop.store.checks import packed
from halfdrop.store.history import stamp
from halfdrop.store.tables import jobs, revisions, snapshots

JOBS, LONG, EACH = 1_000, 50_050, 50
_BEGAN = datetime(2026, 1, 1, tzinfo=UTC)


def _patch(i: int) -> list[dict[str, Any]]:
    return [{"op": "replace", "path": f"/rooms/r0/pieces/p{i % 10}/at/x", "value": f"{1500 + i % 1000} mm"}]


def _fill(store: Store, document: dict[str, Any]) -> None:
    """Put in a first job of 50,050 revisions and 999 of 50, as `append` would, without its flush for each."""
    for key in range(1, JOBS + 1):
        count = LONG if key == 1 else EACH
        now, shots, rows = document, [], []
        for number in range(1, count + 1):
            time, patch = stamp(_BEGAN + timedelta(seconds=number)), _patch(number) if number > 1 else []
            back = [
                {**op, "value": now["rooms"]["r0"]["pieces"][op["path"].split("/")[4]]["at"]["x"]}
                for op in patch
            ]
            now = apply(now, patch)
            rows.append(
                {"job": key, "number": number, "author": "Ann", "time": time, "message": "moved", "kind": "edit",
                 "base": number - 1, "patch": packed(patch), "inverse": packed(back)}
            )  # fmt: skip
            if number == 1 or number % documents.EACH == 0:
                shots.append({"job": key, "number": number, "document": documents.pack(now)})
        with store._writing() as connection:
            connection.execute(
                insert(jobs).values(
                    key=key,
                    id=f"job-{key}",
                    name="Measured",
                    revision=count,
                    begun=stamp(_BEGAN),
                    changed=time,
                )
            )
            connection.execute(insert(revisions), rows)
            connection.execute(insert(snapshots), shots)


def _median(work: Callable[[int], object], times: int) -> float:
    """Return the median time of a call [s]; each gets its number."""
    taken = []
    for i in range(times):
        start = time.perf_counter()
        work(i)
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def _plain(path: Path) -> Callable[[int], object]:
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE rows (number INTEGER PRIMARY KEY, patch TEXT)")
    return lambda i: connection.execute("INSERT INTO rows (patch) VALUES (?)", (json.dumps(_patch(i)),))


def _appending(store: Store, id: str) -> Callable[[int], object]:
    head = store.job(id).revision
    return lambda i: store.append(id, _patch(i), base=head + i, author="Ann", message="moved")


def main() -> None:
    """Print the ratios."""
    document = generated(1, 10)
    with tempfile.TemporaryDirectory(dir=".") as folder:
        store = Store.open(Path(folder) / "store.db")
        _fill(store, document)
        plain = _plain(Path(folder) / "plain.db")
        _median(plain, 100)
        one = _median(plain, 300)
        size = sum(file.stat().st_size for file in Path(folder).glob("store*")) / 2**20
        print(f"the store with {JOBS:,} jobs and {LONG + (JOBS - 1) * EACH:,} revisions ({size:.0f} MiB)")
        print("against a plain insert with its flush, in the same run")
        print(f"{'plain insert, flushed':>40} {one * 1e3:>8.3f}ms")
        rows: list[tuple[str, Callable[[int], object], int]] = [
            ("append, job of 50 revisions", _appending(store, "job-7"), 200),
            ("append, job of 50,050 revisions", _appending(store, "job-1"), 200),
            ("of it: the job validated", lambda i: validated(document), 50),
            ("undo", lambda i: store.undo("job-7", author="Ann"), 100),
            ("list of 1,000 jobs", lambda i: store.jobs(), 20),
            ("page of 50 of the history, newest", lambda i: store.history("job-1"), 50),
            ("page of 50 in the middle of it", lambda i: store.history("job-1", before=25_000), 50),
            ("document, another process's first look", lambda i: _afresh(store, "job-1"), 50),
            ("document at an old revision", lambda i: store.document("job-1", 20_000 + 997 * i % 20_000), 50),
        ]
        for name, work, times in rows:
            taken = _median(work, times)
            print(f"{name:>40} {taken * 1e3:>8.3f}ms {taken / one:>8.1f}")
        start = time.perf_counter()
        store.backup(Path(folder) / "backup")
        print(f"{'backup of all':>40} {(time.perf_counter() - start) * 1e3:>8.0f}ms")
        store.close()


def _afresh(store: Store, id: str) -> object:
    """Read a job as a process does that has not seen it."""
    store._latest = documents.Latest()
    return store.job(id)


if __name__ == "__main__":
    main()
