"""A backup is a record of its own, in one SQLite file, that was read back and verified before it got its name."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from sqlalchemy import Engine

from clubwright.errors import RecordError
from clubwright.journal.chain import GO_BACK, heads, verify_chain
from clubwright.services.record.ledger import LedgerPort
from clubwright.store.engine import keep_private, open_engine
from clubwright.store.files import put_in_place
from clubwright.store.migrate import migrate
from clubwright.store.refusal import mend_of

Make = Callable[[Engine], LedgerPort]
"""Makes a record of a migrated database."""


def back_up(ledger: LedgerPort, engine: Engine, path: Path, make: Make) -> int:
    """Copy a record that is in use, and return how many facts the copy holds.

    A live file is never copied as a file: what is not yet in it would be lost, and the copy would still look sound. Where
    the file itself is damaged and every fact in it is sound, the facts are written into a new one.

    Args:
        ledger: The record.
        engine: Its database.
        path: Where the copy goes.
        make: Makes the copy a record.

    Raises:
        RecordError: when the path is taken, or the copy does not hold every fact; then no file is left there.
    """
    if path.exists():
        raise RecordError(f"{path} is there already: give the backup a name of its own, with the date")
    before = ledger.heads()
    part = path.with_name(path.name + ".part")
    try:
        _remove(part)
        if engine.dialect.name == "sqlite" and not ledger.verify():
            _copy_pages(engine, part)
        else:
            # also where the file is damaged and every fact is sound: the copy is then whole
            _copy_facts(ledger, part, make)
        count = _read_back(part, before, make)
        put_in_place(part, path)
    except sqlite3.Error as refused:
        raise RecordError(f"the backup {path} could not be written: {refused}. {_mend(refused)}") from refused
    except OSError as refused:
        raise RecordError(f"the backup {path} could not be written: {refused.strerror}. {_mend(refused)}") from refused
    finally:
        with suppress(OSError):
            _remove(part)
    return count


def _remove(part: Path) -> None:
    for name in (part, part.with_name(part.name + "-journal")):
        name.unlink(missing_ok=True)


def _mend(refused: Exception) -> str:
    elsewhere = "Name a folder that is there, on a disk with room for the whole record. Nothing was left there."
    return GO_BACK if mend_of(refused) == GO_BACK else elsewhere


def _copy_pages(engine: Engine, part: Path) -> None:
    source = engine.raw_connection()
    target = sqlite3.connect(part)
    try:
        target.execute("PRAGMA user_version").close()  # now the file is there, and still empty
        keep_private(part, new=True)
        driver = source.driver_connection
        assert isinstance(driver, sqlite3.Connection)  # the engine is SQLite's
        driver.backup(target)
    finally:
        target.close()
        source.close()


def _copy_facts(ledger: LedgerPort, part: Path, make: Make) -> None:
    engine = open_engine(f"sqlite:///{part}")
    try:
        migrate(engine)
        make(engine).receive(ledger.facts())
    finally:
        engine.dispose()


def _read_back(part: Path, before: dict[str, tuple[int, str]], make: Make) -> int:
    """Verify the copy by itself: its chains, its counts, and the heads that were there before the copy began."""
    engine = open_engine(f"sqlite:///{part}")
    try:
        copy = make(engine)
        facts = copy.facts()
        findings = (*copy.verify(), *verify_chain(facts, before))
    finally:
        engine.dispose()
    expected = sum(sequence for sequence, _ in heads(facts).values())
    if findings or len(facts) != expected:
        said = "\n".join(finding.sentence() for finding in findings)
        raise RecordError(f"the copy is not whole ({len(facts)} facts of {expected}) and was thrown away. {said}")
    return len(facts)
