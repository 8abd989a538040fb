"""The shop's settings by command line and Python: the same answer, and nothing picked up that nobody named."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

import clubwright as library
from cli_runs import clubwright
from shopwork import SHOP_TEXT, TICKET_TEXT


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    (tmp_path / "shop.toml").write_text(SHOP_TEXT, encoding="utf-8")
    (tmp_path / "ticket.toml").write_text(TICKET_TEXT, encoding="utf-8")
    return str(tmp_path / "ticket.toml"), str(tmp_path / "shop.toml")


def of_the_shop(answer: dict[str, Any]) -> list[str]:
    return [item["where"] for item in answer["findings"] if "(shop setting)" in item["what"]]


def test_a_file_is_used_when_it_is_named_and_never_by_itself(files, capsys, monkeypatch) -> None:
    ticket, shop = files
    assert of_the_shop(clubwright(capsys, "work", ticket, "--json").body()) == []
    named = clubwright(capsys, "work", ticket, "--shop-file", shop, "--json").body()
    assert len(of_the_shop(named)) == 4
    monkeypatch.setenv("CLUBWRIGHT_SHOP_FILE", shop)
    assert clubwright(capsys, "work", ticket, "--json").body() == named
    assert library.work(ticket, shop_file=shop).plain() == named
    assert of_the_shop(library.work(ticket)) == []
    assert of_the_shop(library.work(TICKET_TEXT, shop_file=shop))


@pytest.mark.parametrize("command", ["check", "plan", "sheet", "tag"])
def test_every_command_on_ticket_files_takes_it(files, capsys, command: str, tmp_path: Path) -> None:
    ticket, shop = files
    read = (
        '[[reading]]\nquantity = "swing_weight"\nvalue = "D3.9"\nstage = "dry, gripped"\ninstrument = "swing scale"\n'
    )
    Path(ticket).write_text(TICKET_TEXT + read, encoding="utf-8")
    out = ["--out", str(tmp_path / "paper.pdf")] if command in ("sheet", "tag") else []
    assert clubwright(capsys, command, ticket, *out).code == 2, "the gauge is the shop's"
    ran = clubwright(capsys, command, ticket, "--shop-file", shop, *out)
    assert ran.code == 0, ran.err
    if command == "check":
        assert "[adhesive] pot_life: 30 min" in ran.out
    if command == "plan":
        assert "2:1 by volume" in ran.out


def test_trims_what_if_planes_and_slope_take_it(capsys, tmp_path: Path) -> None:
    iron = Path(__file__).parents[3] / "examples" / "iron.toml"
    shop = tmp_path / "shop.toml"
    shop.write_text('[tolerance]\ngrip_diameter_6in = "0.020 in"\nlength = "soon"\n', encoding="utf-8")
    for command in (["trims", str(iron)], ["what-if", str(iron), "--butt", "1/4 in"], ["planes", str(iron)]):
        ran = clubwright(capsys, *command, "--shop-file", str(shop))
        assert ran.code == 2
        assert "shop.toml [tolerance] length" in ran.err
    assert clubwright(capsys, "slope", str(iron), str(iron), "--shop-file", str(shop)).code == 2


def test_a_missing_or_broken_file_is_said_with_the_tickets_findings(files, capsys, tmp_path: Path) -> None:
    ticket, _ = files
    ran = clubwright(capsys, "work", ticket, "--shop-file", str(tmp_path / "none.toml"))
    assert ran.code == 2
    assert "no such file" in " ".join(ran.out.split())
    bad = tmp_path / "bad.toml"
    bad.write_text("[tolerance]\nlength = 1/16\n", encoding="utf-8")
    Path(ticket).write_text(TICKET_TEXT.replace('"D4"', '"Dx"'), encoding="utf-8")
    ran = clubwright(capsys, "check", ticket, "--shop-file", str(bad))
    assert ran.code == 2
    assert "bad.toml line 2: " in ran.out
    assert "[target] swing_weight" in ran.out


def test_shop_checks_the_file(files, capsys, tmp_path: Path) -> None:
    _, shop = files
    ran = clubwright(capsys, "shop", shop)
    assert ran.code == 0
    assert ran.out.endswith("shop.toml can be used.\n")
    assert "shop.toml [adhesive.two-part] pot_life: 30 min" in ran.out
    bad = tmp_path / "bad.toml"
    bad.write_text('[tolerance]\nlength = "-1 in"\n[kerf]\n', encoding="utf-8")
    ran = clubwright(capsys, "shop", str(bad), "--json")
    assert ran.code == 2
    assert [item["where"] for item in ran.body()["findings"]] == ["bad.toml [kerf]", "bad.toml [tolerance] length"]


def test_take_and_show_go_by_the_folders_file_or_the_one_named(files, capsys, tmp_path: Path) -> None:
    ticket, shop = files
    assert clubwright(capsys, "take", ticket, "--shop", str(tmp_path)).code == 0
    assert len(of_the_shop(clubwright(capsys, "show", "T-0301", "--shop", str(tmp_path), "--json").body())) == 4
    Path(shop).write_text(SHOP_TEXT.replace("1/32 in", "1/16 in"), encoding="utf-8")
    body = clubwright(capsys, "show", "T-0301", "--shop", str(tmp_path), "--json").body()
    assert "changed since the ticket was taken: kerf 1/32 in then, kerf 1/16 in now" in body["findings"][0]["what"]
    other = tmp_path / "other.toml"
    other.write_text('[shop]\nkerf = "1/8 in"\n', encoding="utf-8")
    Path(ticket).write_text(TICKET_TEXT.replace("T-0301", "T-0302"), encoding="utf-8")
    ran = clubwright(capsys, "take", ticket, "--shop", str(tmp_path), "--shop-file", str(other), "--json")
    assert "taken as kerf 1/8 in (shop setting)" in str(ran.body()["findings"])
