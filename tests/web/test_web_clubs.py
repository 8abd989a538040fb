"""A club outlives its jobs, by the page and by `/api`: the next job, its jobs listed, two jobs said to be on one club."""

from __future__ import annotations

from typing import Any

from fastapi.testclient import TestClient

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.web.guard.csrf import OUR_HEADER
from webclient import post

WORDS = {"kind": "iron", "hand": "right", "label": "6 iron"}
FIRST: dict[str, Any] = {
    "ticket": {**WORDS, "id": "T-0110", "job": "weight"},
    "target": {"swing_weight": "D2"},
    "head": {"mass": "262 g"},
    "shaft": {"cut_length": "910 mm", "cut_mass": "110 g"},
}


def closed(session: Session) -> None:
    bench.take_ticket(session, FIRST, "first")
    bench.note_reading(session, "T-0110", "total_weight", "425 g")
    bench.accept(session, "T-0110", "swing_weight", name="I. Nvented", reason="not ordered any more")
    bench.finish(session, "T-0110")


def test_a_closed_record_offers_work_on_its_club_again(web_client: TestClient, web_session: Session) -> None:
    closed(web_session)
    assert "Work on this club again" in web_client.get("/records/T-0110").text
    shown = web_client.get("/records/T-0110/club").text
    assert "Take this ticket" in shown
    refused = post(web_client, "/records/T-0110/club", do="take", id="T-0110", work="regrip")
    assert refused.status_code == 422
    assert "already in the record" in refused.text
    taken = post(web_client, "/records/T-0110/club", do="take", id="T-0150", work="regrip")
    assert taken.status_code == 303
    document = web_session.job("T-0150").document
    assert document["head"] == FIRST["head"]
    assert document["target"] == FIRST["target"]
    shown = web_client.get("/records/T-0110/club").text
    assert "Job T-0150 on this club is still open" in shown
    assert "Take this ticket" in shown, "the order at the counter is taken all the same"
    assert "T-0150" in web_client.get("/records/T-0150").text


def test_two_jobs_are_said_to_be_one_club(web_client: TestClient, web_session: Session) -> None:
    closed(web_session)
    other = {**FIRST, "ticket": {**FIRST["ticket"], "id": "T-0160"}}
    bench.take_ticket(web_session, other, "other")
    assert "Was this club here before?" in web_client.get("/records/T-0160/club").text
    wrong = post(web_client, "/records/T-0160/club", do="say", club="T-9", reason="its serial")
    assert wrong.status_code == 422
    assert "T-9" in wrong.text
    said = post(web_client, "/records/T-0160/club", do="say", club="T-0110", reason="its serial")
    assert said.status_code == 303
    assert web_session.job("T-0160").document["ticket"]["club"] == "T-0110"
    assert "Was this club here before?" not in web_client.get("/records/T-0160/club").text


def test_programs_do_the_same(web_client: TestClient, web_session: Session) -> None:
    closed(web_session)

    def send(path: str, body: dict[str, Any], key: str) -> Any:
        return web_client.post(path, json=body, headers={OUR_HEADER: "1", "Idempotency-Key": key})

    body = {"number": "T-0150", "work": "regrip"}
    taken = send("/api/jobs/T-0110/next", body, "next-1")
    assert taken.status_code == 201, taken.text
    assert send("/api/jobs/T-0110/next", body, "next-1").json() == taken.json(), "sent again, kept once"
    club = web_client.get("/api/jobs/T-0150/club").json()
    assert club["club"] == {"site": "bench", "sequence": 2}
    assert [(row["job"], row["work"], row["state"]) for row in club["jobs"]] == [
        ("T-0110", "weight", "closed"),
        ("T-0150", "regrip", "open"),
    ]
    other = {**FIRST, "ticket": {**FIRST["ticket"], "id": "T-0160"}}
    assert send("/api/tickets", {"document": other}, "take-1").status_code == 201
    assert send("/api/jobs/T-0160/club", {"club": "T-9", "reason": "its serial"}, "say-1").status_code == 404
    said = send("/api/jobs/T-0160/club", {"club": "T-0110", "reason": "its serial"}, "say-2")
    assert said.status_code == 201, said.text
    again = {"ticket": {"id": "T-0170", "job": "weight"}}
    assert send("/api/tickets", {"document": again, "club": "T-0110"}, "take-2").status_code == 201
    rows = web_client.get("/api/jobs/T-0170/club").json()["jobs"]
    assert [row["job"] for row in rows] == ["T-0110", "T-0150", "T-0160", "T-0170"]
    assert "another open job" in rows[-1]["findings"][0]["what"]
