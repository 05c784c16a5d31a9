"""Rows of the database and the records made of them; every function runs in the caller's transaction."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select, update

from halfdrop.base.errors import did_you_mean
from halfdrop.job.patch import Patch, inverse
from halfdrop.job.read import Format
from halfdrop.store import documents
from halfdrop.store.checks import packed
from halfdrop.store.errors import Missing
from halfdrop.store.merge import standing
from halfdrop.store.records import Appended, JobEntry, Kind, Revision
from halfdrop.store.tables import jobs, revisions, snapshots, texts

#: Revisions asked for by number in one statement.
_AT_ONCE = 500

_SHAPE = "%Y-%m-%dT%H:%M:%S.%fZ"


def stamp(time: datetime) -> str:
    """Return a time as it is kept."""
    return time.astimezone(UTC).strftime(_SHAPE)


def time_of(text: str) -> datetime:
    """Return a kept time."""
    return datetime.fromisoformat(text)


def job_row(connection: Connection, id: str, *, hold: bool = False) -> Row[Any]:
    """Return a job's row; `hold` keeps other writers from it until the transaction ends.

    Raises
    ------
    Missing
        Where there is no such job.
    """
    asked = select(jobs).where(jobs.c.id == id)
    row = connection.execute(asked.with_for_update() if hold else asked).one_or_none()
    if row is None:
        known = connection.execute(select(jobs.c.id).order_by(jobs.c.id).limit(1000)).scalars().all()
        hint = (
            did_you_mean(id, known) if 0 < len(known) < 1000 else "run `halfdrop jobs` to see what there is"
        )
        raise Missing(f"there is no job `{id[:80]}` in the store", hint=hint)
    return row


def entry_of(row: Row[Any]) -> JobEntry:
    """Return a job's line in the list."""
    return JobEntry(
        row.id, row.revision, row.name, row.client, time_of(row.begun), time_of(row.changed), row.origin
    )


def revision_of(row: Row[Any]) -> Revision:
    """Return a revision."""
    return Revision(
        row.number,
        row.author,
        time_of(row.time),
        row.message,
        row.kind,
        row.base,
        row.undoes,
        json.loads(row.patch),
        json.loads(row.inverse),
    )


def one(connection: Connection, job: Row[Any], number: int) -> Revision:
    """Return a revision of a job.

    Raises
    ------
    Missing
        Where there is none with that number.
    """
    row = connection.execute(
        select(revisions).where(revisions.c.job == job.key, revisions.c.number == number)
    ).one_or_none()
    if row is None:
        raise Missing(
            f"job `{job.id}` has no revision {number}", hint=f"it has revisions 1 to {job.revision}"
        )
    return revision_of(row)


def standing_since(connection: Connection, job: int, number: int) -> list[Revision]:
    """Return the revisions of a job after one that none after it takes back, oldest first."""
    after = (revisions.c.job == job, revisions.c.number > number)
    brief = connection.execute(
        select(revisions.c.number, revisions.c.undoes).where(*after).order_by(revisions.c.number)
    ).all()
    numbers = standing([(row.number, row.undoes) for row in brief])
    found = select(revisions).where(*after).order_by(revisions.c.number)
    if len(numbers) < len(brief):
        rows = [
            row
            for some in (numbers[k : k + _AT_ONCE] for k in range(0, len(numbers), _AT_ONCE))
            for row in connection.execute(found.where(revisions.c.number.in_(some)))
        ]
    else:
        rows = list(connection.execute(found))
    return [revision_of(row) for row in rows]


def newest_first(connection: Connection, job: int) -> Iterator[tuple[int, str, str, int | None]]:
    """Yield number, author, kind and what it undoes of a job's revisions, read only as far as asked for."""
    below: int | None = None
    while True:
        asked = select(revisions.c.number, revisions.c.author, revisions.c.kind, revisions.c.undoes)
        asked = asked.where(revisions.c.job == job).order_by(revisions.c.number.desc()).limit(200)
        rows = connection.execute(asked if below is None else asked.where(revisions.c.number < below)).all()
        if not rows:
            return
        for row in rows:
            yield row.number, row.author, row.kind, row.undoes
        below = rows[-1].number


def keep_text(connection: Connection, job: int, text: str, format: Format) -> None:
    """Keep the text of the file a job comes from, in the place of an earlier one."""
    connection.execute(delete(texts).where(texts.c.job == job))
    connection.execute(insert(texts).values(job=job, format=format, text=text.encode()))


def put(
    connection: Connection,
    job: int,
    before: dict[str, Any],
    after: dict[str, Any],
    patch: Patch,
    *,
    number: int,
    author: str,
    time: datetime,
    message: str,
    kind: Kind,
    base: int,
    undoes: int | None = None,
    change: str | None = None,
) -> Appended:
    """Write a revision, what the list of jobs says of it, and now and then a snapshot."""
    connection.execute(
        insert(revisions).values(
            job=job,
            number=number,
            author=author,
            time=stamp(time),
            message=message,
            kind=kind,
            base=base,
            undoes=undoes,
            change=change,
            patch=packed(patch),
            inverse=packed(inverse(before, patch)),
        )
    )
    info = after["job"]
    connection.execute(
        update(jobs)
        .where(jobs.c.key == job)
        .values(revision=number, changed=stamp(time), name=info["name"], client=info.get("client"))
    )
    if number == 1 or number % documents.EACH == 0:
        connection.execute(insert(snapshots).values(job=job, number=number, document=documents.pack(after)))
    return Appended(number, patch, base < number - 1, after, message, undoes)
