"""Backups: one SQLite file with the store's own tables, from and into either database.

A SQLite store is copied by SQLite's backup interface, a PostgreSQL store row by row, each from one state while
others write. The file is then sealed with a hash of all its rows, so that one changed or torn since is told.
Restoring reads a private copy of the file, brings it up to date by the same migrations, and puts all rows in as
one transaction.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, func, insert, select, text

from halfdrop.base.errors import At, InputError, UsageError
from halfdrop.job.write import settle
from halfdrop.store import engine as engines
from halfdrop.store import schema
from halfdrop.store.errors import StoreError
from halfdrop.store.tables import IN_ORDER, jobs

#: Rows moved at once.
_ROWS = 500
_SEAL = "halfdrop_seal"


def write(engine: Engine, path: Path) -> int:
    """Write the whole store into one new file; return how many jobs are in it.

    Raises
    ------
    UsageError
        Where the file is there already.
    StoreError
        Where it cannot be written.
    """
    taken = UsageError(
        "the file is there already; a backup overwrites none", at=At(str(path)), hint="name a new file"
    )
    if path.exists():
        raise taken
    copy = _copy_sqlite if engine.dialect.name == "sqlite" else _copy_rows
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with _beside(path) as temporary:
            copy(engine, temporary)
            count = _seal(temporary)
            with temporary.open("rb") as stream:
                os.fsync(stream.fileno())
            if path.exists():
                raise taken
            os.replace(temporary, path)
        settle(path.parent)
        return count
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StoreError(f"the backup cannot be written: {reason}", at=At(str(path))) from None


def read(engine: Engine, path: Path) -> int:
    """Fill an empty store from a backup; return how many jobs came back.

    Raises
    ------
    UsageError
        Where the store has jobs already.
    InputError
        Where the file is no backup, torn, or changed since it was made.
    """
    with tempfile.TemporaryDirectory(prefix="halfdrop-") as folder:
        copy = Path(folder) / "backup.db"
        try:
            shutil.copyfile(path, copy)
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise InputError(f"the backup cannot be opened: {reason}", at=At(str(path))) from None
        _check(copy, path)
        source = engines.engine_of(engines.url_of(copy))
        try:
            schema.prepare(source)
            with source.connect() as rows, engines.writing(engine).begin() as into:
                return _fill(rows, into)
        except StoreError as error:
            if error.at is not None and error.at.file == str(copy):
                raise InputError(f"the backup: {error.message}", at=At(str(path)), hint=error.hint) from None
            raise
        finally:
            source.dispose()


def _fill(rows: Connection, into: Connection) -> int:
    if into.dialect.name == "postgresql":
        into.execute(text("LOCK TABLE jobs IN EXCLUSIVE MODE"))
    there = into.execute(select(func.count()).select_from(jobs)).scalar_one()
    if there:
        raise UsageError(
            f"the store has {there} job{'s' if there != 1 else ''} already; a backup is restored into an empty one",
            at=At(engines.name_of(into.engine.url)),
            hint="restore into a new store: `halfdrop restore BACKUP --store NEW.db`",
        )
    shift = _last_key(into)
    for table in IN_ORDER:
        key = "key" if table is jobs else "job"
        found = rows.execution_options(yield_per=_ROWS).execute(select(table)).mappings()
        for some in found.partitions(_ROWS):
            into.execute(
                insert(table), [{**row, key: row[key] + shift} if key in row else dict(row) for row in some]
            )
    last = rows.execute(select(func.coalesce(func.max(jobs.c.key), 0))).scalar_one()
    if last and into.dialect.name == "postgresql":
        into.execute(text("SELECT setval('jobs_key_seq', :last)"), {"last": last + shift})
    return int(rows.execute(select(func.count()).select_from(jobs)).scalar_one())


def _last_key(connection: Connection) -> int:
    """Return the last job key ever given in a store, so that none is given twice."""
    if connection.dialect.name == "sqlite":
        asked = "SELECT seq FROM sqlite_sequence WHERE name = 'jobs'"
    else:
        asked = "SELECT CASE WHEN is_called THEN last_value ELSE 0 END FROM jobs_key_seq"
    return int(connection.execute(text(asked)).scalar() or 0)


def _copy_sqlite(engine: Engine, path: Path) -> None:
    raw = engine.raw_connection()
    into = sqlite3.connect(path)
    try:
        raw.driver_connection.backup(into)  # type: ignore[union-attr]
        into.execute("PRAGMA journal_mode = DELETE")
    finally:
        into.close()
        raw.close()


def _copy_rows(engine: Engine, path: Path) -> None:
    target = engines.engine_of(engines.url_of(path))
    try:
        schema.prepare(target)
        with engines.reading(engine).connect() as rows, engines.writing(target).begin() as into:
            for table in IN_ORDER:
                found = rows.execution_options(yield_per=_ROWS).execute(select(table)).mappings()
                for some in found.partitions(_ROWS):
                    into.execute(insert(table), [dict(row) for row in some])
    finally:
        target.dispose()
    with contextlib.closing(sqlite3.connect(path)) as into_file:
        into_file.execute("PRAGMA journal_mode = DELETE")


def _seal(path: Path) -> int:
    """Put the hash of all rows into a backup; return how many jobs it has."""
    with contextlib.closing(sqlite3.connect(path)) as connection, connection:
        digest = _digest(connection)
        connection.execute(f"CREATE TABLE {_SEAL} (sha256 TEXT NOT NULL)")
        connection.execute(f"INSERT INTO {_SEAL} VALUES (?)", (digest,))
        return int(connection.execute("SELECT count(*) FROM jobs").fetchone()[0])


def _digest(connection: sqlite3.Connection) -> str:
    """Return the hash of all rows of all tables, in the order of their keys."""
    digest = hashlib.sha256()
    names = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name != ? ORDER BY name",
        (_SEAL,),
    ).fetchall()
    for (name,) in names:
        columns = connection.execute("SELECT name, pk FROM pragma_table_info(?)", (name,)).fetchall()
        keys = [f'"{c}"' for c, pk in sorted(columns, key=lambda column: column[1]) if pk] or ["1"]
        digest.update(repr((name, columns)).encode())
        for row in connection.execute(f'SELECT * FROM "{name}" ORDER BY {", ".join(keys)}'):
            digest.update(repr(row).encode("utf-8", "surrogatepass"))
    return digest.hexdigest()


def _check(copy: Path, path: Path) -> None:
    """Check that a file is a backup of ours, whole, and as it was made.

    Raises
    ------
    InputError
        Where it is not.
    """
    at = At(str(path))
    foreign = InputError(
        "the file is no backup of a halfdrop store", at=at, hint="`halfdrop backup FILE` makes one"
    )
    with copy.open("rb") as stream:
        if stream.read(16) != b"SQLite format 3\0":
            raise foreign
    torn = InputError(
        "the backup is torn or was changed since it was made", at=at, hint="use another copy of it"
    )
    try:
        with contextlib.closing(sqlite3.connect(copy)) as connection:
            connection.execute("PRAGMA trusted_schema = OFF")
            connection.execute("PRAGMA cell_size_check = ON")
            if connection.execute("PRAGMA application_id").fetchone()[0] != engines.APPLICATION_ID:
                raise foreign
            if connection.execute("PRAGMA integrity_check(1)").fetchone()[0] != "ok":
                raise torn
            odd = "SELECT count(*) FROM sqlite_master WHERE type NOT IN ('table', 'index')"
            seals = connection.execute(f"SELECT sha256 FROM {_SEAL}").fetchall()
            if connection.execute(odd).fetchone()[0] or seals != [(_digest(connection),)]:
                raise torn
            connection.execute(f"DROP TABLE {_SEAL}")
            connection.commit()
    except sqlite3.OperationalError as error:
        raise (foreign if "no such table" in str(error) else torn) from None
    except sqlite3.DatabaseError:
        raise torn from None


@contextmanager
def _beside(path: Path) -> Iterator[Path]:
    """Give a new file's name in the folder of `path`, and leave nothing of it behind."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:100]}.", suffix=".part", dir=path.parent)
    os.close(handle)
    try:
        yield Path(name)
    finally:
        for ending in ("", "-wal", "-shm", "-journal"):
            Path(name + ending).unlink(missing_ok=True)
