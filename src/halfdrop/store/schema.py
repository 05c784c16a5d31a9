"""Bring a database to the version of the tables this code is written for.

Two processes that open a new store at once take turns: on SQLite by `BEGIN IMMEDIATE`, on PostgreSQL by an
advisory lock; the steps and their record are one transaction, so a store is never found half made.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text

from halfdrop.base.errors import At
from halfdrop.store.engine import APPLICATION_ID, name_of, use_wal, writing
from halfdrop.store.errors import StoreError

#: The newest step in `migrations/versions`.
HEAD = "0001"

#: Keys of PostgreSQL's advisory locks: migrating; keeping and dropping files.
MIGRATING, FILING = 0x4864_0001, 0x4864_0002


def prepare(engine: Engine) -> None:
    """Make the tables, or bring them up to date.

    Raises
    ------
    StoreError
        Where the database is another program's, newer than this program, or not durable.
    """
    with engine.connect() as connection:
        version = version_of(connection)
    if engine.dialect.name == "sqlite":
        use_wal(engine)
    else:
        _durable(engine)
    if version == HEAD:
        return
    with writing(engine).begin() as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": MIGRATING})
        if version_of(connection) != HEAD:
            upgrade(connection)


def version_of(connection: Connection) -> str | None:
    """Return the version of the tables; None where there are none yet.

    Raises
    ------
    StoreError
        Where the database is another program's, or newer than this program.
    """
    at = At(name_of(connection.engine.url))
    tables = inspect(connection).get_table_names()
    sqlite = connection.dialect.name == "sqlite"
    if not tables:
        return None
    if "alembic_version" not in tables or (
        sqlite and connection.exec_driver_sql("PRAGMA application_id").scalar() != APPLICATION_ID
    ):
        raise StoreError(
            "this is another program's database",
            at=at,
            hint="name another place with `--store`; an empty database will do",
        )
    version = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    if version is None:
        raise StoreError("the store does not say which version it is", at=at, hint="restore a backup")
    if str(version) > HEAD:
        raise StoreError(
            f"the store has version {version}; this halfdrop reads up to {HEAD}",
            at=at,
            hint="a newer halfdrop made it: update this one",
        )
    return str(version)


def upgrade(connection: Connection) -> None:
    """Run the missing steps in the connection's transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
    command.upgrade(config, "head")


def _durable(engine: Engine) -> None:
    with engine.connect() as connection:
        if connection.execute(text("SHOW fsync")).scalar() == "off":
            raise StoreError(
                "the PostgreSQL server runs with fsync = off: a power cut would lose what was acknowledged",
                at=At(name_of(engine.url)),
                hint="set fsync = on in postgresql.conf and restart the server",
            )
