"""The page of an order: every figure as it is now, all findings at once, and another adhesive is asked for its sheet."""

from __future__ import annotations

import html
import re

from fastapi import FastAPI

from benchwork import JOB, Clock, actions
from clubwright.services.record.session import Session
from webclient import TestClient, post, signed_in

PATH, BENCH = f"/bench/{JOB}/order", f"/bench/{JOB}"
FIELD = re.compile(r'<input type="hidden" name="(was:[^"]+)" value="([^"]*)">')
ASKED = {"said_by": "R. Ashdown", "reason": "likes it lighter"}


def build(session: Session, clock: Clock, until: str) -> None:
    for name, do, hours in actions()[1:]:
        clock.wait(hours=hours)
        do(session)
        if name == until:
            return


def form(client: TestClient) -> dict[str, str]:
    """Return the form as it comes: what was, and the same in every field."""
    was = {html.unescape(name): html.unescape(text) for name, text in FIELD.findall(client.get(PATH).text)}
    assert "was:target.swing_weight" in was
    return was | {name.removeprefix("was:"): text for name, text in was.items()}


def test_the_form_shows_what_is_ordered_and_the_bench_leads_to_it(web_client: TestClient, web_session: Session) -> None:
    was = form(web_client)
    assert was["was:target.swing_weight"] == "D4"
    assert was["was:weight.port 6.mass"]
    assert was["was:adhesive.release"].count(":") == was["was:adhesive.release"].count(";") + 1
    for page in (BENCH, f"/tickets/{JOB}"):
        assert f'href="{PATH}"' in web_client.get(page).text


def test_it_keeps_what_is_another_figure_with_who_said_so(web_client: TestClient, web_session: Session) -> None:
    sent = form(web_client) | ASKED | {"target.swing_weight": "D1.5", "tolerance.total_weight": ""}
    answer = post(web_client, PATH, PATH, key="k-1", **sent)
    assert (answer.status_code, answer.headers["location"]) == (303, BENCH)
    fact = web_session.facts_of(JOB)[-1].what
    assert fact.values == {"target.swing_weight": "D1.5", "tolerance.total_weight": ""}
    assert (fact.said_by, fact.reason) == ("R. Ashdown", "likes it lighter")
    assert "R. Ashdown: likes it lighter" in web_client.get(BENCH).text


def test_all_that_is_wrong_is_told_at_once_and_what_was_typed_stays(
    web_client: TestClient, web_session: Session
) -> None:
    before = web_session.ledger.count()
    sent = form(web_client) | {"said_by": "", "reason": "", "target.lie": "much", "target.length": "35 1/4 kg"}
    answer = post(web_client, PATH, PATH, key="k-1", **sent)
    assert answer.status_code == 422
    text = html.unescape(answer.text)
    assert all(words in text for words in ("nobody is named", "nothing was typed", '"much"', "35 1/4 kg"))
    assert 'value="much"' in text
    assert web_session.ledger.count() == before


def test_another_adhesive_is_asked_for_its_own_sheet(web_client: TestClient, web_session: Session) -> None:
    before = web_session.ledger.count()
    first = post(web_client, PATH, PATH, key="k-1", **(form(web_client) | ASKED | {"adhesive.name": "slow two-part"}))
    assert first.status_code == 200
    assert web_session.ledger.count() == before, "nothing is kept yet"
    was = {html.unescape(name): html.unescape(text) for name, text in FIELD.findall(first.text)}
    assert was["was:adhesive.ratio"] == was["was:adhesive.release"] == ""
    sent = was | {name.removeprefix("was:"): text for name, text in was.items()} | ASKED
    sheet = {"adhesive.ratio": "2:1", "adhesive.basis": "weight", "adhesive.release": "20 C: 30 h; 25 C: 24 h"}
    sent |= {"adhesive.name": "slow two-part", "sheet": "slow two-part", **sheet}
    assert post(web_client, PATH, PATH, key="k-1", **sent).status_code == 303
    adhesive = web_session.job(JOB).document["adhesive"]
    assert {"name", "ratio", "basis", "release"} <= set(adhesive)
    assert not {"pot_life", "in_joint", "per_joint"} & set(adhesive)


def test_what_another_tablet_ordered_meanwhile_is_not_overwritten(web_client: TestClient, web_session: Session) -> None:
    mine, theirs = form(web_client) | ASKED, form(web_client) | ASKED
    post(web_client, PATH, PATH, key="k-1", **(theirs | {"target.swing_weight": "D2"}))
    answer = post(web_client, PATH, PATH, key="k-2", **(mine | {"target.swing_weight": "D3"}))
    assert answer.status_code == 409
    assert 'somebody set it to "D2"' in html.unescape(answer.text)
    assert web_session.job(JOB).document["target"]["swing_weight"] == "D2"
    # a figure that is not touched is not sent back to what the page had shown
    assert post(web_client, PATH, PATH, key="k-3", **(mine | {"target.lie": "63 deg"})).status_code == 303
    assert web_session.job(JOB).document["target"]["swing_weight"] == "D2"


def test_a_void_signature_is_on_card_trail_ticket_and_sheet(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    build(web_session, web_clock, "sign cut")
    post(web_client, PATH, PATH, key="k-1", **(form(web_client) | ASKED | {"target.length": "35 in"}))
    text = html.unescape(web_client.get(f"{BENCH}?step=mark+and+cut").text)
    assert re.search(r'class="closed void">Cut signed by \w+, void now: 34.010 in then, 33.760 in now', text)
    assert "no longer holds: the cut has changed" in text.partition('id="trail"')[2]
    assert "Sign: the marks agree" in text
    assert "cut signed" not in web_client.get(f"/tickets/{JOB}").text
    answer = web_client.get(f"/api/jobs/{JOB}").json()["answer"]
    assert [item["where"] for item in answer["findings"]].count("gate cut") == 1


def test_a_head_is_pulled_again_below_the_order(web_client: TestClient, web_session: Session, web_clock: Clock) -> None:
    assert "The head is off" not in web_client.get(PATH).text
    build(web_session, web_clock, "glue")
    text = web_client.get(PATH).text
    assert "The head is off" in text and "Heat may have weakened the tip" in text
    answer = post(web_client, PATH, PATH, key="k-pull", do="pull", said_by="Ann", reason="it rattles", heat="yes")
    assert answer.status_code == 303
    assert web_session.job(JOB).glued_at is None
    assert "Glue signed by bench, void now: the head was pulled again" in web_client.get(BENCH).text


def test_a_page_of_an_order_is_for_who_may_sign_off(open_app: FastAPI, web_session: Session) -> None:
    wil = signed_in(open_app, "Wil")
    assert "Change the order" not in wil.get(PATH).text
    sent = {"was:target.lie": "", "target.lie": "63 deg", **ASKED}
    assert post(wil, PATH, BENCH, key="k-1", **sent).status_code == 403
    ours = {"X-Clubwright": "1", "Idempotency-Key": "k-2"}
    order = {"values": {"target.lie": "63 deg"}, **ASKED}
    assert wil.post(f"/api/jobs/{JOB}/order", json=order, headers=ours).status_code == 403
    sol = signed_in(open_app, "Sol")
    assert sol.post(f"/api/jobs/{JOB}/order", json=order, headers=ours).status_code == 201
    assert web_session.job(JOB).document["target"]["lie"] == "63 deg"
