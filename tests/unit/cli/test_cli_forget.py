"""The command that forgets a player: it looks first, says what it does not reach, and reaches a backup."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.bootstrap import RECORD
from clubwright.importers.ticket_file import dump_ticket
from shaftwork import iron

Capsys = pytest.CaptureFixture[str]
NAME = "Zebulon Quagmire"


@pytest.fixture
def shop(tmp_path: Path, capsys: Capsys) -> str:
    document = iron("X-1")
    document["ticket"] |= {"player": NAME, "note": "Quagmire's own grip"}
    (tmp_path / "x.toml").write_text(dump_ticket(document), encoding="utf-8")
    folder = str(tmp_path / "shop")
    assert clubwright(capsys, "take", str(tmp_path / "x.toml"), "--shop", folder).code == 0
    return folder


def test_it_looks_first_then_erases_and_says_what_it_does_not_reach(shop: str, capsys: Capsys, tmp_path: Path) -> None:
    backup = tmp_path / "old.sqlite"
    assert clubwright(capsys, "backup", str(backup), "--shop", shop).code == 0
    looked = clubwright(capsys, "forget", NAME, "--shop", shop)
    assert (looked.code, looked.err) == (0, "")
    assert "Would erase 1 texts in 1 facts (jobs X-1)." in looked.out
    assert "what/document/ticket/note: Quagmire's own grip" in looked.out
    assert "--facts 1" in looked.out
    assert NAME.encode() in (Path(shop) / RECORD).read_bytes()
    unsaid = clubwright(capsys, "forget", NAME, "--facts", "2", "--shop", shop)
    assert unsaid.code == 2
    assert "nobody is said" in unsaid.err
    assert "then give 1" in unsaid.err
    said = ("--asked-by", "the player", "--facts", "1", "--also", "Quagmire")
    done = clubwright(capsys, "forget", NAME, *said, "--shop", shop, "--json").body()
    assert (done["facts"], done["texts"], done["remaining"]) == (1, 2, [])
    assert any("--apply-to" in line for line in done["unreached"])
    assert b"Quagmire" not in (Path(shop) / RECORD).read_bytes()
    assert clubwright(capsys, "verify", "--shop", shop).out == "The record is whole: 2 facts.\n"
    assert f"a forgotten player {done['person']}" in clubwright(capsys, "jobs", "--shop", shop).out
    trail = clubwright(capsys, "show", "X-1", "--shop", shop)
    assert trail.code == 0
    assert "Quagmire" not in trail.out
    applied = clubwright(capsys, "forget", "--apply-to", str(backup), "--shop", shop)
    assert "Erased in 1 facts" in applied.out
    assert b"Quagmire" not in backup.read_bytes()


def test_a_slip_is_said(shop: str, capsys: Capsys, tmp_path: Path) -> None:
    assert "one of two is needed" in clubwright(capsys, "forget", "--shop", shop).err
    assert "Did you mean" in clubwright(capsys, "forget", "Zebulon Quagmir", "--shop", shop).err
    assert "there is no file" in clubwright(capsys, "forget", "--apply-to", str(tmp_path / "no"), "--shop", shop).err
