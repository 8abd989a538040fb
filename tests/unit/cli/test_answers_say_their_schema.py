"""What a command answers a program with keeps to the schema whose number it says; a merge says the same from Python."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import jsonschema
import pytest

from benchwork import JOB, Clock, document
from cli_runs import clubwright
from clubwright.api.shop import Shop
from clubwright.cli.words import told_lines
from clubwright.services.told.schema import number_of, schema_of
from repository import ROOT

Capsys = pytest.CaptureFixture[str]
WEDGE = str(ROOT / "examples" / "wedge-54.toml")


def holds(name: str, answer: Any) -> None:
    jsonschema.Draft202012Validator(schema_of(name)).validate(answer)
    assert answer["schema"] == number_of(name)


@pytest.fixture
def benches(tmp_path: Path, clock: Clock) -> tuple[str, str]:
    """A shop and its van with one ticket, whose grip both weighed: each for itself, and differently."""
    shop, van = str(tmp_path / "shop"), str(tmp_path / "van")
    with Shop(shop, by="Ann", site="shop", now=clock) as first, Shop(van, by="Ben", site="van", now=clock) as second:
        first.take(document())
        second.take({**document(), "ticket": {**document()["ticket"], "id": "T-1"}})
        second.merge(shop)
        first.weigh(JOB, grip="49.9 g", gauge="gram scale")
        first.mix(JOB, "4.0 g", "2.0 g", temperature="22 C", batch="lot 7")
        second.weigh(JOB, grip="50.4 g", gauge="gram scale")
    return shop, van


def test_a_merge_names_what_was_read_differently_on_the_command_line_and_from_python(
    benches: tuple[str, str], tmp_path: Path, capsys: Capsys, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, van = benches
    copy = tmp_path / "copy"
    copy.mkdir()
    with Shop(shop, by="Ann", site="shop", now=clock) as first:
        first.backup(copy / "record.sqlite")
    with Shop(copy, by="Ann", site="shop", now=clock) as first:
        answer = first.merge(van)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)
    monkeypatch.setenv("CLUBWRIGHT_SITE", "shop")
    ran = clubwright(capsys, "merge", van, "--shop", shop, "--by", "Ann")
    assert ran.code == 0, ran.err
    (finding,) = answer.findings
    assert finding.where == f"job {JOB}, grip.mass"
    assert "49.9 g (shop/" in finding.what and "50.4 g (van/" in finding.what
    assert told_lines(answer.findings)[0] in ran.out
    holds("merge", answer.plain())
    holds("merge", clubwright(capsys, "merge", van, "--shop", shop, "--by", "Ann", "--json").body())


def test_lists_checks_and_erasures_say_their_number(benches: tuple[str, str], tmp_path: Path, capsys: Capsys) -> None:
    shop, _ = benches
    mixes = clubwright(capsys, "mixes", "--shop", shop, "--json").body()
    holds("mixes", mixes)
    assert [row["weighed"] for row in mixes["mixes"]] == ["4.0 g + 2.0 g"]
    checked = clubwright(capsys, "check", WEDGE, "--json").body()
    holds("check", checked)
    assert checked["taken"] and checked["understood"]
    backup = str(tmp_path / "old.sqlite")
    assert clubwright(capsys, "backup", backup, "--shop", shop).code == 0
    applied = clubwright(capsys, "forget", "--apply-to", backup, "--shop", shop, "--json")
    assert applied.code == 0, applied.err
    holds("forget-apply-to", applied.body())


def test_the_demo_says_its_number(tmp_path: Path, capsys: Capsys) -> None:
    ran = clubwright(capsys, "demo", "--folder", str(tmp_path / "demo"), "--json")
    assert ran.code == 0, ran.err
    holds("demo", ran.body())
    assert ran.body()["record"]["finished"] and len(ran.body()["files"]) == 2


def test_a_schema_is_printed_by_the_name_of_its_command(capsys: Capsys) -> None:
    assert clubwright(capsys, "schema", "mixes").body() == schema_of("mixes")
    refused = clubwright(capsys, "schema", "cake")
    assert refused.code != 0 and "merge, forget-apply-to, demo" in refused.err
