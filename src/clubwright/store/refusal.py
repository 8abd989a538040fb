"""What a database refuses with, said so that the person at the bench knows what to do."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DBAPIError

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK

FULL = "Make room on that disk, then try again; what was there before is unharmed."
_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_BUSY = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}
"""Another connection holds the file: the record is sound."""
_WAITED = {"40001", "40P01", "55P03"}
"""PostgreSQL's codes for a transaction that gave way to another one: the record is sound."""
_CODE = 0xFF
"""The primary part of SQLite's extended codes."""


def refusal(refused: DBAPIError) -> RecordError:
    """Return the error of a record that could not be used."""
    if _primary(refused.orig) in _BUSY or getattr(refused.orig, "sqlstate", None) in _WAITED:
        return RecordError("another bench was writing all the while, and nothing was written: try again in a moment")
    return RecordError(
        f"the record could not be used, and nothing was written: {refused.orig}. {mend_of(refused.orig)}"
    )


def mend_of(refused: BaseException | None) -> str:
    """Say what to do about what SQLite or PostgreSQL said."""
    code = _primary(refused)
    if code in _DAMAGED:
        return GO_BACK
    if code == sqlite3.SQLITE_FULL:
        return FULL
    return f"Try again, then verify it. Where it is damaged: {GO_BACK[0].lower()}{GO_BACK[1:]}"


def _primary(refused: BaseException | None) -> int | None:
    code = getattr(refused, "sqlite_errorcode", None)
    return code & _CODE if isinstance(code, int) else None
