"""Two benches that wrote apart bring their records together: nothing twice, nothing half, nothing over the other's."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import msgspec
import pytest

from cli_runs import clubwright
from clubwright.bootstrap import SITE_VARIABLE, open_session, read_facts
from clubwright.errors import NotAllowed
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.recording.merging import take_in
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
        monkeypatch.setenv(SITE_VARIABLE, site)
        take(capsys, tmp_path, number, shop)
    monkeypatch.setenv(SITE_VARIABLE, "shop")
    return shops


def test_what_the_van_wrote_is_taken_in_once(
    benches: tuple[str, str], capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == "Took in 1 fact of van; the record holds 3.\n"
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1", "X-2"]
    assert clubwright(capsys, "verify", "--shop", shop).code == 0
    again = clubwright(capsys, "merge", van, "--shop", shop, "--json").body()
    assert again == {"facts": 3, "findings": [], "new": 0, "schema": 1, "sites": ["van"]}
    # and back: the van gets what the workshop wrote, and its own is not doubled
    monkeypatch.setenv(SITE_VARIABLE, "van")
    assert clubwright(capsys, "merge", shop, "--shop", van, "--json").body()["new"] == 2
    assert len(clubwright(capsys, "jobs", "--shop", van, "--json").body()) == 2


def test_two_benches_of_one_name_are_found_out_and_nothing_is_taken_in(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path
) -> None:
    shop = benches[0]
    other = str(tmp_path / "other")
    take(capsys, tmp_path, "X-3", other)
    ran = clubwright(capsys, "merge", other, "--shop", shop)
    assert ran.code == 2
    assert "see whether two benches write as" in ran.err
    assert "whole" in clubwright(capsys, "verify", "--shop", shop).out
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1"]


def test_a_record_that_is_not_there_is_said(benches: tuple[str, str], capsys: Capsys, tmp_path: Path) -> None:
    ran = clubwright(capsys, "merge", str(tmp_path / "nowhere"), "--shop", benches[0])
    assert ran.code == 1
    assert "there is no record in" in ran.err
    assert not (tmp_path / "nowhere").exists()


def test_a_ticket_number_that_both_gave_away_is_taken_told_and_mended(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    monkeypatch.setenv(SITE_VARIABLE, "van")
    take(capsys, tmp_path, "X-1", van)
    monkeypatch.setenv(SITE_VARIABLE, "shop")
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert ran.code == 0
    assert "Took in 2 facts of van" in ran.out
    assert "several tickets have this number: X-1@shop" in ran.out
    listed = clubwright(capsys, "jobs", "--shop", shop, "--json")
    assert {row["id"]: row["state"] for row in listed.body()} == dict.fromkeys(
        ("X-2", "X-1@shop", "X-1@van"), "0 steps done"
    )
    assert listed.err == ""
    ran = clubwright(capsys, "done", "X-1", "pull", "--shop", shop)
    assert (ran.code, ran.out) == (1, "")
    assert '"X-1" is the number of several tickets: write X-1@shop' in ran.err
    assert "whole" in clubwright(capsys, "verify", "--shop", shop).out
    assert clubwright(capsys, "undo", "X-1", "2", "--site", "van", "--shop", shop).code == 0
    listed = clubwright(capsys, "jobs", "--shop", shop, "--json")
    assert (listed.err, {row["state"] for row in listed.body()}) == ("", {"0 steps done"})


def test_what_a_bench_lost_is_not_taken_from_another_one_but_from_its_backup(
    benches: tuple[str, str], capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    older = Path(shop) / "older.sqlite"
    assert clubwright(capsys, "backup", str(older), "--shop", shop).code == 0
    assert clubwright(capsys, "done", "X-1", "pull", "--shop", shop).code == 0
    monkeypatch.setenv(SITE_VARIABLE, "van")
    assert clubwright(capsys, "merge", shop, "--shop", van).code == 0
    monkeypatch.setenv(SITE_VARIABLE, "shop")
    older.replace(Path(shop) / "record.sqlite")
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert ran.code == 2
    assert "1 fact from number 2 on stands there under this bench's own name" in ran.err
    assert "put that backup in its place" in ran.err
    # as it says
    (Path(shop) / "record.sqlite").rename(Path(shop) / "kept.sqlite")
    assert clubwright(capsys, "backup", str(Path(shop) / "record.sqlite"), "--shop", van).code == 0
    assert clubwright(capsys, "merge", van, "--shop", shop).code == 0
    assert clubwright(capsys, "done", "X-1", "weigh", "--shop", shop).code in (0, 2)
    assert "whole" in clubwright(capsys, "verify", "--shop", shop).out


def test_one_key_for_two_actions_is_named(
    benches: tuple[str, str], capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    for site, where, job in (("shop", shop, "X-1"), ("van", van, "X-2")):
        monkeypatch.setenv(SITE_VARIABLE, site)
        assert clubwright(capsys, "done", job, "pull", "--key", "k-1", "--shop", where).code == 0
    monkeypatch.setenv(SITE_VARIABLE, "shop")
    ran = clubwright(capsys, "merge", van, "--shop", shop)
    assert ran.code == 2
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
    with open_session(benches[0], by="Wil") as session:
        wil = msgspec.structs.replace(session, role="work")
        with pytest.raises(NotAllowed):
            take_in(wil, read_facts(benches[1]))
        assert session.ledger.count() == 1
