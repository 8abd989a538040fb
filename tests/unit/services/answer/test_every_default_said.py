"""Whoever checks a ticket file is told every default that it is worked with, the quiet ones too."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from cli_runs import clubwright
from clubwright.club.parts import KINDS
from clubwright.planning.goals import goals_of
from clubwright.services.answer.taken import all_taken
from clubwright.ticket.priors.prior import prior_from
from clubwright.ticket.read import read_ticket

Capsys = pytest.CaptureFixture[str]


def bare(kind: str = "iron", job: str = "build", **tables: Any) -> dict[str, Any]:
    ticket = {"id": "T-0001", "kind": kind, "hand": "right", "job": job}
    return {"ticket": ticket, "target": {"length": "37 in", "swing_weight": "D2"}, **tables}


def taken(document: dict[str, Any]) -> dict[str, str]:
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return {str(item.where).removeprefix("ticket "): item.what for item in all_taken(ticket)}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("job", ["build", "regrip", "loft-lie"])
def test_every_figure_that_is_assumed_is_named_with_its_figure_and_its_standing(kind: str, job: str):
    document = bare(kind, job)
    ticket, _ = read_ticket(document)
    assert ticket is not None
    said = taken(document)
    for name in prior_from(ticket).assumed:
        section, _, key = name.partition(".")
        if section in ("head", "shaft", "grip", "ferrule", "adhesive"):
            assert said[f"[{section}] {key}"].startswith("not given: taken as"), name
    assert said["[[tape]]"] == "not given: taken as none"
    assert {f"[tolerance] {goal.key}" for goal in goals_of(ticket)} <= set(said)
    assert {"[target] length_method", "[shop] swing_weight_point", "[shop] decision_rule"} <= set(said)


def test_the_quiet_ones_are_among_them_and_what_is_given_is_not():
    quiet = {"[grip] length", "[grip] diameter_2in", "[ferrule] length", "[head] own_inertia", "[head] cg_off_axis"}
    assert quiet <= set(taken(bare()))
    given = taken(
        bare(grip={"length": "10 1/2 in"}, tape=[], shop={"kerf": "1/32 in"}, tolerance={"length": "1/16 in"})
    )
    assert not {"[grip] length", "[[tape]]", "[shop] kerf", "[tolerance] length"} & set(given)


def test_the_command_lists_them_and_still_takes_the_ticket(capsys: Capsys, tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_text('[ticket]\nid = "T-0001"\nkind = "iron"\nhand = "right"\n[target]\nswing_weight = "D2"\n', "utf-8")
    ran = clubwright(capsys, "check", str(path))
    assert ran.code == 0
    assert "t.toml [grip] mass: not given: taken as 50 g ± 3 g" in ran.out
    assert "t.toml [[tape]]: not given: taken as none" in ran.out
    assert "t.toml [shop] kerf: not given: taken as 1/16 in" in ran.out
    body = clubwright(capsys, "check", str(path), "--json").body()
    assert body["taken"] is True
    assert {item["severity"] for item in body["findings"]} == {"note"}
    assert any(item["where"].endswith("[grip] mass") for item in body["findings"])


def test_a_clamp_that_leaves_nothing_is_told_here_too(capsys: Capsys, tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_text(
        '[ticket]\nid = "T-0001"\nkind = "iron"\nhand = "right"\n[target]\nlength = "37 in"\n'
        '[shaft]\nraw_length = "41 in"\ncut_length = "12 in"\nmass = "120 g"\n'
        'stiffness = { kind = "table", at = ["0 in", "41 in"], ei = ["28 N m2", "106 N m2"] }\n',
        "utf-8",
    )
    ran = clubwright(capsys, "check", str(path))
    assert "too little free" in ran.out + ran.err
    assert ran.code == 2
