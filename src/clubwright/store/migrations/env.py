"""Alembic's entry: runs the migrations on the connection that the caller holds, inside the caller's transaction."""

from alembic import context

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=context.config.attributes["metadata"],
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
