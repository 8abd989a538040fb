"""Page and JSON interface: a ticket gets another number, and a number that two benches gave away asks which is meant."""

from __future__ import annotations

from typing import Any

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post


def api(client: TestClient, path: str, key: str, body: dict[str, Any] | None) -> Any:
    headers = {"X-Clubwright": "1", "Idempotency-Key": key}
    return client.post(f"/api/jobs/{path}", json=body, headers=headers)


def test_a_ticket_gets_another_number_on_the_page(web_client: TestClient, web_session: Session) -> None:
    page = f"/tickets/{JOB}"
    assert "Another ticket number" in web_client.get(page).text
    answer = post(web_client, f"{page}/number", page, number="T-0500", key="k-1")
    assert (answer.status_code, answer.headers["location"]) == (303, "/tickets/T-0500")
    assert f"It had {JOB}." in web_client.get("/tickets/T-0500").text
    assert web_client.get(page).status_code == 200, "nobody else has the old number"
    made = {"ticket": {"id": "T-0501", "kind": "wedge", "hand": "right"}, "target": {"length": "35 in"}}
    bench.take_ticket(web_session, made, "t")
    refused = post(web_client, "/tickets/T-0501/number", "/tickets/T-0501", number="T-0500", key="k-2")
    assert refused.status_code == 422
    assert "T-0500 is already in the record. The next free number is T-0502." in refused.text
    assert 'value="T-0500"' in refused.text, "what was typed stays"


def test_every_door_of_an_ambiguous_number_asks_which_is_meant(web_client: TestClient, web_session: Session) -> None:
    clash = dict(web_session.job(JOB).document)
    van = web_session.ledger.append(
        "van",
        [type(web_session.ledger.facts()[0].what)(job=JOB, document=clash, source="van.toml")],
        by="Bo",
        at="2026-03-02T08:00:00.000Z",
        typed="ticket",
        key="van-1",
    )
    assert van[0].place == ("van", 1)
    names = (f"{JOB}@bench", f"{JOB}@van")
    text = web_client.get("/tickets").text
    assert all(f'href="/bench/{name}"' in text for name in names)
    for path in (f"/bench/{JOB}", f"/tickets/{JOB}", f"/records/{JOB}", f"/api/jobs/{JOB}"):
        answer = web_client.get(path)
        assert answer.status_code == 409, path
        assert all(name in answer.text for name in names), path
        for name in names:
            assert web_client.get(path.replace(JOB, name)).status_code == 200
    refused = api(web_client, f"{JOB}/steps", "a-1", {"step": "weigh"})
    assert (refused.status_code, names[0] in refused.json()["error"]) == (409, True)
    assert (
        api(web_client, f"{names[1]}/parts", "a-2", {"section": "head", "values": {"hand": "right"}}).status_code == 201
    )
    assert api(web_client, f"{names[1]}/number", "a-3", {"number": "T-0777"}).status_code == 201
    assert web_session.job("T-0777").document["head"]["hand"] == "right"
    assert web_session.job(names[0]).id == names[0]
