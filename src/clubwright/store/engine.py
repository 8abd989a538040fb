"""Open a database the way a record needs it: whole transactions, writes on the disk before they are acknowledged."""

from __future__ import annotations

import sqlite3
import stat
import uuid
from contextlib import suppress
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, QueuePool, create_engine, event, make_url

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK

MAGIC = b"SQLite format 3\0"
"""What every SQLite file begins with (SQLite file format, section 1.3.1)."""

BUSY_S = 15.0
"""How long a bench waits for another one that is writing."""

SHARED_IN_MEMORY = (3, 36, 0)
"""First SQLite whose connections can share a database in memory that locks like a file."""

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
        try:
            return create_engine(where.set(drivername="postgresql+psycopg"), pool_pre_ping=True)
        except ImportError as missing:  # the package, or the library of PostgreSQL that it calls
            raise RecordError(
                f"this Python has no driver for PostgreSQL ({missing}): install clubwright with its extra, "
                'pip install "clubwright[postgres]", or name a folder'
            ) from missing
    if where.get_backend_name() != "sqlite" or not where.database:
        raise RecordError(f"no record at {where.render_as_string()}: give a folder, or a postgresql:// address")
    file = Path(where.database)
    _require_database(file)
    new = not file.exists()
    engine = _prepared(create_engine(where, connect_args={"timeout": BUSY_S}))
    # the file is there with the first statement of `_prepare`, and still empty
    event.listen(engine, "connect", lambda *_: keep_private(file, new=new))
    return engine


def keep_private(file: Path, *, new: bool) -> None:
    """Let no other account of this computer read a record: a new one, and an old one that was left open to all.

    One that its owner opened to a group stays so. Where the rights cannot be changed, on a stick that knows none or in a
    folder of somebody else's, the record is used as it is. SQLite gives its journal the rights of the file.
    """
    with suppress(OSError):
        rights = stat.S_IMODE(file.stat().st_mode)
        if rights & (0o077 if new else 0o007):
            file.chmod(0o600)


def open_in_memory() -> Engine:
    """Return an engine for a record that no file holds; it is gone with ``dispose()``.

    SQLite keeps it as it keeps a file: with a journal, and locks between connections, so that all that writes and reads a
    file's record does the same here (SQLite, "The memdb VFS"; databases that connections share since 3.36).

    Raises:
        RecordError: when this Python's SQLite cannot do that.
    """
    name = f"file:/clubwright-{uuid.uuid4().hex}?vfs=memdb"

    def connect() -> sqlite3.Connection:
        return sqlite3.connect(name, uri=True, timeout=BUSY_S, check_same_thread=False)

    try:
        if sqlite3.sqlite_version_info < SHARED_IN_MEMORY:
            raise sqlite3.OperationalError(f"it is version {sqlite3.sqlite_version}")
        keeper = connect()  # SQLite forgets it with the last connection, and the pool may close any of its own
    except sqlite3.Error as refused:
        raise RecordError(
            f"this Python's SQLite keeps no record in memory ({refused}): give a folder, which may be a temporary one"
        ) from refused
    engine = _prepared(create_engine("sqlite://", creator=connect, poolclass=QueuePool))
    event.listen(engine, "engine_disposed", lambda _: keeper.close())
    return engine


def _prepared(engine: Engine) -> Engine:
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
