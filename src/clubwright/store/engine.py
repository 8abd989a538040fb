"""Open a database the way a record needs it: whole transactions, writes on the disk before they are acknowledged."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK

MAGIC = b"SQLite format 3\0"
"""What every SQLite file begins with (SQLite file format, section 1.3.1)."""

BUSY_S = 15.0
"""How long a bench waits for another one that is writing."""

READING = "clubwright_reading"
"""Execution option of a connection that only reads: on SQLite it takes no write lock."""

PRAGMAS = (
    # a journal that is deleted at commit: safe with every SQLite there is, and a file that is whole by itself
    "PRAGMA journal_mode = DELETE",
    # that deletion is the commit: FULL leaves it to the folder's own time, and a power cut could bring the old record back
    "PRAGMA synchronous = EXTRA",
    "PRAGMA foreign_keys = ON",
    "PRAGMA recursive_triggers = ON",
    # what is taken out is overwritten with zeros: a name that was erased is in no free page
    "PRAGMA secure_delete = ON",
)


def open_engine(url: str) -> Engine:
    """Return an engine for a record; close it with ``dispose()``.

    Args:
        url: ``sqlite:///path`` or ``postgresql://...``.

    Raises:
        RecordError: for another kind of database, or a file that lost its content.
    """
    where = make_url(url)
    if where.get_backend_name() == "postgresql":
        return create_engine(where.set(drivername="postgresql+psycopg"), pool_pre_ping=True)
    if where.get_backend_name() != "sqlite" or not where.database:
        raise RecordError(f"no record at {where.render_as_string()}: give a folder, or a postgresql:// address")
    _require_database(Path(where.database))
    engine = create_engine(where, connect_args={"timeout": BUSY_S})
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    return engine


def _require_database(file: Path) -> None:
    """Refuse a file that SQLite would take for an empty database and write over, or that never was one.

    Raises:
        RecordError: for such a file.
    """
    try:
        with file.open("rb") as content:
            start = content.read(len(MAGIC))
    except FileNotFoundError:
        return
    except OSError as refused:
        raise RecordError(
            f"{file} cannot be read: {refused.strerror}. Look whose it is, and whether the disk is well; copy it elsewhere"
        ) from refused
    if not start:
        raise RecordError(
            f"{file} is empty: it never was a whole record, or a copy of it failed. "
            "Put the last backup in its place, or delete it to begin a new record"
        )
    if start != MAGIC:
        raise RecordError(f"{file} is no record, or its beginning is damaged. {GO_BACK}")


def _prepare(connection: Any, _record: object) -> None:
    connection.isolation_level = None  # no BEGIN behind our back: `_begin` says which kind
    for pragma in PRAGMAS:
        connection.execute(pragma).close()


def _begin(connection: Connection) -> None:
    reading = connection.get_execution_options().get(READING, False)
    # a writer that takes its lock first never has to give up half-way
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")
