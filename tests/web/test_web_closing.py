"""Accepting by name at the page, by the JSON interface and by command: one mechanism, one state of the record."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fastapi import FastAPI

from benchwork import JOB, Clock
from cli_runs import clubwright
from closingwork import BEND, points, take
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post, signed_in

HEADERS = {"X-Clubwright": "1"}
PAGE = "/bench/T-7"


@pytest.fixture
def read_upright(web_session: Session) -> str:
    """A loft-and-lie job whose loft is within and whose lie is outside, with nothing left to do but to answer for it."""
    job = take(web_session, BEND)
    bench.note_reading(web_session, job, "loft", "34 deg")
    bench.note_reading(web_session, job, "lie", "63.5 deg")
    for step in ("pull", "head check", "loft and lie", "inspect"):
        bench.do_step(web_session, job, step)
    return job


def button(page: str, words: str) -> str:
    """Return whether the button of these words that is held is ``open`` or ``disabled``, and the tick beside it with it."""
    found = re.search(rf'<button class="primary hold"([^>]*)>{words}</button>', page)
    tick = re.search(r'<input type="checkbox" name="looked"[^>]*>', page)
    assert found is not None, words
    assert tick is not None, words
    closed = " disabled" in found[1]
    assert (" disabled" in tick[0]) is closed, "who ticks may do what who holds may do, and no more"
    assert ("Not yet: first what is said above" in page) is closed, "nobody is told to hold what does not open"
    return "disabled" if closed else "open"


def test_the_tag_card_names_what_is_open_and_takes_an_acceptance(
    web_client: TestClient, web_session: Session, read_upright: str
):
    shown = web_client.get(PAGE).text
    assert "1 target keeps this job from its end" in shown
    assert button(shown, "Close the job") == "disabled"
    refused = post(web_client, PAGE, action="finish", looked="yes", step="tag", key="f-1")
    assert refused.status_code == 409
    assert "lie: out of spec, ordered 62 deg ± 1 deg, read 63.5 deg" in refused.text
    assert "tag" not in web_session.job(read_upright).steps_done, "the last step is not ticked for nothing"
    fields = {"target": "lie", "accepted_by": "R. Ashdown", "reason": "likes it upright"}
    stands = {"marks": f"loft:0 lie:{points(web_session, read_upright)['lie'].mark}"}
    kept = post(web_client, PAGE, action="accept", step="tag", key="a-1", **fields, **stands)
    assert kept.status_code == 303
    now = web_client.get(PAGE).text
    assert "Accepted by <strong>R. Ashdown</strong>: likes it upright" in now
    assert button(now, "Close the job") == "open"
    assert post(web_client, PAGE, action="finish", looked="yes", step="tag", key="f-2").status_code == 303
    assert "tag" in web_session.job(read_upright).steps_done
    closed = web_client.get(PAGE).text
    assert "accepted by R. Ashdown: likes it upright" in closed
    record = web_client.get("/records/T-7").text
    assert "accepted by R. Ashdown: likes it upright" in record
    assert "lie out of spec, accepted by R. Ashdown" in record


def test_what_changed_under_the_finger_is_not_accepted(web_client: TestClient, web_session: Session, read_upright: str):
    stands = {"marks": f"loft:0 lie:{points(web_session, read_upright)['lie'].mark}"}
    bench.note_reading(web_session, read_upright, "lie", "64 deg")
    fields = {"target": "lie", "accepted_by": "R. Ashdown", "reason": "likes it upright"}
    refused = post(web_client, PAGE, action="accept", step="tag", key="a-1", **fields, **stands)
    assert refused.status_code == 409
    assert "stands otherwise now" in refused.text
    assert 'value="R. Ashdown"' in refused.text, "what was typed is still there"
    assert not web_session.job(read_upright).accepted


def test_every_finding_about_an_acceptance_at_once(web_client: TestClient, read_upright: str):
    refused = post(web_client, PAGE, action="accept", step="tag", target="lie", key="a-1")
    assert refused.status_code == 422
    assert "nobody is named" in refused.text
    assert "why it is accepted" in refused.text
    nothing = post(web_client, PAGE, action="accept", step="tag", accepted_by="R. Ashdown", reason="so", key="a-2")
    assert nothing.status_code == 422
    assert "what is accepted" in nothing.text


def test_who_may_work_sees_what_is_open_and_may_not_accept(open_app: FastAPI, web_session: Session, read_upright: str):
    wil = signed_in(open_app, "Wil")
    shown = wil.get(PAGE).text
    assert "1 target keeps this job from its end" in shown
    assert 'name="accepted_by"' not in shown
    fields = {"target": "lie", "accepted_by": "Wil", "reason": "fine"}
    assert post(wil, PAGE, PAGE, action="accept", key="a-1", **fields).status_code == 403
    assert not web_session.job(read_upright).accepted


def test_an_acceptance_is_withdrawn_by_its_line(web_client: TestClient, web_session: Session, read_upright: str):
    fact = bench.accept(web_session, read_upright, "lie", name="R. Ashdown", reason="fine")
    kept = post(web_client, PAGE, action="withdraw", fact=fact.sequence, site="bench", key="w-1")
    assert kept.status_code == 303
    assert not web_session.job(read_upright).accepted


def test_the_json_interface_lists_accepts_and_closes(web_client: TestClient, web_session: Session, read_upright: str):
    headers = {**HEADERS, "Idempotency-Key": "k-1"}
    found = {item["quantity"]: item for item in web_client.get("/api/jobs/T-7").json()["closing"]}
    assert (found["loft"]["open"], found["lie"]["open"]) == (False, True)
    assert found["lie"]["mend"] == "mend the club and read it again"
    refused = web_client.post("/api/jobs/T-7/finish", headers=headers)
    assert refused.status_code == 409
    assert "lie: out of spec" in refused.json()["findings"][0]["what"]
    sent = {"quantity": "lie", "name": "R. Ashdown", "reason": "likes it upright"}
    kept = web_client.post("/api/jobs/T-7/acceptances", json=sent, headers=headers)
    assert kept.status_code == 201
    assert kept.json()["kind"] == "deviation accepted"
    assert {item["quantity"]: item for item in web_client.get("/api/jobs/T-7").json()["closing"]}["lie"][
        "accepted_by"
    ] == "R. Ashdown"
    closed = web_client.post("/api/jobs/T-7/finish", headers={**HEADERS, "Idempotency-Key": "k-2"})
    assert closed.status_code == 201


def test_the_command_line_lists_accepts_and_closes(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, web_session: Session, read_upright: str
):
    shop = ["--shop", str(tmp_path)]
    shown = clubwright(capsys, "show", "T-7", *shop).out
    assert "OUT OF SPEC, OPEN OR ACCEPTED" in shown
    assert "mend the club and read it again" in " ".join(shown.split())
    refused = clubwright(capsys, "finish", "T-7", *shop)
    assert refused.code == 1
    assert "clubwright accept T-7" in " ".join(refused.err.split())
    nameless = clubwright(capsys, "accept", "T-7", "lie", "--reason", "likes it", *shop)
    assert nameless.code == 2
    assert "nobody is named" in nameless.err
    kept = clubwright(capsys, "accept", "T-7", "lie", "--by", "Ann", "--name", "R. Ashdown", "--reason", "so", *shop)
    assert kept.code == 0
    accepted = web_session.job("T-7").accepted["lie"]
    assert (accepted.what.accepted_by, accepted.signed.by) == ("R. Ashdown", "Ann")
    listed = {item["quantity"]: item for item in clubwright(capsys, "show", "T-7", "--json", *shop).body()["closing"]}
    assert listed["lie"]["accepted_by"] == "R. Ashdown"
    assert clubwright(capsys, "finish", "T-7", *shop).code == 0
    assert "accepted by R. Ashdown: so" in clubwright(capsys, "built", "T-7", *shop).out


def test_the_release_waits_at_the_tag(web_client: TestClient, web_session: Session, web_clock: Clock):
    """A build: its release is signed on the tag's card, which is blocked while a target is open."""
    document = {**BEND, "ticket": {**BEND["ticket"], "id": "T-11", "job": "build"}}
    job = take(web_session, document)
    shown = web_client.get(f"/bench/{job}?step=tag").text
    assert "2 targets keep this job from its end" in shown
    assert button(shown, "Sign: cured, may be hit") == "disabled"
    assert JOB in web_client.get("/tickets").text
