"""A backup is a record of its own, in one SQLite file, that was read back and verified before it got its name."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Engine

from clubwright.errors import RecordError
from clubwright.journal.chain import heads, verify_chain
from clubwright.store.engine import open_engine
from clubwright.store.migrate import migrate

if TYPE_CHECKING:
    from clubwright.store.ledger import Ledger


def back_up(ledger: Ledger, path: Path) -> int:
    """Copy a record that is in use, and return how many facts the copy holds.

    A live file is never copied as a file: what is not yet in it would be lost, and the copy would still look sound.

    Raises:
        RecordError: when the path is taken, or the copy does not hold every fact; then no file is left there.
    """
    if path.exists():
        raise RecordError(f"{path} is there already: give the backup a name of its own, with the date")
    part = path.with_name(path.name + ".part")
    part.unlink(missing_ok=True)
    before = heads(ledger.facts())
    try:
        if ledger.engine.dialect.name == "sqlite":
            _copy_pages(ledger.engine, part)
        else:
            _copy_facts(ledger, part)
        count = _read_back(ledger, part, before)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return count


def _copy_pages(engine: Engine, part: Path) -> None:
    source = engine.raw_connection()
    target = sqlite3.connect(part)
    try:
        driver = source.driver_connection
        assert isinstance(driver, sqlite3.Connection)  # the engine is SQLite's
        driver.backup(target)
    finally:
        target.close()
        source.close()


def _copy_facts(ledger: Ledger, part: Path) -> None:
    engine = open_engine(f"sqlite:///{part}")
    try:
        migrate(engine)
        type(ledger)(engine).receive(ledger.facts())
    finally:
        engine.dispose()


def _read_back(ledger: Ledger, part: Path, before: dict[str, tuple[int, str]]) -> int:
    """Verify the copy by itself: its chains, its counts, and the heads that were there before the copy began."""
    engine = open_engine(f"sqlite:///{part}")
    try:
        copy = type(ledger)(engine)
        facts = copy.facts()
        findings = (*copy.verify(), *verify_chain(facts, before))
    finally:
        engine.dispose()
    expected = sum(sequence for sequence, _ in heads(facts).values())
    if findings or len(facts) != expected:
        said = "\n".join(finding.sentence() for finding in findings)
        raise RecordError(f"the copy is not whole ({len(facts)} facts of {expected}) and was thrown away. {said}")
    return len(facts)
