"""Files of jobs, kept once by the hash of their bytes; every function runs in the caller's transaction."""

from __future__ import annotations

import hashlib
import re
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select, text

from halfdrop.base.errors import InputError
from halfdrop.job.places import steps_of
from halfdrop.store.checks import line
from halfdrop.store.errors import Missing, TooLarge
from halfdrop.store.history import stamp, time_of
from halfdrop.store.records import FileRef, StoredFile
from halfdrop.store.schema import FILING
from halfdrop.store.tables import files, job_files

#: Size of one file [bytes].
FILE_BYTES = 32 * 1024 * 1024
#: Characters of a file's name and of the pointer it is attached to.
NAME, ATTACHED = 200, 400

_MEDIA = re.compile(r"[a-z]+/[a-z0-9][a-z0-9.+-]{0,80}\Z")


def take_turn(connection: Connection) -> None:
    """Let no other transaction add or drop files until this one ends (a SQLite writer is alone anyway)."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": FILING})


def put(
    connection: Connection,
    job: int,
    data: bytes,
    *,
    media_type: str,
    name: str,
    attached: str,
    time: datetime,
) -> FileRef:
    """Keep a file for a job; bytes that are there already are not kept twice.

    Raises
    ------
    TooLarge
        Where it has more than `FILE_BYTES`.
    InputError
        Where it is empty, or its type, name or pointer cannot be kept.
    """
    if not data:
        raise InputError("the file is empty")
    if len(data) > FILE_BYTES:
        mib = FILE_BYTES // 2**20
        raise TooLarge(f"the file has {len(data) / 2**20:.1f} MiB; at most {mib} MiB are kept")
    if not _MEDIA.match(media_type):
        raise InputError(f"`{media_type[:80]}` is no media type", hint="write one such as image/jpeg")
    name = line(name, "file's name", NAME)
    if attached:
        steps_of(line(attached, "place the file is attached to", ATTACHED))
    sha256 = hashlib.sha256(data).hexdigest()
    take_turn(connection)
    kept = connection.execute(select(files.c.media_type).where(files.c.sha256 == sha256)).scalar()
    if kept is None:
        connection.execute(
            insert(files).values(sha256=sha256, media_type=media_type, size=len(data), bytes=data)
        )
    connection.execute(
        delete(job_files).where(
            job_files.c.job == job, job_files.c.sha256 == sha256, job_files.c.attached == attached
        )
    )
    connection.execute(
        insert(job_files).values(job=job, sha256=sha256, attached=attached, name=name, added=stamp(time))
    )
    return FileRef(sha256, kept or media_type, len(data), name, attached, time_of(stamp(time)))


def of_job(connection: Connection, job: int) -> list[FileRef]:
    """Return the files of a job, in the order they were added."""
    rows = connection.execute(
        select(job_files, files.c.media_type, files.c.size)
        .join_from(job_files, files)
        .where(job_files.c.job == job)
        .order_by(job_files.c.added, job_files.c.sha256, job_files.c.attached)
    )
    return [_ref(row) for row in rows]


def _ref(row: Row[Any]) -> FileRef:
    return FileRef(row.sha256, row.media_type, row.size, row.name, row.attached, time_of(row.added))


def read(connection: Connection, sha256: str) -> StoredFile:
    """Return a file's bytes.

    Raises
    ------
    Missing
        Where no job has it.
    """
    row = connection.execute(
        select(files.c.bytes, files.c.media_type).where(files.c.sha256 == sha256)
    ).one_or_none()
    if row is None:
        raise Missing(f"there is no file `{sha256[:64]}` in the store")
    return StoredFile(bytes(row.bytes), row.media_type)


def drop(connection: Connection, job: int, sha256: str, attached: str | None) -> None:
    """Take a file from a job (from one place, or from all with `attached` None).

    Raises
    ------
    Missing
        Where the job does not have it there.
    """
    take_turn(connection)
    gone = delete(job_files).where(job_files.c.job == job, job_files.c.sha256 == sha256)
    if attached is not None:
        gone = gone.where(job_files.c.attached == attached)
    if not connection.execute(gone).rowcount:
        raise Missing(f"the job has no file `{sha256[:64]}` there")
    sweep(connection)


def sweep(connection: Connection) -> None:
    """Remove the files that no job has."""
    connection.execute(delete(files).where(~files.c.sha256.in_(select(job_files.c.sha256))))
