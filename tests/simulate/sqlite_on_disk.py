"""SQLite on the disk in memory, and SQLAlchemy on that SQLite: the program's own engine, migrations and record run on it.

SQLite reaches the disk through a VFS of apsw, which does what SQLite's own for unix does: it syncs the folder at the first
sync of a journal that it made, and after a delete only when asked to. SQLAlchemy expects the standard library's `sqlite3`;
`Connection` and `Cursor` are as much of it as it uses. One connection at a time: nothing is locked.
"""

from __future__ import annotations

import itertools
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import apsw
import pytest
import sqlalchemy
from disk import Disk, DiskFull
from sqlalchemy import Engine, event

from clubwright.store.engine import open_engine

RECORD = "record.sqlite"
_NUMBERS = itertools.count(1)
_JOURNALS = apsw.SQLITE_OPEN_MAIN_JOURNAL | apsw.SQLITE_OPEN_SUPER_JOURNAL | apsw.SQLITE_OPEN_WAL


class DiskVFS(apsw.VFS):
    """SQLite's way to a disk."""

    def __init__(self, disk: Disk) -> None:
        self.disk = disk
        self.name = f"disk-{next(_NUMBERS)}"
        super().__init__(self.name, "")

    def xOpen(self, name: Any, flags: list[int]) -> OpenFile:  # noqa: N802 - SQLite's name
        flags[1] = flags[0]
        if name is None:  # a file for SQLite's own use in between: a disk of its own
            return OpenFile(Disk(), "in between", journal=False)
        said = name.filename() if isinstance(name, apsw.URIFilename) else str(name)
        return OpenFile(self.disk, said, journal=bool(flags[0] & _JOURNALS))

    def xDelete(self, name: str, sync: bool) -> None:  # noqa: N802
        if name not in self.disk.names:
            return
        self.disk.unlink(name)
        if sync:
            self.disk.sync_folder()

    def xAccess(self, name: str, flags: int) -> bool:  # noqa: N802
        return bool(self.disk.files[self.disk.names[name]]) if name in self.disk.names else False

    def xFullPathname(self, name: str) -> str:  # noqa: N802
        return name


class OpenFile:
    """One open file."""

    def __init__(self, disk: Disk, name: str, *, journal: bool) -> None:
        self.disk = disk
        self.new_journal = journal and name not in disk.names
        self.file = disk.names[name] if name in disk.names else disk.make(name)

    def xRead(self, amount: int, offset: int) -> bytes:  # noqa: N802
        return self.disk.files[self.file][offset : offset + amount]

    def xWrite(self, data: bytes, offset: int) -> None:  # noqa: N802
        try:
            self.disk.write(self.file, offset, data)
        except DiskFull as full:
            raise apsw.FullError(str(full)) from full

    def xTruncate(self, size: int) -> None:  # noqa: N802
        self.disk.truncate(self.file, size)

    def xSync(self, flags: int) -> None:  # noqa: N802
        self.disk.sync(self.file)
        if self.new_journal:
            self.disk.sync_folder()
            self.new_journal = False

    def xFileSize(self) -> int:  # noqa: N802
        return len(self.disk.files[self.file])

    def xSectorSize(self) -> int:  # noqa: N802
        return 4096

    def xDeviceCharacteristics(self) -> int:  # noqa: N802
        return apsw.SQLITE_IOCAP_POWERSAFE_OVERWRITE

    def xLock(self, level: int) -> None:  # noqa: N802
        pass

    def xUnlock(self, level: int) -> None:  # noqa: N802
        pass

    def xCheckReservedLock(self) -> bool:  # noqa: N802
        return False

    def xFileControl(self, op: int, pointer: int) -> bool:  # noqa: N802
        return False

    def xClose(self) -> None:  # noqa: N802
        pass


@contextmanager
def _as_sqlite3() -> Iterator[None]:
    """Raise what `sqlite3` would raise."""
    try:
        yield
    except apsw.ConstraintError as refused:
        raise sqlite3.IntegrityError(str(refused)) from refused
    except (apsw.CorruptError, apsw.NotADBError) as refused:
        raise sqlite3.DatabaseError(str(refused)) from refused
    except apsw.Error as refused:
        told = sqlite3.OperationalError(str(refused))
        told.sqlite_errorcode = apsw.SQLITE_FULL if isinstance(refused, apsw.FullError) else apsw.SQLITE_ERROR
        raise told from refused


class Cursor:
    """As much of a cursor as SQLAlchemy uses."""

    arraysize = 1
    lastrowid = None
    rowcount = -1

    def __init__(self, connection: apsw.Connection) -> None:
        self._cursor = connection.cursor()
        self._cursor.exec_trace = self._describe  # once a statement is through, apsw no longer says what it gave
        self.description: Any = None
        self._rows: list[Any] = []

    def execute(self, statement: str, values: Sequence[Any] = ()) -> Cursor:
        with _as_sqlite3():
            self._rows = list(self._cursor.execute(statement, tuple(values)))
        return self

    def _describe(self, cursor: apsw.Cursor, statement: str, values: Any) -> bool:
        self.description = tuple((name, *[None] * 6) for name, _ in cursor.get_description()) or None
        return True

    def executemany(self, statement: str, many: Sequence[Sequence[Any]]) -> Cursor:
        for values in many:
            self.execute(statement, values)
        return self

    def fetchone(self) -> Any:
        return self._rows.pop(0) if self._rows else None

    def fetchmany(self, size: int = 1) -> list[Any]:
        return [self._rows.pop(0) for _ in range(min(size, len(self._rows)))]

    def fetchall(self) -> list[Any]:
        rows, self._rows = self._rows, []
        return rows

    def __iter__(self) -> Iterator[Any]:
        return iter(self.fetchall())

    def close(self) -> None:
        self._cursor.close()


class Connection:
    """As much of a connection as SQLAlchemy uses; like the record's own, it begins nothing by itself."""

    isolation_level: str | None = None

    def __init__(self, vfs: str, name: str) -> None:
        self._connection = apsw.Connection(name, vfs=vfs)

    def cursor(self) -> Cursor:
        return Cursor(self._connection)

    def execute(self, statement: str, values: Sequence[Any] = ()) -> Cursor:
        return self.cursor().execute(statement, values)

    def create_function(self, *_: Any, **__: Any) -> None:
        """SQLAlchemy offers functions that the record never calls."""

    def commit(self) -> None:
        self._end("COMMIT")

    def rollback(self) -> None:
        self._end("ROLLBACK")

    def close(self) -> None:
        self._connection.close()

    def _end(self, how: str) -> None:
        if self._connection.in_transaction:
            self.execute(how)


@contextmanager
def engine_on(disk: Disk, synchronous: str | None = None) -> Iterator[Engine]:
    """Open the record on a disk with the program's own engine.

    Args:
        disk: The disk.
        synchronous: Set after the program's own settings: a planted fault. None leaves the program's own.
    """
    vfs = DiskVFS(disk)
    with pytest.MonkeyPatch.context() as patch:
        create = sqlalchemy.create_engine
        patch.setattr(
            "clubwright.store.engine.create_engine",
            lambda url, **_: create(url, creator=lambda: Connection(vfs.name, RECORD)),
        )
        engine = open_engine(f"sqlite:///{RECORD}")
    if synchronous is not None:
        event.listen(engine, "connect", lambda opened, _: opened.execute(f"PRAGMA synchronous = {synchronous}"))
    try:
        yield engine
    finally:
        engine.dispose()
        vfs.unregister()
