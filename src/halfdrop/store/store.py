"""The store of jobs: every change is a revision, acknowledged only when it is on the disk."""

from __future__ import annotations

import re
import threading
import unicodedata
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Literal

from sqlalchemy import Connection, Engine, Row, delete, insert, select, update

from halfdrop.base.errors import InputError
from halfdrop.job.patch import Patch, apply
from halfdrop.job.read import Format, parse_tree, validated
from halfdrop.job.write import changed_text, dump_job
from halfdrop.store import backup, checks, documents, engine, files, history, merge, schema
from halfdrop.store.records import (
    Appended,
    Exported,
    FileRef,
    JobEntry,
    JobHead,
    Kind,
    Revision,
    StoredFile,
)
from halfdrop.store.tables import jobs, revisions, texts


def _now() -> datetime:
    return datetime.now(UTC)


class Store:
    """Jobs, revisions, files and texts in one database.

    Safe to share between threads, not with a forked process: open it there anew. Each call is one
    transaction; a call that returns has its change on the disk, a call that raises has changed nothing
    (only where the connection breaks while the database says "kept" is it for the history to tell).
    """

    def __init__(self, database: Engine, now: Callable[[], datetime]) -> None:
        self._engine = database
        self._now = now
        self._latest = documents.Latest()
        turn: Any = threading.Lock() if database.dialect.name == "sqlite" else nullcontext()
        self._turn = turn

    @classmethod
    def open(cls, place: str | Path | None = None, *, now: Callable[[], datetime] = _now) -> Store:
        """Open a store, made or brought up to date where needed.

        Parameters
        ----------
        place : str or Path, optional
            A SQLite file, or a URL such as `postgresql://user@host/database`; by default
            `engine.default_place`.
        now : callable
            The clock.

        Raises
        ------
        UsageError
            Where the URL cannot be read.
        StoreError
            Where the database cannot be reached, is another program's, newer, damaged or not durable.
        """
        database = engine.engine_of(engine.url_of(engine.default_place() if place is None else place))
        try:
            with engine.speaking(database):
                schema.prepare(database)
        except BaseException:
            database.dispose()
            raise
        return cls(database, now)

    def close(self) -> None:
        """Let go of all connections."""
        self._engine.dispose()

    @property
    def name(self) -> str:
        """The store's file, or its URL without the password."""
        return engine.name_of(self._engine.url)

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        with engine.speaking(self._engine), engine.reading(self._engine).connect() as connection:
            yield connection

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        with (
            self._turn,
            engine.speaking(self._engine),
            engine.writing(self._engine).begin() as connection,
        ):
            yield connection

    # Jobs

    def create(
        self,
        document: dict[str, Any],
        *,
        author: str,
        text: str | None = None,
        format: Format | None = None,
        origin: str | None = None,
        message: str = "begun",
    ) -> JobHead:
        """Keep a new job.

        Parameters
        ----------
        document : dict
            A valid job.
        text, format : optional
            The file it was read from, whose comments `export` brings out again.
        origin : str, optional
            That file's name.

        Raises
        ------
        InputErrors
            Where the document is no valid job.
        InputError
            Where the text cannot be read.
        """
        author, message = _said(author, message)
        origin = checks.line(origin, "file's name", 1000) if origin else None
        checks.fits(document)
        job = validated(document)
        if text is not None:
            parse_tree(text, name=origin or "the text", format=format or "yaml")
        document, time = documents.unpack(documents.pack(document)), self._now()
        with self._writing() as connection:
            key = connection.execute(
                insert(jobs)
                .values(
                    id=uuid.uuid4().hex,
                    name=job.job.name,
                    client=job.job.client,
                    revision=1,
                    begun=history.stamp(time),
                    changed=history.stamp(time),
                    origin=origin,
                )
                .returning(jobs.c.key)
            ).scalar_one()
            id = f"{_slug(job.job.name)}-{key}"
            connection.execute(update(jobs).where(jobs.c.key == key).values(id=id))
            history.put(
                connection,
                key,
                document,
                document,
                [],
                number=1,
                author=author,
                time=time,
                message=message,
                kind="begun",
                base=0,
            )
            if text is not None or format is not None:
                kept = (dump_job(document, format or "yaml") if text is None else text).encode()
                connection.execute(insert(texts).values(job=key, format=format or "yaml", text=kept))
            entry = history.entry_of(history.job_row(connection, id))
        self._latest.put(key, 1, document)
        return JobHead(**vars(entry), document=document)

    def jobs(self) -> list[JobEntry]:
        """Return all jobs without their documents, the last changed first."""
        with self._reading() as connection:
            rows = connection.execute(select(jobs).order_by(jobs.c.changed.desc(), jobs.c.key.desc()))
            return [history.entry_of(row) for row in rows]

    def job(self, id: str) -> JobHead:
        """Return a job with its latest document.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        with self._reading() as connection:
            row = history.job_row(connection, id)
            document = self._latest.at(connection, row.key, row.revision)
        self._latest.put(row.key, row.revision, document)
        return JobHead(**vars(history.entry_of(row)), document=document)

    def document(self, id: str, revision: int | None = None) -> dict[str, Any]:
        """Return a job's document at a revision, by default the latest. Never change it in place.

        Raises
        ------
        Missing
            Where there is no such job or revision.
        """
        if revision is None:
            return self.job(id).document
        with self._reading() as connection:
            row = history.job_row(connection, id)
            history.one(connection, row, revision)
            if revision == row.revision:
                return self._latest.at(connection, row.key, revision)
            return documents.replayed(connection, row.key, revision)

    def remove(self, id: str) -> None:
        """Remove a job for good, with its history and the files that no other job has.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        with self._writing() as connection:
            files.take_turn(connection)
            row = history.job_row(connection, id, hold=True)
            connection.execute(delete(jobs).where(jobs.c.key == row.key))
            files.sweep(connection)

    # Changes

    def append(
        self,
        id: str,
        patch: Patch,
        *,
        base: int,
        author: str,
        message: str,
        kind: Literal["edit", "remedy"] = "edit",
        change: str | None = None,
    ) -> Appended:
        """Keep a change; it is on the disk when this returns.

        On the latest revision it is applied. On an older one it is applied to the latest if it touches
        nothing that was changed since, and gives a valid job there.

        Parameters
        ----------
        base : int
            The revision the author saw.
        change : str, optional
            The sender's own mark of this change: sent again (after a lost answer), it is kept once, and the
            first answer is given again.

        Raises
        ------
        Conflict
            Where it meets later changes; with the revisions and the places.
        InputError, InputErrors
            Where the patch cannot be applied, the job would not be valid, or `base` is no revision.
        Missing
            Where there is no such job.
        """
        author, message = _said(author, message)
        taken = checks.patch_in(patch)
        mark = None if change is None else checks.line(change, "mark of the change", checks.CHANGE)
        with self._writing() as connection:
            row = history.job_row(connection, id, hold=True)
            again = self._kept(connection, row, mark, taken)
            if again is not None:
                return again
            if not 1 <= base <= row.revision:
                raise InputError(
                    f"job `{id}` has no revision {base} to change", hint=f"its latest is {row.revision}"
                )
            done = self._put(connection, row, taken, base, author, message, kind, change=mark)
        self._latest.put(row.key, done.revision, done.document)
        return done

    def undo(self, id: str, revision: int | None = None, *, author: str) -> Appended:
        """Take a revision back by a new one; by default the author's latest that stands.

        Raises
        ------
        Conflict
            Where later changes touch the same thing; it names them.
        InputError
            Where there is nothing to take back, or it is taken back already.
        """
        return self._take_back(id, revision, author, merge.to_undo, "undo")

    def redo(self, id: str, revision: int | None = None, *, author: str) -> Appended:
        """Bring again what an undo took back; by default the author's latest, if nothing was done since.

        Parameters
        ----------
        revision : int, optional
            The undo.

        Raises
        ------
        Conflict, InputError
            As `undo`.
        """
        return self._take_back(id, revision, author, merge.to_redo, "redo")

    def _take_back(
        self,
        id: str,
        revision: int | None,
        author: str,
        choose: Callable[[Iterator[tuple[int, str, str, int | None]], str | None], int | None],
        kind: Literal["undo", "redo"],
    ) -> Appended:
        author = checks.line(author, "author", checks.AUTHOR)
        with self._writing() as connection:
            row = history.job_row(connection, id, hold=True)
            if revision is None:
                revision = choose(history.newest_first(connection, row.key), author)
                if revision is None:
                    raise InputError(f"job `{id}` has nothing of {author}'s to {kind}")
            target = history.one(connection, row, revision)
            if target.kind == "begun" or (target.kind == "undo") != (kind == "redo"):
                raise InputError(f"revision {revision} is `{target.kind}`, nothing to {kind}")
            later = history.since(connection, row.key, revision)
            if not merge.stands(revision, later):
                raise InputError(f"revision {revision} is taken back already")
            done = self._put(
                connection,
                row,
                target.inverse,
                revision,
                author,
                target.message,
                kind,
                undoes=revision,
                later=later,
            )
        self._latest.put(row.key, done.revision, done.document)
        return done

    def _kept(self, connection: Connection, row: Row[Any], mark: str | None, patch: Patch) -> Appended | None:
        if mark is None:
            return None
        number = connection.execute(
            select(revisions.c.number).where(revisions.c.job == row.key, revisions.c.change == mark)
        ).scalar()
        if number is None:
            return None
        kept = history.one(connection, row, number)
        if checks.packed(kept.patch) != checks.packed(patch):
            raise InputError(f"the mark `{mark}` belongs to another change, revision {number}")
        document = documents.replayed(connection, row.key, number)
        return Appended(number, kept.patch, kept.merged, document, kept.message, kept.undoes)

    def _put(
        self,
        connection: Connection,
        row: Row[Any],
        patch: Patch,
        base: int,
        author: str,
        message: str,
        kind: Kind,
        *,
        undoes: int | None = None,
        later: list[Revision] | None = None,
        change: str | None = None,
    ) -> Appended:
        before = self._latest.at(connection, row.key, row.revision)
        if base < row.revision:
            later = history.since(connection, row.key, base) if later is None else later
            merge.check_meeting(patch, later)
        try:
            after = _stepped(before, patch)
        except InputError:
            if base == row.revision:
                raise
            _stepped(documents.replayed(connection, row.key, base), patch)
            raise merge.refusal(merge.standing(later or []) or later or [], ()) from None
        return history.put(
            connection,
            row.key,
            before,
            after,
            patch,
            number=row.revision + 1,
            author=author,
            time=self._now(),
            message=message,
            kind=kind,
            base=base if undoes is None else row.revision,
            undoes=undoes,
            change=change,
        )

    def revisions(self, id: str, since: int = 0, limit: int | None = None) -> list[Revision]:
        """Return the revisions after `since`, oldest first, at most `limit`.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        return self._page(id, revisions.c.number > since, revisions.c.number.asc(), limit)

    def history(self, id: str, before: int | None = None, limit: int = 50) -> list[Revision]:
        """Return a page of the history: the revisions before one (by default the latest), newest first.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        below = revisions.c.number < before if before is not None else revisions.c.number > 0
        return self._page(id, below, revisions.c.number.desc(), limit)

    def _page(self, id: str, which: Any, order: Any, limit: int | None) -> list[Revision]:
        with self._reading() as connection:
            key = history.job_row(connection, id).key
            rows = connection.execute(
                select(revisions).where(revisions.c.job == key, which).order_by(order).limit(limit)
            )
            return [history.revision_of(row) for row in rows]

    # Files and texts

    def put_file(self, id: str, data: bytes, *, media_type: str, name: str, attached: str = "") -> FileRef:
        """Keep a file for a job, once by the hash of its bytes.

        Parameters
        ----------
        attached : str
            JSON pointer of the thing it belongs to; empty for the job as a whole.

        Raises
        ------
        TooLarge
            Where it has more than `files.FILE_BYTES`.
        InputError
            Where it is empty, or its type, name or pointer cannot be kept.
        Missing
            Where there is no such job.
        """
        with self._writing() as connection:
            files.take_turn(connection)
            key = history.job_row(connection, id, hold=True).key
            return files.put(
                connection, key, data, media_type=media_type, name=name, attached=attached, time=self._now()
            )

    def files(self, id: str) -> list[FileRef]:
        """Return a job's files, in the order they were added."""
        with self._reading() as connection:
            return files.of_job(connection, history.job_row(connection, id).key)

    def file(self, sha256: str) -> StoredFile:
        """Return a file's bytes and media type.

        Raises
        ------
        Missing
            Where no job has it.
        """
        with self._reading() as connection:
            return files.read(connection, sha256)

    def drop_file(self, id: str, sha256: str, attached: str | None = None) -> None:
        """Take a file from one place of a job, or (None) from all; without a job it is removed.

        Raises
        ------
        Missing
            Where there is no such job, or it does not have the file there.
        """
        with self._writing() as connection:
            files.take_turn(connection)
            files.drop(connection, history.job_row(connection, id, hold=True).key, sha256, attached)

    def export(self, id: str, revision: int | None = None, format: Format | None = None) -> Exported:
        """Return a job as a job file: the text it came from, changed only where the job was.

        Parameters
        ----------
        format : {"yaml", "json"}, optional
            By default the one it came in, YAML for a job begun here.

        Raises
        ------
        Missing
            Where there is no such job or revision.
        """
        document = self.document(id, revision)
        with self._reading() as connection:
            row = history.job_row(connection, id)
            kept = connection.execute(select(texts).where(texts.c.job == row.key)).one_or_none()
        wanted: Format = format or (kept.format if kept else "yaml")
        if kept is None or kept.format != wanted:
            return Exported(dump_job(document, wanted), wanted, kept is None)
        written = changed_text(bytes(kept.text).decode(), document, name=row.origin or id, format=wanted)
        return Exported(written.text, wanted, written.kept)

    # Backup

    def backup(self, path: str | Path) -> None:
        """Write the whole store, as it is at one moment, into one new file, while others go on writing.

        Raises
        ------
        UsageError
            Where the file is there already.
        StoreError
            Where it cannot be written.
        """
        with engine.speaking(self._engine):
            backup.write(self._engine, Path(path))

    def restore(self, path: str | Path) -> int:
        """Fill this store, which must be empty, from a backup; return how many jobs came back.

        Raises
        ------
        UsageError
            Where the store has jobs already.
        InputError
            Where the file is no backup, torn, or changed since it was made; nothing is restored.
        """
        with self._turn, engine.speaking(self._engine):
            return backup.read(self._engine, Path(path))


def _said(author: str, message: str) -> tuple[str, str]:
    return checks.line(author, "author", checks.AUTHOR), checks.line(message, "message", checks.MESSAGE)


def _slug(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-") or "job"


def _stepped(document: dict[str, Any], patch: Patch) -> dict[str, Any]:
    """Return the patched document, valid and such that it can be written and read again."""
    after: dict[str, Any] = apply(document, patch)
    checks.fits(after)
    validated(after)
    return after
