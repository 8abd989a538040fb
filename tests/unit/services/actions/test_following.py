"""What comes next, done as it is said until there is nothing more, brings a club from its ticket to its tag."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import Any

import pytest

from benchwork import JOB, Clock, document
from cli_runs import clubwright, workshop
from clubwright.cli.typing_next import command_lines, command_words
from clubwright.services.actions import bench
from clubwright.services.actions.door import act
from clubwright.services.actions.following import Following, next_action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.words.say import say

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")

FIGURES = {
    "head.bore_to_ground": "1.22 in",
    "head.loft": "54 deg",
    "head.lie": "64 deg",
    "head.bounce": "10 deg",
    "shaft.tip_diameter": "0.3548 in",
    "head.bore_diameter": "0.361 in",
    "head.hosel": "sound",
}
READINGS = {
    "swing_weight": "D4",
    "total_weight": "472.2 g",
    "length": "35 1/4 in",
    "loft": "54 deg",
    "lie": "63.5 deg",
    "grip_diameter_2in": "0.916 in",
}
TAPES = {
    "double-sided base": {"layers": "1", "mass": "1.6 g"},
    "build-up": {"layers": "2", "mass": "2.8 g"},
}
TYPED: dict[str, dict[str, Any]] = {
    "pull": {"hand": "right"},
    "cut": {"cut_length": "34.01 in"},
    "mix": {"part_a": "4.0 g", "part_b": "2.0 g", "temperature": "22 C"},
    "glue": {"temperature": "22 C"},
    "bend": {"loft": "54 deg", "lie": "63.5 deg"},
    "decide": {"keep": True},
}
"""What a person would type for the capitals."""


def filled(following: Following) -> dict[str, Any]:
    given = {**following.given, **TYPED.get(following.action, {})}
    if following.action == "tape":
        given |= TAPES[given["name"]]
    if following.action == "figures":
        given["values"] = {path: text or FIGURES[path] for path, text in given["values"].items()}
    if following.action == "read":
        dry = {"swing_weight": "D1.3", "total_weight": "465.4 g"} if "stage" in given else {}
        given["value"] = dry.get(given["quantity"], READINGS[given["quantity"]])
    return given


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_doing_what_is_said_leads_to_the_end(session: Session, clock: Clock) -> None:
    bench.take_ticket(session, document(), "wedge-54.toml")
    done: list[str] = []
    for _ in range(80):
        job = session.job(JOB)
        following = next_action(answer_job(job, session.now()), job)
        if following is None:
            break
        assert shlex.split(" ".join(command_words(following, JOB)))[:3] == ["clubwright", following.action, JOB]
        act(session, following.action, ACTIONS[following.action].payload(job=JOB, **filled(following)))
        done.append(following.action)
        clock.wait(hours=15 if following.action == "glue" else 0.1)
    state = session.job(JOB)
    waits = [(gate.step, say(gate.why, None)) for gate in answer_job(state, session.now()).gates if not gate.open]
    assert state.finished is not None, (done, waits)
    assert done[0] == "pull"
    assert done[-2:] == ["sign", "finish"]
    assert [step.key for step in answer_job(state, session.now()).steps if not step.done] == []


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_a_closed_gate_has_no_command_and_a_closed_job_neither(session: Session, clock: Clock) -> None:
    given = document()
    for key in ("mass", "bore_to_ground"):
        given["head"].pop(key, None)
    bench.take_ticket(session, given, "wedge-54.toml")
    for step in ("pull", "weigh", "head check", "bore to ground", "tip prep", "ferrule", "dry fit"):
        if step == "pull":
            act(session, "pull", ACTIONS["pull"].payload(job=JOB, hand="right"))
        else:
            bench.do_step(session, JOB, step, skipped="to see")
    job = session.job(JOB)
    assert next_action(answer_job(job, session.now()), job) is None, "the cut waits, and says for what"


def test_after_the_cut_the_next_step_is_the_next_and_its_command_is_printed(capsys: Capsys, tmp_path: Path) -> None:
    shop = workshop(tmp_path / "s", "sign cut")
    for step in ("head check", "bore to ground", "tip prep", "ferrule", "dry fit"):
        clubwright(capsys, "done", JOB, step, "--skip", "to see", "--shop", shop)
    ran = clubwright(capsys, "cut", JOB, "34.01 in", "--shop", shop)
    assert ran.code == 0, ran.err
    after = ran.out[ran.out.index("NEXT STEP") :]
    assert "Weigh and lay the tape" in after
    said = after[after.index("NEXT COMMAND") :].replace("\\\n", " ").split("\n", 1)[1]
    assert shlex.split(said)[:4] == ["clubwright", "tape", JOB, "double-sided base"]
    body = clubwright(capsys, "show", JOB, "--shop", shop, "--json").body()
    assert body["next_step"] == "tape"
    assert body["next_command"] == f'clubwright tape {JOB} "double-sided base" LAYERS MASS'


def test_a_wrong_head_is_kept_and_said_and_the_step_stays(capsys: Capsys, tmp_path: Path) -> None:
    shop = workshop(tmp_path / "s", "take")
    ran = clubwright(capsys, "pull", JOB, "left", "--shop", shop, "--json")
    assert ran.code == 0, ran.err
    assert ran.body()["step_done"] is None
    assert [item["where"] for item in ran.body()["step_lacks"]] == ["[head] hand"]
    again = clubwright(capsys, "pull", JOB, "left", "--shop", shop)
    assert again.code == 1
    assert "Put it back and pull the right one" in again.err
    right = clubwright(capsys, "pull", JOB, "right", "--shop", shop)
    assert 'The step "pull" is done with it.' in right.out


def test_a_command_is_quoted_as_a_shell_reads_it() -> None:
    following = Following(action="fit", given={"weights": ["port 6", 'a "b" $c', "plain"]})
    words = command_words(following, "T-1", ("--shop", "my shop"))
    assert shlex.split(" ".join(words)) == [
        *["clubwright", "fit", "T-1"],
        "port 6",
        'a "b" $c',
        "plain",
        "--shop",
        "my shop",
    ]
    lines = command_lines(words, width=30)
    assert all(len(line) <= 30 for line in lines)
    assert shlex.split(" ".join(line.removesuffix("\\") for line in lines)) == shlex.split(" ".join(words))
