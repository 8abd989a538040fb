"""Page, command line, `/api` and Python are doors to the same steps: they refuse alike, and leave the same behind."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchwork import JOB, Clock
from cli_runs import clubwright
from clubwright.errors import ClubwrightError
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.web.second_tap import HELD, LOOKED
from webclient import TestClient, post

KEYS = itertools.count(1)
DOORS = ("page", "command", "api", "python")
Door = Callable[..., tuple[bool, str]]
"""Does an action by its name; returns whether it was taken, and what was said."""

BODIES: dict[str, tuple[str, str]] = {
    "step": ("steps", "step"),
    "cut": ("cuts", "cut_length"),
    "sign": ("gates", "gate"),
    "glue": ("glue", "temperature"),
}
"""Of the interface: the route of an action with one value, and the value's name."""


def by_page(client: TestClient, action: str, *values: str) -> tuple[bool, str]:
    names = {
        "step": ("step",),
        "cut": ("cut_length",),
        "sign": ("gate",),
        "glue": ("temperature",),
        "mix": ("part_a", "part_b", "temperature"),
        "grip": (),
    }[action]
    fields = dict(zip(names, values, strict=True))
    if action in HELD:
        fields[LOOKED] = "yes"
    path = f"/bench/{JOB}"
    answer = post(client, path, path, action=action, key=f"page-{next(KEYS)}", **fields)
    return answer.status_code == 303, answer.text


def by_api(client: TestClient, action: str, *values: str) -> tuple[bool, str]:
    path, body = action, None
    if action == "mix":
        path, body = "mixes", dict(zip(("part_a", "part_b", "temperature"), values, strict=True)) | {"batch": ""}
    elif action != "grip":
        path, name = BODIES[action]
        body = {name: values[0]}
    headers = {"X-Clubwright": "1", "Idempotency-Key": f"api-{next(KEYS)}"}
    answer = client.post(f"/api/jobs/{JOB}/{path}", json=body, headers=headers)
    return answer.status_code == 201, answer.text


def by_command(capsys: pytest.CaptureFixture[str], shop: str, action: str, *values: str) -> tuple[bool, str]:
    words = {
        "step": ["done", JOB, *values],
        "glue": ["glue", JOB, "--temperature", *values],
        "mix": ["mix", JOB, *values[:2], "--temperature", *values[2:]],
    }
    ran = clubwright(capsys, *words.get(action, [action, JOB, *values]), "--shop", shop, "--by", "bench")
    return ran.code == 0, ran.out + ran.err


def by_python(session: Session, action: str, *values: str) -> tuple[bool, str]:
    acts: dict[str, Callable[..., Any]] = {
        "step": bench.do_step,
        "cut": bench.cut_shaft,
        "sign": bench.sign_gate,
        "glue": bench.glue,
        "grip": bench.slide_grip,
        "mix": lambda session, job, a, b, at: bench.mix_adhesive(session, job, a, b, at, ""),
    }
    try:
        acts[action](session, JOB, *values)
    except ClubwrightError as refused:
        return False, str(refused)
    return True, ""


@pytest.fixture
def door(
    request: pytest.FixtureRequest,
    web_client: TestClient,
    web_session: Session,
    web_clock: Clock,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Door:
    monkeypatch.setattr("clubwright.bootstrap._now", web_clock)
    made: dict[str, Door] = {
        "page": lambda *sent: by_page(web_client, *sent),
        "api": lambda *sent: by_api(web_client, *sent),
        "command": lambda *sent: by_command(capsys, str(tmp_path), *sent),
        "python": lambda *sent: by_python(web_session, *sent),
    }
    return made[request.param]


@pytest.mark.parametrize("door", DOORS, indirect=True)
def test_every_door_refuses_and_completes_the_same_steps(door: Door, web_session: Session, web_clock: Clock) -> None:
    def refused(said: str, *sent: str) -> None:
        count = web_session.ledger.count()
        taken, text = door(*sent)
        assert not taken, sent
        assert said in text.replace("&#39;", "'"), text[-3000:]
        assert web_session.ledger.count() == count

    def taken(*sent: str) -> None:
        count = web_session.ledger.count()
        ok, text = door(*sent)
        assert ok, text
        assert web_session.ledger.count() == count + 1, "one action, one fact: no step is ticked beside it"

    refused("nobody has looked at the hand of the head", "step", "pull")
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    taken("step", "pull")
    refused("the shaft is not cut by the record", "step", "mark and cut")
    taken("sign", "cut")
    taken("cut", "34.01 in")
    bench.note_reading(web_session, JOB, "swing_weight", "D1.3", stage="dry, gripped", instrument="swing scale")
    bench.fit_weights(web_session, JOB, ["port 6"])
    taken("sign", "glue")
    refused("no adhesive is mixed for this joint", "glue", "22 C")
    refused("no mix is on the record", "step", "mix")
    taken("mix", "4.0 g", "2.0 g", "22 C")
    refused("the joint is not glued by the record", "step", "glue")
    taken("glue", "22 C")
    refused("not cured yet by the adhesive's own table", "step", "cure")
    refused("not cured yet by the adhesive's own table", "step", "tag")
    refused("no grip is on by the record", "step", "grip")
    refused("not cured yet by the adhesive's own table", "grip")
    web_clock.wait(hours=15)
    taken("grip")
    assert web_session.job(JOB).steps_done == ("pull", "mark and cut", "mix", "glue", "grip")


@pytest.mark.parametrize("door", ["page"], indirect=True)
def test_what_is_passed_over_is_said_on_the_page_by_a_button_of_its_own(
    door: Door, web_client: TestClient, web_session: Session
) -> None:
    bench.change_part(web_session, JOB, "grip", {"mass": ""})
    path = f"/bench/{JOB}?step=weigh"
    assert "Skip: the grip is not weighed" in web_client.get(path).text
    sent = {"action": "skip", "step": "weigh", "skips": "the grip is not weighed", "key": "k-1"}
    assert post(web_client, f"/bench/{JOB}", path, **sent).status_code == 303
    assert web_session.job(JOB).steps_skipped == {"weigh": "the grip is not weighed"}
    assert "Skip:" not in web_client.get(f"/bench/{JOB}?step=bore%20to%20ground").text, "nothing is missing there"


def test_a_program_says_what_it_passes_over(web_client: TestClient, web_session: Session) -> None:
    headers = {"X-Clubwright": "1", "Idempotency-Key": "k-1"}
    body = {"step": "inspect", "skipped": "every target: sent on unfinished"}
    answer = web_client.post(f"/api/jobs/{JOB}/steps", json=body, headers=headers)
    assert answer.status_code == 201, answer.text
    assert web_session.job(JOB).steps_skipped == {"inspect": "every target: sent on unfinished"}
    missing = web_client.post(
        f"/api/jobs/{JOB}/steps", json={"step": "pull"}, headers={**headers, "Idempotency-Key": "k-2"}
    )
    assert missing.status_code == 409
    assert missing.json()["findings"][0]["where"] == "[head] hand"
    assert missing.json()["findings"][0]["mend"].startswith("Look at the head")
