"""Files of jobs: put in, read, dropped."""

from __future__ import annotations

from halfdrop.store import files, history
from halfdrop.store.records import FileRef, StoredFile
from halfdrop.store.transactions import Transactions


class Keeping(Transactions):
    """The part of the store that keeps files."""

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
