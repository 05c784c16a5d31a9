"""The store of jobs: every change is a revision, acknowledged only when it is on the disk."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from halfdrop.store import backup, engine, schema
from halfdrop.store.changes import Changes
from halfdrop.store.jobs import Jobs
from halfdrop.store.keeping import Keeping


def _now() -> datetime:
    return datetime.now(UTC)


class Store(Jobs, Changes, Keeping):
    """Jobs, revisions, files and texts in one database.

    Safe to share between threads, not with a forked process: open it there anew. Each call is one
    transaction; a call that returns has its change on the disk, a call that raises has changed nothing
    (only where the connection breaks while the database says "kept" is it for the history to tell).
    """

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

    def backup(self, path: str | Path) -> int:
        """Write the whole store, as it is at one moment, into one new file, while others go on writing.

        Returns
        -------
        int
            How many jobs are in it.

        Raises
        ------
        UsageError
            Where the file is there already.
        StoreError
            Where it cannot be written.
        """
        with engine.speaking(self._engine):
            return backup.write(self._engine, Path(path))

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
