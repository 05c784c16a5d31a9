"""The document of a job at any revision: the snapshot before it, and the patches since.

Every `EACH`-th revision is kept whole, so that the oldest is found as fast as the newest, and a change
writes its patch, not the job. The latest documents are remembered in the process; what others have
appended meanwhile is applied to them.
"""

from __future__ import annotations

import json
import threading
import zlib
from collections import OrderedDict
from typing import Any

from sqlalchemy import Connection, select

from halfdrop.job.patch import apply
from halfdrop.store.checks import packed
from halfdrop.store.tables import revisions, snapshots

#: A snapshot is kept of each revision whose number is a multiple of this; see `bench/store.py`.
EACH = 64
#: Jobs whose latest document is remembered.
REMEMBERED = 64


def pack(document: dict[str, Any]) -> bytes:
    """Return a document packed for a snapshot."""
    return zlib.compress(packed(document).encode(), 1)


def unpack(data: bytes) -> dict[str, Any]:
    """Return the document of a snapshot."""
    document: dict[str, Any] = json.loads(zlib.decompress(data))
    return document


def replayed(connection: Connection, job: int, number: int) -> dict[str, Any]:
    """Return the document of a job's revision from the snapshot before it; the revision must exist."""
    start, data = connection.execute(
        select(snapshots.c.number, snapshots.c.document)
        .where(snapshots.c.job == job, snapshots.c.number <= number)
        .order_by(snapshots.c.number.desc())
        .limit(1)
    ).one()
    return _on(connection, job, unpack(data), start, number)


def _on(connection: Connection, job: int, document: dict[str, Any], start: int, end: int) -> dict[str, Any]:
    patches = connection.execute(
        select(revisions.c.patch)
        .where(revisions.c.job == job, revisions.c.number > start, revisions.c.number <= end)
        .order_by(revisions.c.number)
    ).scalars()
    for patch in patches:
        document = apply(document, json.loads(patch))
    return document


class Latest:
    """The latest documents, remembered by job and revision."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._known: OrderedDict[int, tuple[int, dict[str, Any]]] = OrderedDict()

    def at(self, connection: Connection, job: int, number: int) -> dict[str, Any]:
        """Return the document of a job at a revision, which must exist."""
        with self._lock:
            start, document = self._known.get(job, (0, {}))
        if start == number:
            return document
        if not 0 < number - start < EACH or not start:
            return replayed(connection, job, number)
        return _on(connection, job, document, start, number)

    def put(self, job: int, number: int, document: dict[str, Any]) -> None:
        """Remember a document that is kept for good."""
        with self._lock:
            if self._known.get(job, (0,))[0] > number:
                return
            self._known[job] = (number, document)
            self._known.move_to_end(job)
            while len(self._known) > REMEMBERED:
                self._known.popitem(last=False)
