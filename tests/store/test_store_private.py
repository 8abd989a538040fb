"""Records and backups are for their account only: names of players, and who did what, are in them."""

from __future__ import annotations

import os
import sqlite3
import stat
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from clubwright.bootstrap import RECORD, open_session

pytestmark = pytest.mark.skipif(os.name != "posix", reason="rights of files are POSIX's")


@pytest.fixture(autouse=True)
def lavish_account() -> Iterator[None]:
    before = os.umask(0)
    yield
    os.umask(before)


def rights(file: Path) -> int:
    return stat.S_IMODE(file.stat().st_mode)


def make(folder: Path) -> Path:
    with open_session(str(folder), by="Ann") as session:
        session.ledger.count()
    return folder / RECORD


def test_a_new_record_and_its_journal_are_private(tmp_path: Path):
    record = make(tmp_path)
    assert rights(record) == 0o600
    with closing(sqlite3.connect(record, isolation_level=None)) as writing:
        writing.execute("BEGIN IMMEDIATE")
        writing.execute("CREATE TABLE other (x)")
        assert rights(record.with_name(f"{RECORD}-journal")) == 0o600
        writing.execute("ROLLBACK")


def test_a_backup_is_private_while_it_is_written_and_after(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    from clubwright.store import backup

    seen: list[int] = []
    put = backup.put_in_place

    def watched(part: Path, path: Path) -> None:
        seen.append(rights(part))
        put(part, path)

    monkeypatch.setattr(backup, "put_in_place", watched)
    make(tmp_path)
    with open_session(str(tmp_path), by="Ann") as session:
        session.ledger.backup(tmp_path / "copy.sqlite")
    assert (seen, rights(tmp_path / "copy.sqlite")) == ([0o600], 0o600)


@pytest.mark.parametrize(("before", "after"), [(0o644, 0o600), (0o666, 0o600), (0o660, 0o660), (0o640, 0o640)])
def test_an_old_record_open_to_all_is_closed_and_one_shared_with_a_group_is_left(
    tmp_path: Path, before: int, after: int
):
    record = make(tmp_path)
    record.chmod(before)
    make(tmp_path)
    assert rights(record) == after


def test_where_rights_cannot_be_changed_the_record_is_used_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def refused(self: Path, mode: int) -> None:
        raise PermissionError(1, "no rights here")

    monkeypatch.setattr(Path, "chmod", refused)
    assert make(tmp_path).exists()
