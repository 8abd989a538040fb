"""What the pages offer to whom: nobody is shown a button that the services would refuse; a closed job is opened again."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from fastapi import FastAPI

from benchwork import JOB, Clock, actions, session_on
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from webclient import TestClient, post, signed_in

BENCH = f"/bench/{JOB}"
BUTTON = re.compile(r"<button([^>]*)>(.*?)</button>", re.DOTALL)
EVERYBODY = ("Night", "Paper", "Sign out", "Find")
SOUND = 'id="sound"'
"""Whoever looks may silence the tablet in hand: the script puts the words on this button, and nothing else hears of it."""
SIGNS = (
    "Sign: the marks agree",
    "Sign: what was checked",
    "Sign: released",
    "Close the job",
    "Undo: signed",
    "Open it again",
)


def build(session: Session, clock: Clock, until: str = "") -> None:
    """Work the wedge that is taken already until an action is done, or to its end."""
    for name, do, hours in actions()[1:]:
        clock.wait(hours=hours)
        do(session)
        if name == until:
            return


def buttons(client: TestClient, path: str) -> list[str]:
    """Return the words of a page's buttons, those of the frame around it left out."""
    found = [
        html.unescape((re.findall(r'aria-label="([^"]*)"', attributes) or [text])[0]).strip()
        for attributes, text in BUTTON.findall(client.get(path).text)
        if SOUND not in attributes
    ]
    return [words for words in found if not words.endswith(EVERYBODY)]


def signing(words: list[str]) -> list[str]:
    return [text for text in words if text.startswith(SIGNS)]


@pytest.mark.parametrize(
    "until", ["hand", "done weigh", "cut", "fit", "mix", "sign glue", "bend", "sign release", "finish"]
)
def test_who_may_look_is_offered_nothing_to_press(
    open_app: FastAPI, web_session: Session, web_clock: Clock, until: str
) -> None:
    build(web_session, web_clock, until)
    lena = signed_in(open_app, "Lena")
    for path in (
        BENCH,
        f"{BENCH}?step=pull",
        f"{BENCH}?step=dry%20reading",
        f"{BENCH}?step=choose%20weight",
        "/tickets",
    ):
        assert buttons(lena, path) == [], path
    for path in ("/tickets", f"/tickets/{JOB}", f"/records/{JOB}"):
        assert not re.findall(r"New ticket|Duplicate|Make again|>Save<", lena.get(path).text), path
    for path in ("/tickets/new", f"/tickets/new/form?like={JOB}", f"/records/{JOB}/again"):
        assert not [words for words in buttons(lena, path) if words.startswith("Take")], path
    sol = signed_in(open_app, "Sol")
    assert buttons(sol, BENCH), "who may do everything has something to press"


def test_an_alarm_is_put_out_by_who_may_work(open_app: FastAPI, web_session: Session) -> None:
    """It would fall silent on every tablet of the workshop; who may look silences the own one."""
    lena, wil = signed_in(open_app, "Lena"), signed_in(open_app, "Wil")
    assert post(lena, "/alarms/out", BENCH, key="x").status_code == 403
    assert post(wil, "/alarms/out", BENCH, key="x").status_code == 204
    assert "Put it out" in buttons(wil, BENCH)
    for client in (lena, wil):
        text = client.get(BENCH).text
        assert 'id="alarm"' in text and SOUND in text


@pytest.mark.parametrize("gate", ["hand", "done weigh", "mix", "sign release"])
def test_who_may_work_is_shown_no_signature_and_who_may_sign_is(
    open_app: FastAPI, web_session: Session, web_clock: Clock, gate: str
) -> None:
    build(web_session, web_clock, gate)
    wil, sol = signed_in(open_app, "Wil"), signed_in(open_app, "Sol")
    steps = ["", "?step=mark%20and%20cut", "?step=glue", "?step=tag"]
    assert not [words for step in steps for words in signing(buttons(wil, BENCH + step))]
    assert [words for step in steps for words in signing(buttons(sol, BENCH + step))]
    assert "somebody who may sign off" in "".join(wil.get(BENCH + step).text for step in steps)
    assert "somebody who may sign off" not in "".join(sol.get(BENCH + step).text for step in steps)


def test_a_signature_is_withdrawn_by_who_may_sign_alone(
    open_app: FastAPI, web_session: Session, web_clock: Clock
) -> None:
    build(web_session, web_clock, "sign cut")
    wil, sol = signed_in(open_app, "Wil"), signed_in(open_app, "Sol")
    assert not any(words.startswith("Undo: signed") for words in buttons(wil, BENCH))
    assert any(words.startswith("Undo: signed") for words in buttons(sol, BENCH))
    assert any(words.startswith("Undo: done: weigh") for words in buttons(wil, BENCH)), (
        "what is no signature he may undo"
    )
    signed = web_session.job(JOB).gates_signed["cut"].sequence
    withdraw = {"action": "withdraw", "fact": str(signed), "key": "w-1"}
    assert post(wil, BENCH, BENCH, **withdraw).status_code == 403
    assert post(sol, BENCH, BENCH, **withdraw).status_code == 303
    assert "cut" not in web_session.job(JOB).gates_signed


def test_a_closed_job_is_opened_again_with_a_reason(open_app: FastAPI, web_session: Session, web_clock: Clock) -> None:
    build(web_session, web_clock)
    wil, sol = signed_in(open_app, "Wil"), signed_in(open_app, "Sol")
    assert "Open this job again" in sol.get(BENCH).text
    assert "Open this job again" not in wil.get(BENCH).text
    sent = {"action": "reopen", "key": "r-1", "reason": "rattles"}
    assert post(wil, BENCH, BENCH, **sent).status_code == 403
    refused = post(sol, BENCH, BENCH, **{**sent, "reason": " "})
    assert refused.status_code == 422
    assert "why it is opened again" in refused.text
    assert web_session.job(JOB).finished is not None
    before = web_session.ledger.count()
    assert [post(sol, BENCH, BENCH, **sent).status_code for _ in range(2)] == [303, 303]
    assert web_session.ledger.count() == before + 1, "a double tap opens it once"
    assert web_session.job(JOB).finished is None
    assert "The job is closed" not in sol.get(BENCH).text
    assert any(words.startswith("Undo") for words in buttons(sol, BENCH))
    assert post(sol, BENCH, BENCH, action="finish", looked="yes", key="f-2").status_code == 303
    assert web_session.job(JOB).finished is not None


def test_the_end_that_another_bench_wrote_is_the_one_that_is_undone(
    open_app: FastAPI, web_session: Session, web_clock: Clock
) -> None:
    """The van closed the job with its own first fact; the bench has a first fact of its own, the ticket."""
    build(web_session, web_clock, "sign release")
    van = session_on(web_session.ledger, web_clock, site="van")
    web_clock.wait(hours=1)
    bench.finish(van, JOB)
    closed = web_session.job(JOB)
    assert closed.finished is not None
    assert (closed.finished.site, closed.finished.sequence) == ("van", 1)
    sol = signed_in(open_app, "Sol")
    assert post(sol, BENCH, BENCH, action="reopen", key="r-1", reason="rattles").status_code == 303
    opened = web_session.job(JOB)
    assert opened.finished is None
    assert (*opened.steps_done, "tag") == closed.steps_done, "its last step is open with it"
    assert opened.gates_signed == closed.gates_signed
    assert "opened again: rattles" in sol.get(BENCH).text
    again = post(sol, BENCH, BENCH, action="reopen", key="r-2", reason="rattles")
    assert again.status_code == 409
    assert "is not closed" in again.text


def test_a_line_is_undone_at_the_bench_that_wrote_it(open_app: FastAPI, web_session: Session, web_clock: Clock) -> None:
    build(web_session, web_clock, "hand")
    van = session_on(web_session.ledger, web_clock, site="van")
    web_clock.wait(hours=1)
    for step in ("pull", "weigh"):
        bench.do_step(van, JOB, step)
    wil = signed_in(open_app, "Wil")
    form = re.compile(r'<button name="fact" value="2@van" class="quiet" aria-label="Undo: done: weigh"')
    assert form.search(wil.get(BENCH).text), "the form says whose second fact is meant"
    assert post(wil, BENCH, BENCH, action="undo", fact="2@van", key="u-1").status_code == 303
    assert web_session.job(JOB).steps_done == ("pull",)
    assert web_session.job(JOB).document["head"]["hand"] == "right", "the bench's own second fact stands"


def test_a_job_that_two_benches_closed_is_opened_at_once(
    open_app: FastAPI, web_session: Session, web_clock: Clock, tmp_path: Path
) -> None:
    """Apart, each closed it; brought together, both ends stand."""
    build(web_session, web_clock, "sign release")
    engine = open_engine(f"sqlite:///{tmp_path / 'van.sqlite'}")
    migrate(engine)
    van = session_on(Ledger(engine), web_clock, site="van")
    van.ledger.receive(web_session.ledger.facts())
    web_clock.wait(hours=1)
    bench.finish(van, JOB)
    bench.finish(web_session, JOB)
    web_session.ledger.receive(van.ledger.facts())
    engine.dispose()
    sol = signed_in(open_app, "Sol")
    before = web_session.ledger.count()
    sent = {"action": "reopen", "key": "r-1", "reason": "rattles"}
    assert [post(sol, BENCH, BENCH, **sent).status_code for _ in range(2)] == [303, 303]
    assert web_session.ledger.count() == before + 2, "each end is undone, once"
    assert web_session.job(JOB).finished is None
    assert post(sol, BENCH, BENCH, action="finish", looked="yes", key="f-9").status_code == 303
    assert post(sol, BENCH, BENCH, **sent).status_code == 303
    assert web_session.job(JOB).finished is not None, "the old tap sent once more opens nothing"


def test_the_line_that_was_undone_is_named_by_its_bench(
    open_app: FastAPI, web_session: Session, web_clock: Clock
) -> None:
    build(web_session, web_clock, "done pull")
    van = session_on(web_session.ledger, web_clock, site="van")
    web_clock.wait(hours=1)
    for step in ("weigh", "ferrule"):
        bench.do_step(van, JOB, step)
    assert web_session.job(JOB).trail[1].text == "head: hand right", "the bench has a second line, too"
    web_clock.wait(hours=1)
    bench.undo(web_session, JOB, 2, site="van")
    text = signed_in(open_app, "Sol").get(BENCH).text
    assert "Undone: <strong>done: ferrule</strong>" in text
