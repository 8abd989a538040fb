"""Bring a record to the form that this version reads. Migrations travel inside the package; no file is needed outside it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, inspect, text
from sqlalchemy.exc import DBAPIError

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK
from clubwright.store.engine import READING
from clubwright.store.tables import metadata

if TYPE_CHECKING:
    from alembic.config import Config

HEAD = "0001"
"""Newest form of the record; a test sees that it is that of the last migration."""

_VERSION_TABLE = "alembic_version"
_LOCK = 0x436C7562


def migrate(engine: Engine) -> None:
    """Make the tables, or bring older ones up to date; several benches may do so at once.

    Raises:
        RecordError: when the database is another program's, or of a newer version, or no database.
    """
    try:
        with engine.connect().execution_options(**{READING: True}) as connection:
            form = current_form(connection)
            if form == HEAD:
                return
            if form is None:
                _require_empty(connection)
        with engine.begin() as connection:
            _upgrade(connection)
    except DBAPIError as refused:
        raise RecordError(
            f"the record at {engine.url.render_as_string()} cannot be opened: {refused.orig}. "
            f"Look whether the file is a record, and whether another program holds it. If it is damaged: {GO_BACK}"
        ) from refused


def current_form(connection: Connection) -> str | None:
    """Return the form a database is in, None for an empty one.

    Raises:
        RecordError: when it is another program's.
    """
    found = set(inspect(connection).get_table_names())
    if _VERSION_TABLE in found:
        return connection.execute(text(f"SELECT version_num FROM {_VERSION_TABLE}")).scalar()  # noqa: S608 - a constant
    if found:
        raise RecordError(
            f"this database is another program's: it holds {', '.join(sorted(found)[:3])}. Give the record its own; "
            f"if it was one, it is damaged: {GO_BACK}"
        )
    return None


def _require_empty(connection: Connection) -> None:
    """Refuse to begin a record in a SQLite file whose content cannot be found any more."""
    if connection.dialect.name == "sqlite" and connection.exec_driver_sql("PRAGMA page_count").scalar_one():
        raise RecordError(f"this file has content, and none of it can be found: it is no record, or damaged. {GO_BACK}")


def alembic_config(connection: Connection) -> Config:
    """Return Alembic's settings for the migrations in this package, on an open connection."""
    from alembic.config import Config

    # alembic would write to whatever stood for the screen when it was first imported
    config = Config(stdout=sys.stdout)
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    config.attributes["metadata"] = metadata
    return config


def _upgrade(connection: Connection) -> None:
    from alembic import command
    from alembic.script import ScriptDirectory

    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    config = alembic_config(connection)
    form = current_form(connection)
    known = {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}
    if form is not None and form not in known:
        raise RecordError(
            f"this record is of form {form}, newer than this version of clubwright: bring clubwright up to date. If it is "
            f"up to date, the record is damaged: {GO_BACK}"
        )
    command.upgrade(config, "head")
