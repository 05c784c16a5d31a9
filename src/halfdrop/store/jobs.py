"""Jobs: begun, listed, read, written out and removed."""

from __future__ import annotations

import re
import unicodedata
import uuid
from typing import Any

from sqlalchemy import delete, insert, select, update

from halfdrop.job.read import Format, parse_tree, validated
from halfdrop.job.write import changed_text, dump_job
from halfdrop.store import checks, documents, files, history
from halfdrop.store.records import Exported, JobEntry, JobHead
from halfdrop.store.tables import jobs, texts
from halfdrop.store.transactions import Transactions


class Jobs(Transactions):
    """The part of the store that knows jobs as wholes."""

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
        author, message = checks.said(author, message)
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
                kept = dump_job(document, format or "yaml") if text is None else text
                history.keep_text(connection, key, kept, format or "yaml")
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

    def keep_text(self, id: str, text: str, format: Format) -> None:
        """Keep the text of a job's file, where only its comments or its layout changed.

        Raises
        ------
        Missing
            Where there is no such job.
        InputError
            Where the text cannot be read.
        """
        parse_tree(text, name=id, format=format)
        with self._writing() as connection:
            history.keep_text(connection, history.job_row(connection, id, hold=True).key, text, format)

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


def _slug(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-") or "job"
