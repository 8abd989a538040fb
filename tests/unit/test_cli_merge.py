"""Two benches that wrote apart bring their records together: nothing twice, nothing half, nothing over the other's."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import msgspec
import pytest

from cli_runs import clubwright
from clubwright.bootstrap import open_desk, read_facts
from clubwright.cli.options import SITE
from clubwright.errors import NotAllowed
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.merging import take_in
from shaftwork import iron

Capsys = pytest.CaptureFixture[str]


def take(capsys: Capsys, folder: Path, number: str, shop: str) -> None:
    path = folder / f"{number}.toml"
    path.write_text(dump_ticket(iron(number)), encoding="utf-8")
    assert clubwright(capsys, "take", str(path), "--shop", shop).code == 0


@pytest.fixture
def benches(tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> tuple[str, str]:
    """A workshop and its van, each with a ticket of its own."""
    shops = str(tmp_path / "shop"), str(tmp_path / "van")
    for site, shop, number in (("shop", shops[0], "X-1"), ("van", shops[1], "X-2")):
        monkeypatch.setenv(SITE, site)
        take(capsys, tmp_path, number, shop)
    monkeypatch.setenv(SITE, "shop")
    return shops


def test_what_the_van_wrote_is_taken_in_once(benches: tuple[str, str], capsys: Capsys) -> None:
    shop, van = benches
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == "Took in 1 fact of van; the record holds 2.\n"
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1", "X-2"]
    assert clubwright(capsys, "verify", "--shop", shop).code == 0
    again = clubwright(capsys, "merge", van, "--shop", shop, "--json").body()
    assert again == {"facts": 2, "new": 0, "sites": ["van"]}
    # and back: the van gets what the workshop wrote, and its own is not doubled
    assert clubwright(capsys, "merge", shop, "--shop", van, "--json").body()["new"] == 1
    assert len(clubwright(capsys, "jobs", "--shop", van, "--json").body()) == 2


def test_two_benches_of_one_name_are_found_out_and_nothing_is_taken_in(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path
) -> None:
    shop = benches[0]
    other = str(tmp_path / "other")
    take(capsys, tmp_path, "X-3", other)
    ran = clubwright(capsys, "merge", other, "--shop", shop)
    assert ran.code == 1
    assert "see whether two benches write as" in ran.err
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1"]


def test_a_record_that_is_not_there_is_said(benches: tuple[str, str], capsys: Capsys, tmp_path: Path) -> None:
    ran = clubwright(capsys, "merge", str(tmp_path / "nowhere"), "--shop", benches[0])
    assert ran.code == 1
    assert "there is no record in" in ran.err
    assert not (tmp_path / "nowhere").exists()


def test_a_ticket_number_that_both_gave_away_is_refused_before_anything_is_written(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    monkeypatch.setenv(SITE, "van")
    take(capsys, tmp_path, "X-1", van)
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert ran.code == 1
    assert 'two tickets are called "X-1"' in ran.err
    assert "Nothing was taken in" in ran.err
    monkeypatch.setenv(SITE, "shop")
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1"]
    monkeypatch.setenv(SITE, "van")
    assert clubwright(capsys, "undo", "X-1", "2", "--shop", van).code == 0
    assert clubwright(capsys, "merge", van, "--shop", shop).code == 0


def test_one_key_for_two_actions_is_named(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    for site, where, job in (("shop", shop, "X-1"), ("van", van, "X-2")):
        monkeypatch.setenv(SITE, site)
        assert clubwright(capsys, "done", job, "pull", "--key", "k-1", "--shop", where).code == 0
    monkeypatch.setenv(SITE, "shop")
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert ran.code == 1
    assert 'have the same key "k-1"' in ran.err


def test_the_other_record_is_only_read(benches: tuple[str, str], capsys: Capsys) -> None:
    shop, van = benches
    file = Path(van) / "record.sqlite"
    before = (file.read_bytes(), file.stat().st_mtime_ns)
    assert clubwright(capsys, "merge", van, "--shop", shop).code == 0
    assert (file.read_bytes(), file.stat().st_mtime_ns) == before
    with sqlite3.connect(file) as older:
        older.execute("UPDATE alembic_version SET version_num = '0000'")
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert (ran.code, "is of form 0000" in ran.err) == (1, True)


def test_who_may_not_sign_takes_in_no_signatures(benches: tuple[str, str]) -> None:
    with open_desk(benches[0], by="Wil") as desk:
        wil = msgspec.structs.replace(desk, role="work")
        with pytest.raises(NotAllowed):
            take_in(wil, read_facts(benches[1]))
        assert desk.ledger.count() == 1
