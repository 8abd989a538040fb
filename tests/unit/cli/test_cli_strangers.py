"""What a stranger may write, or a terminal lack: no command ends in a traceback, and none hands a terminal its orders."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.cli.output import on_screen
from clubwright.errors import RecordError
from clubwright.services.actions.orders.renumbering import number_findings
from clubwright.store.engine import open_engine

Capsys = pytest.CaptureFixture[str]
ESCAPE, C1 = "\N{ESCAPE}", "\x9b"
EXAMPLE = Path(__file__).parents[3] / "examples" / "wedge-54.toml"


def _ticket(folder: Path, text: str) -> str:
    file = folder / "ticket.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


@pytest.fixture
def demo_text() -> str:
    return (Path(__file__).parents[3] / "src/clubwright/demo/wedge-54.toml").read_text(encoding="utf-8")


def test_a_misspelt_kind_of_notation_is_answered_with_the_one_meant(capsys: Capsys):
    ran = clubwright(capsys, "notation", "lenght", "35.5 in")
    assert ran.code == 2
    assert ran.err == 'kind: "lenght" is no kind of quantity. Write "length".\n'
    assert "There are: " in clubwright(capsys, "notation", "zzz", "1").err


def test_what_a_terminal_would_obey_is_spelt_out(capsys: Capsys, tmp_path: Path, demo_text: str):
    evil = demo_text.replace("Robin Ashdown (invented)", "\\u001b]0;owned\\u0007\\u009b31m \\u202e Robin")
    ran = clubwright(capsys, "plan", _ticket(tmp_path, evil))
    assert "\\x1b]0;owned\\x07\\x9b31m \\x202e Robin" in ran.out
    assert not {ESCAPE, C1, "\a", "\N{RIGHT-TO-LEFT OVERRIDE}"} & set(ran.out + ran.err)


def test_json_says_them_by_number_and_means_the_same(capsys: Capsys):
    for letter in (ESCAPE, C1, "\N{RIGHT-TO-LEFT OVERRIDE}", "\x7f"):
        ran = clubwright(capsys, "words", f"54 wedge {letter} D4", "--json")
        assert letter not in ran.out
        assert f"\\u{ord(letter):04x}" in ran.out
        ran.body()


def test_an_error_spells_them_out_too(capsys: Capsys):
    ran = clubwright(capsys, "check", f"no{ESCAPE}[2J.toml")
    assert ran.code == 2
    assert ESCAPE not in ran.err
    assert "no\\x1b[2J.toml: no such file" in ran.err


@pytest.mark.parametrize("as_json", [False, True])
def test_a_terminal_that_knows_ascii_only_is_served(
    capsys: Capsys, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, demo_text: str, as_json: bool
):
    said = clubwright(capsys, "work", _ticket(tmp_path, demo_text), *["--json"] * as_json)
    assert "±" in said.out
    out, err = tmp_path / "out", tmp_path / "err"
    with out.open("w", encoding="ascii") as first, err.open("w", encoding="ascii") as second:
        monkeypatch.setattr(sys, "stdout", first)
        monkeypatch.setattr(sys, "stderr", second)
        clubwright_code = _run("work", _ticket(tmp_path, demo_text), *["--json"] * as_json)
    assert clubwright_code == 0
    text = out.read_text(encoding="ascii")
    if as_json:
        assert type(said)(0, text, "").body() == said.body()
    else:
        assert "35 1/4 in +/- 0.0" in text


def _run(*arguments: str) -> int:
    from clubwright.cli.main import run

    with pytest.raises(SystemExit) as left:
        run(list(arguments))
    return int(left.value.code or 0)


def test_the_nearest_letters():
    assert on_screen("½ in ± 5 µm, Jürgen, 東", "ascii") == "1/2 in +/- 5 um, Jurgen, ?"
    assert on_screen("Jürgen ±\ttab", "utf-8") == "Jürgen ±\ttab"


def test_without_the_driver_for_postgresql_it_is_said_what_to_install(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(sys.modules, "psycopg", None)
    with pytest.raises(RecordError, match=r"pip install \"clubwright\[postgres\]\""):
        open_engine("postgresql+psycopg://localhost/shop")


@pytest.mark.parametrize("number", [".", "..", "..."])
def test_a_number_that_is_the_way_to_a_folder_is_refused(capsys: Capsys, tmp_path: Path, demo_text: str, number: str):
    ran = clubwright(capsys, "check", _ticket(tmp_path, demo_text.replace('"T-0054"', f'"{number}"')))
    assert ran.code == 2
    assert f'[ticket] id: "{number}" is the way to a folder' in ran.out + ran.err
    assert number_findings(number)
    assert not number_findings("T-1.2")


def test_the_mark_is_not_printed_first_while_its_gate_is_shut(capsys: Capsys, tmp_path: Path, demo_text: str):
    shut = demo_text.replace('bore_to_ground = "1.10 in"\n', "")
    assert shut != demo_text
    out = clubwright(capsys, "work", _ticket(tmp_path, shut)).out
    assert "cut      CLOSED" in out
    assert out.index("cut      CLOSED") < out.index("CUT, not to saw by: its gate is closed") < out.index("Mark ")
    out = clubwright(capsys, "work", _ticket(tmp_path, demo_text)).out
    assert out.startswith("CUT\n  Mark ")
