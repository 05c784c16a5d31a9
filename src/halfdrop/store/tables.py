"""The tables of the store, alike on SQLite and PostgreSQL.

Times are ISO 8601 in UTC with six decimals, so that their texts sort as they do. Documents are kept as
packed snapshots of some revisions and as the patch of every revision.
"""

from __future__ import annotations

from sqlalchemy import (
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
)

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(referred_table_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "ix": "ix_%(table_name)s_%(column_0_name)s",
    }
)


def _of_job() -> Column[int]:
    return Column("job", ForeignKey("jobs.key", ondelete="CASCADE"), primary_key=True, autoincrement=False)


#: `key` is never given twice, so that what is remembered under it cannot be taken for a later job's.
jobs = Table(
    "jobs",
    metadata,
    Column("key", Integer, primary_key=True),
    Column("id", String(64), nullable=False, unique=True),
    Column("name", Text, nullable=False),
    Column("client", Text),
    Column("revision", Integer, nullable=False),
    Column("begun", String(27), nullable=False),
    Column("changed", String(27), nullable=False),
    Column("origin", Text),
    sqlite_autoincrement=True,
)

#: `change` is the sender's own mark of a change: sent twice, it is kept once.
revisions = Table(
    "revisions",
    metadata,
    _of_job(),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("author", Text, nullable=False),
    Column("time", String(27), nullable=False),
    Column("message", Text, nullable=False),
    Column("kind", String(8), nullable=False),
    Column("base", Integer, nullable=False),
    Column("undoes", Integer),
    Column("change", String(64)),
    Column("patch", Text, nullable=False),
    Column("inverse", Text, nullable=False),
    Index("ix_revisions_change", "job", "change", unique=True),
    sqlite_with_rowid=False,
)

snapshots = Table(
    "snapshots",
    metadata,
    _of_job(),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("document", LargeBinary, nullable=False),
    ForeignKeyConstraint(["job", "number"], ["revisions.job", "revisions.number"], ondelete="CASCADE"),
)

texts = Table(
    "texts",
    metadata,
    _of_job(),
    Column("format", String(4), nullable=False),
    Column("text", LargeBinary, nullable=False),
)

files = Table(
    "files",
    metadata,
    Column("sha256", String(64), primary_key=True),
    Column("media_type", String(100), nullable=False),
    Column("size", Integer, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

job_files = Table(
    "job_files",
    metadata,
    _of_job(),
    Column("sha256", ForeignKey("files.sha256"), primary_key=True),
    Column("attached", String(400), primary_key=True),
    Column("name", Text, nullable=False),
    Column("added", String(27), nullable=False),
    Index("ix_job_files_sha256", "sha256"),
)

#: Order in which rows may be put in: each after those it refers to.
IN_ORDER = (jobs, revisions, snapshots, texts, files, job_files)
