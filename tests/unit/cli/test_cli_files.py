"""Commands on ticket files: what they print, where, and with which exit code."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from benchwork import TEXT, document
from cli_runs import clubwright

Capsys = pytest.CaptureFixture[str]
SCREEN = 100


@pytest.fixture
def ticket(tmp_path: Path) -> str:
    path = tmp_path / "wedge.toml"
    path.write_text(TEXT, encoding="utf-8")
    return str(path)


def test_work_gives_the_same_bytes_again(capsys: Capsys, ticket: str):
    first, second = clubwright(capsys, "work", ticket, "--json"), clubwright(capsys, "work", ticket, "--json")
    assert (first.code, first.err) == (0, "")
    assert first.out == second.out
    body = first.body()
    assert list(body) == sorted(body)
    assert body["finished"]["length"]["unit"] == "m"


@pytest.mark.parametrize("command", ["work", "plan", "check"])
def test_lines_for_a_person_fit_the_screen(capsys: Capsys, ticket: str, command: str):
    ran = clubwright(capsys, command, ticket)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.strip()
    assert [line for line in ran.out.splitlines() if len(line) > SCREEN] == []


def test_work_says_the_main_things(capsys: Capsys, ticket: str):
    out = clubwright(capsys, "work", ticket).out
    for heading in ("CUT", "FINISHED", "ADVICE", "GATES"):
        assert f"{heading}" in out
    assert "34.010 in" in out
    assert "glue     CLOSED  nobody has looked at the hand of the head" in out
    assert "no dry swing-weight reading yet: read it before gluing" in " ".join(out.split())
    assert "warning: wedge.toml [head] hand: not looked at" in out


def test_plan_sets_the_rules_of_thumb_beside_the_club(capsys: Capsys, ticket: str):
    out = clubwright(capsys, "plan", ticket).out
    assert "[ ] 1. Take out the parts and read them aloud" in out
    assert "head weight for one point: the rule says 2.0 g, this club 2." in out
    steps = clubwright(capsys, "plan", ticket, "--json").body()
    once = "The product's safety data sheet"
    assert out.count(once) == 1, "what holds at every step is said once, before the first"
    assert out.index(once) < out.index("[ ] 1. ")
    assert sum(once in text for step in steps for text in step["cautions"]) > 3
    assert "Wear eye and ear protection; keep the guard of the cut-off wheel on." in out
    assert [step["number"] for step in steps] == list(range(1, len(steps) + 1))
    assert all(step["done_when"] for step in steps)


def test_check_says_how_every_figure_was_understood(capsys: Capsys, ticket: str):
    out = clubwright(capsys, "check", ticket).out
    assert "wedge.toml [head] mass: 296.4 g" in out
    assert "Ticket T-0054 can be taken." in out
    assert clubwright(capsys, "check", ticket, "--json").body()["taken"] is True


def bad(tmp_path: Path, content: bytes) -> str:
    path = tmp_path / "bad.toml"
    path.write_bytes(content)
    return str(path)


BAD: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "[ticket] id: missing"),
    "not TOML": (b"[ticket]\nid = \n", "line 2"),
    "no text": (b"\xff\xfe\x00\x01", "not a text file"),
    "latin-1": ('[ticket]\nid = "T-1"\nplayer = "J\xe4rvi"\n'.encode("latin-1"), "Save it as plain text (UTF-8)"),
    "a comma": (TEXT.replace('mass = "296.4 g"', 'mass = "296,4 g"').encode(), "[head] mass: '296,4 g' has a comma"),
    "a table twice": (b'[ticket]\nid = "T-1"\n[ticket]\nkind = "wedge"\n', "line 3"),
    "no tables": (b'ticket = "T-1"\nhead = 5\n', "bad.toml"),
    "a zip": (b"PK\x03\x04\x00\x00", "bad.toml"),
}


@pytest.mark.parametrize("case", BAD)
@pytest.mark.parametrize("command", ["work", "check", "plan", "take"])
def test_a_bad_file_is_refused_with_where_and_what(capsys: Capsys, tmp_path: Path, command: str, case: str):
    content, said = BAD[case]
    path = bad(tmp_path, content)
    shop = ["--shop", str(tmp_path / "shop")] if command == "take" else []
    ran = clubwright(capsys, command, path, *shop)
    assert ran.code == 2
    assert said in ran.out + ran.err
    assert "Traceback" not in ran.err
    as_json = clubwright(capsys, command, path, *shop, "--json")
    assert as_json.code == 2
    assert said.rpartition("] ")[2].rpartition(": ")[2] in json.dumps(as_json.body(), ensure_ascii=False)


@pytest.mark.parametrize("command", ["work", "check", "plan"])
def test_no_file_and_a_folder(capsys: Capsys, tmp_path: Path, command: str):
    for path, said in ((tmp_path / "none.toml", "no such file"), (tmp_path, "this is a folder")):
        ran = clubwright(capsys, command, str(path))
        assert ran.code == 2
        assert said in " ".join((ran.out + ran.err).split()), "the line breaks where the path is long"


def test_all_findings_come_at_once(capsys: Capsys, tmp_path: Path):
    text = TEXT.replace('mass = "296.4 g"', 'mass = "296,4 g"').replace('cap = "0.14 in"', 'cap = "0.14"')
    ran = clubwright(capsys, "work", bad(tmp_path, text.encode()), "--json")
    assert ran.code == 2
    errors = [item["where"] for item in ran.body()["findings"] if item["severity"] == "error"]
    assert errors == ["bad.toml [head] mass", "bad.toml [grip] cap"]
    assert ran.body()["advice"] == []


def test_the_schemas_fit_the_demo_and_its_answer(capsys: Capsys, ticket: str):
    jsonschema.validate(document(), clubwright(capsys, "schema", "ticket").body())
    answer = clubwright(capsys, "work", ticket, "--json").body()
    schema = clubwright(capsys, "schema", "answer").body()
    jsonschema.validate(answer, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**answer, "gates": [{"step": "cut"}]}, schema)
    assert clubwright(capsys, "schema", "club").code == 2


def test_notation_echoes_or_refuses(capsys: Capsys):
    ran = clubwright(capsys, "notation", "length", "35 1/2 in", "--json")
    assert ran.body()["value"] == pytest.approx(35.5 * 0.0254)
    assert clubwright(capsys, "notation", "lie", "1/2 flat", "--base", "64 deg").out.startswith("1/2 flat = 63.5 deg")
    refused = clubwright(capsys, "notation", "length", "35,5 in", "--json")
    assert refused.code == 2
    assert refused.body()["findings"][0]["what"] == "'35,5 in' has a comma"
    assert "comma" in refused.err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["wrk"], 'Did you mean "work"'),
        (["work"], "requires an argument"),
        (["work", "x.toml", "--frob"], "Unknown option"),
        (["read", "T-1", "length"], "requires an argument"),
    ],
)
def test_a_slip_in_the_command_is_said_on_stderr(capsys: Capsys, arguments: list[str], said: str):
    ran = clubwright(capsys, *arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert said in " ".join(ran.err.replace("│", " ").split())


def test_as_a_program(ticket: str, tmp_path: Path):
    """The same through the console script's own module: JSON on stdout alone, exit codes for a shell."""

    def program(*arguments: str) -> subprocess.CompletedProcess[str]:
        call = [sys.executable, "-c", "from clubwright.cli.main import run; run()", *arguments]
        return subprocess.run(call, capture_output=True, text=True, cwd=tmp_path, check=False)

    good = program("work", ticket, "--json")
    assert (good.returncode, good.stderr) == (0, "")
    assert json.loads(good.stdout)["cut"]["shaft_length_m"] == pytest.approx(34.01 * 0.0254, abs=1e-4)
    refused = program("show", "T-1", "--json")
    assert refused.returncode == 1
    assert 'there is no record in "workshop"' in json.loads(refused.stdout)["error"]
    assert "there is no record" in refused.stderr
    assert not (tmp_path / "workshop").exists(), "looking makes nothing"
    assert program("work", "none.toml").returncode == 2
