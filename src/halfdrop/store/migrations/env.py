"""How Alembic runs the steps: on the connection it is handed, in that connection's transaction."""

from __future__ import annotations

from alembic import context

from halfdrop.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
context.run_migrations()
