"""Where the store is, and how a connection to it is made durable.

SQLite: WAL with `synchronous = FULL`, so that a commit returns after the log is flushed; readers never wait
for writers; writers begin with `BEGIN IMMEDIATE`, so that none finds out late that another was first.
PostgreSQL: `synchronous_commit = on`; readers see one state (REPEATABLE READ).

Source: the manuals of SQLite (write-ahead logging, pragma synchronous) and PostgreSQL (reliability, WAL).
Checked by: tests/store/test_killed.py
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError

from halfdrop.base.errors import At, UsageError
from halfdrop.store.errors import Busy, StoreError

#: How long a writer waits for another's turn [s].
PATIENCE = 30.0
#: In the header of our SQLite files: `Hdrp`, so that another program's file is told apart.
APPLICATION_ID = 0x48647270

_WRITES = "halfdrop_writes"


def default_place() -> str:
    """Return where the store is unless told otherwise: `$HALFDROP_STORE`, else in the user's data folder."""
    told = os.environ.get("HALFDROP_STORE")
    if told:
        return told
    data = os.environ.get("XDG_DATA_HOME")
    folder = Path(data) if data and os.path.isabs(data) else Path.home() / ".local" / "share"
    return str(folder / "halfdrop" / "jobs.db")


def url_of(place: str | Path) -> URL:
    """Return the URL of a store given by path or URL.

    Raises
    ------
    UsageError
        Where it is no URL of SQLite or PostgreSQL, or names a database in memory.
    """
    if isinstance(place, Path) or "://" not in place:
        return URL.create("sqlite", database=str(Path(place).expanduser()))
    hint = "name a file, or write postgresql://USER@HOST/DATABASE"
    try:
        url = make_url(place)
        backend = url.get_backend_name()
    except (ArgumentError, ValueError):
        raise UsageError("the store's URL cannot be read", hint=hint) from None
    if backend in ("postgresql", "postgres"):
        return url.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise UsageError(f"the store cannot be kept in `{backend}`", hint=hint)
    if not url.database or url.database == ":memory:" or url.query:
        raise UsageError("the store's URL names no file", hint=hint)
    return URL.create("sqlite", database=url.database)


def name_of(url: URL) -> str:
    """Return what messages call the store: its file, or its URL without the password."""
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    return url.set(drivername="postgresql").render_as_string(hide_password=True)


def engine_of(url: URL) -> Engine:
    """Return an engine whose every connection is set up to be durable.

    Raises
    ------
    StoreError
        Where the file's folder cannot be made.
    """
    if url.get_backend_name() == "sqlite":
        _make_file(Path(str(url.database)))
        engine = create_engine(url, connect_args={"timeout": PATIENCE, "check_same_thread": False})
        event.listen(engine, "connect", _set_up_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
        return engine
    options = f"-c synchronous_commit=on -c lock_timeout={int(PATIENCE * 1000)} -c client_encoding=UTF8"
    return create_engine(
        url,
        pool_pre_ping=True,
        connect_args={"options": options, "connect_timeout": int(PATIENCE)},
    )


def _make_file(path: Path) -> None:
    """Make an empty file that only its owner may read, and the folders above it."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise StoreError(
            f"the store cannot be opened: {reason}",
            at=At(str(path)),
            hint="name another place with `--store`, or in HALFDROP_STORE",
        ) from None


def _set_up_sqlite(connection: sqlite3.Connection, record: object) -> None:
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA trusted_schema = OFF")


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get(_WRITES)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def use_wal(engine: Engine) -> None:
    """Set a SQLite file to write-ahead logging; it stays so.

    Two processes that do it at once get `locked` without waiting, so it is tried again.
    """
    end = time.monotonic() + PATIENCE
    raw = engine.raw_connection()
    try:
        while True:
            try:
                (mode,) = raw.driver_connection.execute("PRAGMA journal_mode = WAL").fetchone()  # type: ignore[union-attr]
                break
            except sqlite3.OperationalError as error:
                if "locked" not in str(error) or time.monotonic() > end:
                    raise
                time.sleep(0.02)
    finally:
        raw.close()
    if mode != "wal":
        raise StoreError(
            f"the file system does not allow write-ahead logging (it offers `{mode}`)",
            at=At(str(engine.url.database)),
            hint="keep the store on a local disk; name one with `--store`",
        )


@contextmanager
def speaking(engine: Engine) -> Iterator[None]:
    """Say a database's refusal as an error of ours.

    Raises
    ------
    Busy
        Where another holds the store too long.
    StoreError
        For any other refusal.
    """
    try:
        yield
    except (DBAPIError, sqlite3.Error) as error:
        raise said(error, name_of(engine.url)) from error


def said(error: DBAPIError | sqlite3.Error, name: str) -> StoreError:
    """Return a database's refusal in our words."""
    cause: Any = error.orig if isinstance(error, DBAPIError) else error
    reason = str(cause).strip().split("\n")[0]
    at = At(name)
    if "locked" in reason or getattr(cause, "sqlstate", None) == "55P03":
        return Busy(
            f"another process held the store for more than {PATIENCE:.0f} s; nothing was changed",
            at=at,
            hint="close the other one, or try again",
        )
    if "full" in reason:
        return StoreError(
            f"there is no room on the disk: {reason}; nothing was changed", at=at, hint="free some space"
        )
    if "not a database" in reason or "malformed" in reason:
        hint = "restore a backup into a new store: `halfdrop restore BACKUP --store NEW.db`"
        return StoreError(f"the store is damaged or is no store: {reason}", at=at, hint=hint)
    return StoreError(
        f"the store did not answer: {reason}; whether the last change is kept, its history says",
        at=at,
        hint="try again when it is back",
    )


def writing(engine: Engine) -> Engine:
    """Return the engine for transactions that write."""
    return engine.execution_options(**{_WRITES: True})


def reading(engine: Engine) -> Engine:
    """Return the engine for transactions that only read, all from one state."""
    if engine.dialect.name == "sqlite":
        return engine
    return engine.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
