"""The other files of a workshop when the power goes: people, secret and backups are the old one or the new one, whole."""

from __future__ import annotations

import os
import random
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from disk import Disk
from files_on_disk import FOLDER, DiskOs
from wreck import Wreck

from clubwright.services.record.ledger import LedgerPort
from clubwright.store import backup, files
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.guard import access
from clubwright.web.guard.people import Person, read_people, write_people

OLD, NEW = b"old " * 300, b"new " * 500


def left(disk: Disk, name: str) -> tuple[set[bytes | None], set[bytes | None]]:
    """Return what may be under a name while it is written, and once that was said to be done."""
    disk.say("done")
    chance = random.Random(54)
    during = {content.get(name) for after in range(len(disk.log)) for content in Wreck(disk, after).left(chance, 4)}
    after = {content.get(name) for content in Wreck(disk, len(disk.log)).left(chance, 4)}
    return during, after


def test_a_file_that_is_written_again_is_the_old_one_or_the_new_one(monkeypatch: pytest.MonkeyPatch) -> None:
    disk = Disk({"people.toml": OLD})
    monkeypatch.setattr(files, "os", DiskOs(disk))
    files.write_private(FOLDER / "people.toml", NEW)
    assert left(disk, "people.toml") == ({OLD, NEW}, {NEW})
    assert list(disk.names) == ["people.toml"]


@pytest.mark.parametrize("links", [True, False])
def test_a_file_that_is_made_is_not_there_or_whole(monkeypatch: pytest.MonkeyPatch, links: bool) -> None:
    disk = Disk()
    monkeypatch.setattr(files, "os", DiskOs(disk, links=links))
    assert files.make_private(FOLDER / "secret", NEW)
    assert left(disk, "secret") == ({None, NEW}, {NEW})
    assert list(disk.names) == ["secret"]


def test_a_file_that_is_there_is_not_made_again(tmp_path: Path) -> None:
    path = tmp_path / "secret"
    assert files.make_private(path, OLD)
    assert not files.make_private(path, NEW)
    assert path.read_bytes() == OLD
    assert path.stat().st_mode & 0o777 == 0o600
    assert [file.name for file in tmp_path.iterdir()] == ["secret"]


def test_a_backup_that_has_its_name_is_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    disk = Disk()
    disk.write(disk.make("backup.sqlite.part"), 0, NEW)  # as the copy may stand: nothing of it is promised yet
    monkeypatch.setattr(files, "os", DiskOs(disk))
    files.put_in_place(FOLDER / "backup.sqlite.part", FOLDER / "backup.sqlite")
    assert left(disk, "backup.sqlite") == ({None, NEW}, {NEW})


@pytest.mark.parametrize("forgotten", ["content", "folder"])
def test_a_sync_that_is_forgotten_is_found(monkeypatch: pytest.MonkeyPatch, forgotten: str) -> None:
    class Forgetful(DiskOs):
        def fsync(self, number: int) -> None:
            if (self.opened[number] is None) != (forgotten == "folder"):
                super().fsync(number)

    disk = Disk({"people.toml": OLD})
    monkeypatch.setattr(files, "os", Forgetful(disk))
    files.write_private(FOLDER / "people.toml", NEW)
    assert left(disk, "people.toml") != ({OLD, NEW}, {NEW})


def _people(folder: Path) -> None:
    write_people(folder / "people.toml", {"Ann": Person(role="work", pin="$argon2id$x")})
    assert list(read_people(folder / "people.toml")) == ["Ann"]


def _secret(folder: Path) -> None:
    assert len(access._secret_of(folder / "secret", careful=True)) >= access.SHORTEST_SECRET


def _backup(folder: Path) -> None:
    engine = open_engine(f"sqlite:///{folder / 'record.sqlite'}")
    migrate(engine)
    ledger: LedgerPort = Ledger(engine)
    backup.back_up(ledger, engine, folder / "backup.sqlite", Ledger)
    engine.dispose()


@pytest.mark.parametrize("write", [_people, _secret, _backup])
def test_whoever_writes_a_file_syncs_it_and_then_its_folder(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, write: Callable[[Path], None]
) -> None:
    """On the real disk, which calls come and in which order."""
    calls: list[str] = []

    def noted(name: str) -> Callable[..., object]:
        real = getattr(os, name)

        def call(*values: Any) -> object:
            what = "folder" if name == "fsync" and stat.S_ISDIR(os.fstat(values[0]).st_mode) else name
            calls.append(what)
            return real(*values)

        return call

    for name in ("fsync", "replace", "link"):
        monkeypatch.setattr(os, name, noted(name))
    write(tmp_path)
    assert [call.replace("link", "replace") for call in calls] == ["fsync", "replace", "folder"]
