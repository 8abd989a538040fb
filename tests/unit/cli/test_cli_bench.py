"""Commands at the bench and on the record: what a clubmaker sees, what a program gets, and what is refused."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from benchwork import JOB, TEXT
from cli_runs import Ran, clubwright, workshop
from clubwright.cli.main import app

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")
COMMANDS = sorted(name for name in app if not name.startswith("-"))

HAPPY: dict[str, tuple[str, list[str], str]] = {
    "measure": ("take", ["measure", JOB, "head", "hand=right"], "head: hand right"),
    "done": ("hand", ["done", JOB, "pull", "--note", "read aloud"], "done: pull (read aloud)"),
    "sign": ("done weigh", ["sign", JOB, "cut"], "signed: cut"),
    "trim": ("hand", ["trim", JOB, "butt", "1/2 in"], "trimmed 1/2 in off the butt"),
    "cut": ("sign cut", ["cut", JOB, "34.01 in"], "cut to 34.01 in"),
    "tape": ("cut", ["tape", JOB, "build-up", "2", "2.9 g"], "laid 2 of build-up, 2.9 g"),
    "read": (
        "done mark and cut",
        ["read", JOB, "swing_weight", "D1.3", "--stage", "dry, gripped", "--gauge", "swing scale"],
        "swing_weight D1.3",
    ),
    "fit": ("read total_weight 465.4 g dry, gripped", ["fit", JOB, "port 6"], "fitted port 6"),
    "mix": (
        "fit",
        ["mix", JOB, "4.0 g", "2.0 g", "--temperature", "22 C", "--batch", "lot 7"],
        "mixed 4.0 g + 2.0 g",
    ),
    "glue": ("sign glue", ["glue", JOB, "--temperature", "22 C"], "glued at 22 C"),
    "grip": ("done cure", ["grip", JOB], "gripped"),
    "bend": ("grip", ["bend", JOB, "--loft", "54 deg", "--lie", "63.5 deg"], "bent to loft 54 deg, lie 63.5 deg"),
    "decide": (
        "read total_weight 477.2 g finished",
        ["decide", JOB, "23", "leave", "--reason", "a 2 for a 7"],
        "reading 23: leave it out",
    ),
    "undo": ("fit", ["undo", JOB, "--reason", "wrong one"], "undo 10 of van"),
}


@pytest.mark.parametrize("case", HAPPY)
def test_each_action_says_what_it_kept_and_what_comes_next(capsys: Capsys, tmp_path: Path, case: str):
    last, arguments, typed = HAPPY[case]
    shop = workshop(tmp_path / "shop", last)
    if case == "glue":  # the clock of the command line is the real one: a fresh cup
        clubwright(capsys, *HAPPY["mix"][1], "--shop", shop)
    ran = clubwright(capsys, *arguments, "--shop", shop, "--by", "Ann")
    assert (ran.code, ran.err) == (0, "")
    first, *rest = ran.out.splitlines()
    assert first.endswith(f": {typed}.")
    assert first.startswith("Kept as ")
    rest = [line for line in rest if line != 'The step "tape" is done with it.']
    assert rest[1].startswith(f"{JOB}  54 wedge  Robin Ashdown (invented)  ")
    assert "NEXT STEP" in ran.out
    assert [line for line in ran.out.splitlines() if len(line) > 100] == []


@pytest.mark.parametrize("case", HAPPY)
def test_each_action_answers_a_program_once(capsys: Capsys, tmp_path: Path, case: str):
    last, arguments, _ = HAPPY[case]
    shop = workshop(tmp_path / "shop", last)
    if case == "glue":
        clubwright(capsys, *HAPPY["mix"][1], "--shop", shop)
    sent = [*arguments, "--shop", shop, "--by", "Ann", "--key", "page-1", "--json"]
    first, second = clubwright(capsys, *sent), clubwright(capsys, *sent)
    assert (first.code, second.code) == (0, 0), first.err + second.err
    assert first.body()["fact"] == second.body()["fact"], "the same key is kept once"
    assert first.body()["job"] == JOB
    assert first.body()["next_step"]
    trail = clubwright(capsys, "trail", JOB, "--shop", shop, "--json").body()
    mine = [row for row in trail if row["site"] == "bench"]
    assert [row["by"] for row in mine if row["number"] == str(first.body()["fact"])] == ["Ann"]
    assert len({row["text"] for row in mine}) == len(mine), "and nothing is kept twice"


def test_take_makes_the_workshop_and_jobs_lists_it(capsys: Capsys, tmp_path: Path):
    (tmp_path / "w.toml").write_text(TEXT, encoding="utf-8")
    shop = str(tmp_path / "new" / "shop")
    ran = clubwright(capsys, "take", str(tmp_path / "w.toml"), "--shop", shop)
    assert ran.out.startswith("Kept as 1: ticket from w.toml.")
    assert clubwright(capsys, "jobs", "--shop", shop).out.split() == [
        *f"{JOB} 54 wedge Robin Ashdown (invented) 0 steps done".split()
    ]
    assert clubwright(capsys, "jobs", "--shop", shop, "--json").body()[0]["id"] == JOB
    gone = clubwright(capsys, "undo", JOB, "1", "--shop", shop)
    assert gone.out == f"Kept as 2: undo 1. The record has no ticket {JOB} any more.\n"
    assert clubwright(capsys, "jobs", "--shop", shop).out == "No jobs yet: take a ticket.\n"


def test_show_fits_a_screen(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "done tag")
    ran = clubwright(capsys, "show", JOB, "--shop", shop)
    lines = ran.out.splitlines()
    assert len(lines) < 55
    assert "ADVICE" not in ran.out, "the job is finished"
    assert [line for line in lines if len(line) > 100] == []
    assert ran.out.count("the reading must clear the limit by twice its standard uncertainty") == 1
    assert "swing weight           IN SPEC  Reading D4.05" in ran.out
    same = clubwright(capsys, "show", JOB, "--shop", shop)
    assert same.out == ran.out


def test_the_belief_of_every_part_can_be_seen(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "done tag")
    assert "BELIEF" not in clubwright(capsys, "show", JOB, "--shop", shop).out
    out = clubwright(capsys, "show", JOB, "--belief", "--shop", shop).out
    assert "BELIEF, part by part" in out
    assert "  grip: cap " in out
    belief = {item["name"]: item for item in clubwright(capsys, "show", JOB, "--shop", shop, "--json").body()["belief"]}
    head = belief["head.mass_kg"]
    assert head["mean"] == pytest.approx(0.2964, abs=0.0002)
    assert head["text"].startswith("296.4 g ± ")
    assert belief["weights.4.mass_kg"]["what"] == "port 6: weight"
    assert belief["bias:swing scale:swing_weight"]["sd"] == pytest.approx(0.05, abs=0.01)


def test_a_misfit_names_the_command_that_decides_it(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "read total_weight 477.2 g finished")
    out = " ".join(clubwright(capsys, "show", JOB, "--shop", shop).out.split())
    assert f"`clubwright decide {JOB} 23 keep` to use it, `clubwright decide {JOB} 23 leave` to leave it out" in out
    assert "the gauge (gram scale) was misread or is out of adjustment" in out
    assert clubwright(capsys, "decide", JOB, "23", "perhaps", "--shop", shop).code == 2


def test_weights_can_be_all_off(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "read swing_weight D3.8 dry, gripped")
    read = ["read", JOB, "total_weight", "465.4 g", "--stage", "dry, gripped", "--gauge", "gram scale", "--shop", shop]
    assert "kept aside" not in clubwright(capsys, *read, "--no-weights").out
    assert "kept aside" in clubwright(capsys, *read).out, "the record has port 6 fitted"
    assert ": fitted none.\n" in clubwright(capsys, "fit", JOB, "--shop", shop).out


REFUSED: dict[str, tuple[list[str], int, str]] = {
    "a closed gate": (["glue", JOB, "--temperature", "22 C"], 1, "no dry swing-weight reading yet"),
    "no such ticket": (["show", "T-9"], 1, 'the record has no ticket "T-9"; the latest: T-0054'),
    "no such number": (["read", JOB, "length", "35.x in"], 2, "length"),
    "no equals sign": (["measure", JOB, "head", "mass"], 2, '"mass" has no ='),
    "no such step": (["done", JOB, "cook"], 2, "Steps of this job"),
    "no number": (["undo", JOB, "99"], 1, "look up the number in the trail"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_refusal_is_text_on_stderr_and_json_on_stdout(capsys: Capsys, tmp_path: Path, case: str):
    arguments, code, said = REFUSED[case]
    shop = workshop(tmp_path / "shop", "done weigh")
    plain = clubwright(capsys, *arguments, "--shop", shop)
    assert (plain.code, plain.out) == (code, "")
    assert said in plain.err
    told = clubwright(capsys, *arguments, "--shop", shop, "--json")
    assert told.code == code
    assert said in told.body()["error"]
    assert ("findings" in told.body()) == (code == 2)
    assert len(clubwright(capsys, "trail", JOB, "--shop", shop, "--json").body()) == 4


def test_looking_makes_no_record(capsys: Capsys, tmp_path: Path):
    for command in (["jobs"], ["show", JOB], ["trail", JOB], ["built", JOB], ["verify"], ["done", JOB, "pull"]):
        ran = clubwright(capsys, *command, "--shop", str(tmp_path / "slip"))
        assert ran.code == 1
        assert "there is no record in" in ran.err
    assert not (tmp_path / "slip").exists()


def test_a_shop_that_is_a_file_or_no_record(capsys: Capsys, tmp_path: Path):
    path = tmp_path / "w.toml"
    path.write_text(TEXT, encoding="utf-8")
    ran = clubwright(capsys, "take", str(path), "--shop", str(path))
    assert (ran.code, "is a file: name the folder" in ran.err) == (1, True)
    (tmp_path / "record.sqlite").write_text("no database at all " * 40, encoding="utf-8")
    ran = clubwright(capsys, "jobs", "--shop", str(tmp_path))
    assert (ran.code, "is no record" in ran.err) == (1, True)


def test_what_the_system_refuses_is_no_traceback(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "done tag")
    ran = clubwright(
        capsys, "again", JOB, "T-2", "--out", str(tmp_path / "no" / "folder.toml"), "--shop", shop, "--json"
    )
    assert ran.code == 1
    assert "folder.toml: No such file or directory" in ran.body()["error"]


def test_the_record_is_shown_copied_and_made_again(capsys: Capsys, tmp_path: Path):
    shop = workshop(tmp_path / "shop", "done tag")
    built = clubwright(capsys, "built", JOB, "--shop", shop)
    assert "weights port 6" in built.out
    assert clubwright(capsys, "built", JOB, "--shop", shop, "--json").body()["rows"][0]["verdict"] == "within"
    assert clubwright(capsys, "verify", "--shop", shop).out == "The record is whole: 29 facts.\n"
    copy = str(tmp_path / "copy.sqlite")
    assert clubwright(capsys, "backup", copy, "--shop", shop, "--json").body() == {"facts": 29, "file": copy}
    again = tmp_path / "again.toml"
    assert clubwright(capsys, "again", JOB, "T-0154", "--out", str(again), "--shop", shop).code == 0
    assert tomllib.loads(again.read_text(encoding="utf-8"))["ticket"]["again_of"] == JOB
    there = clubwright(capsys, "again", JOB, "T-0155", "--out", str(again), "--shop", shop)
    assert (there.code, "is there already" in there.err) == (1, True), "a ticket is not written over"
    checked = clubwright(capsys, "check", str(again))
    assert (checked.code, "Ticket T-0154 can be taken." in checked.out) == (0, True)


def test_the_bench_has_a_name(capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    shop = workshop(tmp_path / "shop", "done weigh")
    monkeypatch.setenv("CLUBWRIGHT_SITE", "tent")
    clubwright(capsys, "done", JOB, "ferrule", "--shop", shop)
    rows = clubwright(capsys, "trail", JOB, "--shop", shop, "--json").body()
    assert {row["site"] for row in rows} == {"van", "tent"}
    assert clubwright(capsys, "undo", JOB, "1", "--site", "tent", "--shop", shop).code == 0
    assert "  tent  " in clubwright(capsys, "trail", JOB, "--shop", shop).out


@pytest.mark.postgres
def test_benches_share_a_record_by_its_address(capsys: Capsys, tmp_path: Path, postgres_url: str):
    path = tmp_path / "w.toml"
    path.write_text(TEXT.replace(JOB, "T-CLI"), encoding="utf-8")
    taken = clubwright(capsys, "take", str(path), "--shop", postgres_url, "--json")
    assert taken.code == 0, taken.err
    assert "T-CLI" in clubwright(capsys, "jobs", "--shop", postgres_url).out
    assert clubwright(capsys, "undo", "T-CLI", str(taken.body()["fact"]), "--shop", postgres_url).code == 0


@pytest.mark.parametrize("name", COMMANDS)
def test_help_explains_every_parameter(capsys: Capsys, name: str):
    ran: Ran = clubwright(capsys, name, "--help")
    assert ran.code == 0
    for line in ran.out.splitlines():
        cells = line.strip("│ ").removesuffix("[required]").split("  ")
        assert not line.startswith("│ *") or len([cell for cell in cells if cell.strip(" *")]) > 1, line
    assert json.dumps(ran.out)


def test_a_command_says_when_it_was_done(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    shop = str(tmp_path / "shop")
    ticket = tmp_path / "t.toml"
    ticket.write_text(TEXT, encoding="utf-8")
    assert clubwright(capsys, "take", str(ticket), "--shop", shop).code == 0
    late = clubwright(capsys, "read", JOB, "head.mass", "296 g", "--done-at", "2099-01-01 9:00", "--shop", shop)
    assert (late.code, "still to come" in late.err) == (2, True)
    early = clubwright(capsys, "read", JOB, "head.mass", "296 g", "--done-at", "2001-01-01 9:00", "--shop", shop)
    assert (early.code, 'is before "ticket from t.toml"' in early.err) == (2, True)
    help_text = clubwright(capsys, "glue", "--help").out
    assert "--done-at" in help_text
    moved = clubwright(capsys, "renumber", JOB, "T-0900", "--shop", shop, "--json")
    assert (moved.code, moved.body()["job"]) == (0, "T-0900")
