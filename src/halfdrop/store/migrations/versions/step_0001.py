"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def _job() -> sa.Column[int]:
    return sa.Column("job", sa.Integer, nullable=False)


def _of_job(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["job"], ["jobs.key"], name=f"fk_{table}_jobs", ondelete="CASCADE")


def upgrade() -> None:
    """Make jobs, revisions, snapshots, texts, files and which job has which."""
    op.create_table(
        "jobs",
        sa.Column("key", sa.Integer, nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("client", sa.Text),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("begun", sa.String(27), nullable=False),
        sa.Column("changed", sa.String(27), nullable=False),
        sa.Column("origin", sa.Text),
        sa.PrimaryKeyConstraint("key", name="pk_jobs"),
        sa.UniqueConstraint("id", name="uq_jobs_id"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "revisions",
        _job(),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("author", sa.Text, nullable=False),
        sa.Column("time", sa.String(27), nullable=False),
        sa.Column("message", sa.Text, nullable=False),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("undoes", sa.Integer),
        sa.Column("change", sa.String(64)),
        sa.Column("patch", sa.Text, nullable=False),
        sa.Column("inverse", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("job", "number", name="pk_revisions"),
        _of_job("revisions"),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_revisions_change", "revisions", ["job", "change"], unique=True)
    op.create_table(
        "snapshots",
        _job(),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("document", sa.LargeBinary, nullable=False),
        sa.PrimaryKeyConstraint("job", "number", name="pk_snapshots"),
        _of_job("snapshots"),
        sa.ForeignKeyConstraint(
            ["job", "number"],
            ["revisions.job", "revisions.number"],
            name="fk_snapshots_revisions",
            ondelete="CASCADE",
        ),
    )
    op.create_table(
        "texts",
        _job(),
        sa.Column("format", sa.String(4), nullable=False),
        sa.Column("text", sa.LargeBinary, nullable=False),
        sa.PrimaryKeyConstraint("job", name="pk_texts"),
        _of_job("texts"),
    )
    op.create_table(
        "files",
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("media_type", sa.String(100), nullable=False),
        sa.Column("size", sa.Integer, nullable=False),
        sa.Column("bytes", sa.LargeBinary, nullable=False),
        sa.PrimaryKeyConstraint("sha256", name="pk_files"),
    )
    op.create_table(
        "job_files",
        _job(),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("attached", sa.String(400), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("added", sa.String(27), nullable=False),
        sa.PrimaryKeyConstraint("job", "sha256", "attached", name="pk_job_files"),
        _of_job("job_files"),
        sa.ForeignKeyConstraint(["sha256"], ["files.sha256"], name="fk_job_files_files"),
    )
    op.create_index("ix_job_files_sha256", "job_files", ["sha256"])
