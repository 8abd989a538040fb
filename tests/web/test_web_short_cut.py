"""A cut far short of its mark: the card asks whether it is so, where it is refused, and nowhere else."""

from __future__ import annotations

from browsing import bring

from benchwork import JOB, Clock
from clubwright.services.record.session import Session
from webclient import TestClient, post

PATH = f"/bench/{JOB}?step=mark%20and%20cut"
FIELD = 'name="short"'


def test_the_card_asks_only_when_the_cut_is_short(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "sign cut")
    assert FIELD not in web_client.get(PATH).text
    sent = {"action": "cut", "step": "mark and cut", "cut_length": "30 in", "looked": "yes"}
    refused = post(web_client, f"/bench/{JOB}", PATH, **sent, key="k-1")
    assert refused.status_code == 422
    assert "short of the mark" in refused.text and FIELD in refused.text
    assert "cut_length" not in web_session.job(JOB).document["shaft"]
    assert post(web_client, f"/bench/{JOB}", PATH, **sent, short="yes", key="k-2").status_code == 303
    assert web_session.job(JOB).document["shaft"]["cut_length"] == "30 in"
    assert FIELD not in web_client.get(PATH).text
