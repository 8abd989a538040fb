"""The mix card while the ratio is by volume: it asks for the densities, then says what to weigh."""

from __future__ import annotations

import html

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.web.ticket_form_fields import SHOWN
from webclient import TestClient, post

PATH = f"/bench/{JOB}"
CARD = f"{PATH}?step=mix"


def test_the_form_of_a_ticket_has_both_densities(web_client: TestClient) -> None:
    assert {"density_a", "density_b"} <= set(SHOWN["adhesive"])
    assert 'name="adhesive.density_a"' in web_client.get("/tickets/new/form").text


def test_the_card_takes_the_densities_and_then_says_what_to_weigh(web_client: TestClient, web_session: Session) -> None:
    bench.change_order(web_session, JOB, {"adhesive.basis": "volume"}, said_by="Ann", reason="as its sheet has it")
    text = html.unescape(web_client.get(CARD).text)
    assert 'name="adhesive.density_a"' in text and 'name="part_a"' not in text
    sent = {"action": "figures", "step": "mix", "key": "k-1", "adhesive.density_a": "1.16 g/cm3"}
    refused = post(web_client, PATH, CARD, **sent, **{"adhesive.density_b": "much"})
    assert refused.status_code == 422
    assert "density_a" not in web_session.job(JOB).document["adhesive"]
    answer = post(web_client, PATH, CARD, **sent, **{"adhesive.density_b": "0.97 g/cm3"})
    assert answer.status_code == 303
    assert "mix" not in web_session.job(JOB).steps_done
    text = html.unescape(web_client.get(answer.headers["location"]).text)
    assert 'name="part_a"' in text and 'name="adhesive.density_a"' not in text


def test_a_cup_is_refused_at_the_other_doors_too(web_client: TestClient, web_session: Session) -> None:
    bench.change_order(web_session, JOB, {"adhesive.basis": "volume"}, said_by="Ann", reason="as its sheet has it")
    cup = {"part_a": "4 g", "part_b": "2 g", "temperature": "22 C"}
    page = post(web_client, PATH, CARD, action="mix", step="mix", key="k-2", **cup)
    api = web_client.post(f"/api/jobs/{JOB}/mixes", json=cup, headers={"X-Clubwright": "1", "Idempotency-Key": "k-3"})
    assert (page.status_code, api.status_code) == (422, 422)
    assert not web_session.job(JOB).mixes
