"""Two benches that wrote apart bring their records together: nothing twice, nothing half, nothing over the other's."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.cli.options import SITE
from clubwright.importers.ticket_file import dump_ticket
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
    assert "two benches may write under one name" in ran.err
    assert [row["id"] for row in clubwright(capsys, "jobs", "--shop", shop, "--json").body()] == ["X-1"]


def test_a_record_that_is_not_there_is_said(benches: tuple[str, str], capsys: Capsys, tmp_path: Path) -> None:
    ran = clubwright(capsys, "merge", str(tmp_path / "nowhere"), "--shop", benches[0])
    assert ran.code == 1
    assert "there is no record in" in ran.err
    assert not (tmp_path / "nowhere").exists()
