"""What a database refuses with, said so that the person at the bench knows what to do."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DBAPIError

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK

FULL = "Make room on that disk, then try again; what was there before is unharmed."
_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_CODE = 0xFF
"""The primary part of SQLite's extended codes."""


def refusal(refused: DBAPIError) -> RecordError:
    """Return the error of a record that could not be used."""
    return RecordError(
        f"the record could not be used, and nothing was written: {refused.orig}. {mend_of(refused.orig)}"
    )


def mend_of(refused: BaseException | None) -> str:
    """Say what to do about what SQLite or PostgreSQL said."""
    code = getattr(refused, "sqlite_errorcode", None)
    if isinstance(code, int) and code & _CODE in _DAMAGED:
        return GO_BACK
    if isinstance(code, int) and code & _CODE == sqlite3.SQLITE_FULL:
        return FULL
    return f"Try again, then verify it. Where it is damaged: {GO_BACK[0].lower()}{GO_BACK[1:]}"
