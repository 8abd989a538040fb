"""The JSON interface over whole flows: a wedge worked by a program, retries, refusals, answers equal to the library's."""

from __future__ import annotations

import itertools
from typing import Any

import jsonschema
import pytest
from fastapi import FastAPI
from httpx import Response

from benchwork import JOB, Clock, document, worked
from clubwright import work
from clubwright.errors import InputError
from clubwright.services.record.session import Session
from clubwright.services.told.schema import schema_of
from clubwright.web.guard.limits import check_json
from webclient import LOOPBACK, TestClient, signed_in

OURS = {"X-Clubwright": "1"}
KEYS = itertools.count(1)


def send(client: TestClient, path: str, body: dict[str, Any] | None = None, key: str | None = None) -> Response:
    headers = {**OURS, "Idempotency-Key": key or f"api-{next(KEYS)}"}
    return client.post(f"/api/jobs/{JOB}/{path}", json=body, headers=headers)


def read(quantity: str, value: str, stage: str, gauge: str) -> tuple[str, dict[str, Any], float]:
    return "readings", {"quantity": quantity, "value": value, "stage": stage, "instrument": gauge}, 0.1


FLOW: list[tuple[str, dict[str, Any] | None, float]] = [
    ("parts", {"section": "head", "values": {"hand": "right"}}, 0.1),
    ("steps", {"step": "pull"}, 0.1),
    ("steps", {"step": "weigh", "note": "two scales agree"}, 0.1),
    ("gates", {"gate": "cut"}, 0.1),
    ("cuts", {"cut_length": "34.01 in"}, 0.1),
    read("swing_weight", "D1.3", "dry, gripped", "swing scale"),
    ("weights", {"weights": ["port 6"]}, 0.1),
    read("swing_weight", "D3.8", "dry, gripped", "swing scale"),
    ("mixes", {"part_a": "4.0 g", "part_b": "2.0 g", "temperature": "22 C", "batch": "lot 7"}, 0.1),
    ("gates", {"gate": "glue"}, 0.1),
    ("glue", {"temperature": "22 C"}, 0.1),
    ("steps", {"step": "cure"}, 15),
    ("tape", {"name": "build-up", "layers": "2", "mass": "2.8 g"}, 0.1),
    ("grip", None, 0.1),
    ("bends", {"loft": "54 deg", "lie": "63.5 deg", "bounce": "9.75 deg"}, 0.1),
    read("length", "35 1/4 in", "finished", "rule"),
    read("loft", "54 deg", "finished", "angle gauge"),
    read("lie", "63.5 deg", "finished", "angle gauge"),
    read("swing_weight", "D4", "finished", "swing scale"),
    read("total_weight", "472.2 g", "finished", "gram scale"),
    read("grip_diameter_2in", "0.916 in", "finished", "caliper"),
    ("gates", {"gate": "release"}, 0.1),
    ("finish", None, 0.1),
]


def test_a_program_works_a_wedge_from_ticket_to_finish(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    for number, (path, body, hours) in enumerate(FLOW, start=2):
        web_clock.wait(hours=hours)
        answer = send(web_client, path, body)
        assert answer.status_code == 201, (path, body, answer.text)
        assert answer.json()["number"] == number
    found = web_client.get(f"/api/jobs/{JOB}").json()
    assert found["finished"] is True
    assert found["answer"] == worked(web_session).answer().plain()
    jsonschema.validate(found["answer"], schema_of("answer"))
    assert {row["verdict"] for row in found["answer"]["verdicts"].values()} == {"within"}
    assert web_client.get("/api/jobs").json()["jobs"][0]["finished"] is True
    belief = {item["name"]: item for item in found["belief"]}
    length = worked(web_session).club_state.belief
    assert belief["shaft.length_m"]["mean"] == pytest.approx(length.mean_of("shaft.length_m"), rel=1e-8)


def test_the_next_step_is_the_first_of_the_plan_not_done(web_client: TestClient) -> None:
    assert web_client.get(f"/api/jobs/{JOB}").json()["next_step"]["key"] == "pull"
    send(web_client, "parts", {"section": "head", "values": {"hand": "right"}})
    send(web_client, "steps", {"step": "pull"})
    following = web_client.get(f"/api/jobs/{JOB}").json()["next_step"]
    steps = web_client.get(f"/api/jobs/{JOB}/plan").json()["steps"]
    assert following == next(step for step in steps if not step["done"])
    assert [step["number"] for step in steps] == list(range(1, len(steps) + 1))


def test_working_without_keeping_equals_the_library(web_client: TestClient, web_session: Session) -> None:
    before = web_session.ledger.count()
    answer = web_client.post("/api/work", json={"document": document()}, headers=OURS)
    assert answer.status_code == 200
    assert answer.json() == work(document()).plain()
    assert web_session.ledger.count() == before


def test_the_same_key_again_gives_the_same_fact(web_client: TestClient, web_session: Session) -> None:
    first = send(web_client, "steps", {"step": "weigh"}, key="once")
    again = send(web_client, "steps", {"step": "weigh"}, key="once")
    assert (first.status_code, again.status_code) == (201, 201)
    assert first.json() == again.json()
    assert web_session.ledger.count() == 2
    other = send(web_client, "steps", {"step": "ferrule"}, key="once")
    assert other.status_code == 409
    assert "was used before" in other.json()["error"]


def test_a_ticket_is_taken_once(web_client: TestClient, web_session: Session) -> None:
    other = document()
    other["ticket"]["id"] = "T-0077"
    headers = {**OURS, "Idempotency-Key": "take-77"}
    first = web_client.post("/api/tickets", json={"document": other, "source": "till"}, headers=headers)
    assert first.status_code == 201
    assert web_client.post("/api/tickets", json={"document": other, "source": "till"}, headers=headers).json() == (
        first.json()
    )
    again = {**OURS, "Idempotency-Key": "take-78"}
    assert web_client.post("/api/tickets", json={"document": other}, headers=again).status_code == 409
    assert list(web_session.shop().jobs) == [JOB, "T-0077"]


def test_a_decision_and_an_undo_name_facts(web_client: TestClient, web_session: Session) -> None:
    send(web_client, "parts", {"section": "head", "values": {"hand": "right"}})
    send(web_client, "gates", {"gate": "cut"})
    send(web_client, "cuts", {"cut_length": "34.01 in"})
    path, body, _ = read("total_weight", "965.4 g", "dry, gripped", "gram scale")
    number = send(web_client, path, body).json()["number"]
    left = send(web_client, "decisions", {"reading": number, "keep": False, "reason": "misread"})
    assert left.status_code == 201, left.text
    undone = send(web_client, "undo", {"fact": left.json()["number"], "reason": "after all"})
    assert undone.json()["kind"] == "undone"
    assert [line.undone for line in web_session.job(JOB).trail if line.sequence == left.json()["number"]] == [True]


# --- Refusals -------------------------------------------------------------------------------------------------------


def refused(answer: Response, status: int) -> dict[str, Any]:
    assert answer.status_code == status, answer.text
    body: dict[str, Any] = answer.json()
    assert set(body) == {"error", "findings"}
    for finding in body["findings"]:
        assert set(finding) == {"where", "what", "mend", "severity"}
    return body


def test_every_finding_at_once(web_client: TestClient, web_session: Session) -> None:
    wrong = document()
    wrong["head"]["mass"] = "296,4"
    wrong["target"]["length"] = "35 lb"
    body = refused(web_client.post("/api/work", json={"document": wrong}, headers=OURS), 422)
    assert len(body["findings"]) >= 2
    assert {"mass", "length"} <= {finding["where"].split()[-1] for finding in body["findings"]}


def test_a_closed_gate_says_every_reason(web_client: TestClient) -> None:
    body = refused(send(web_client, "glue", {"temperature": "22 C"}), 409)
    assert len(body["findings"]) >= 2
    assert any("nobody has signed" in finding["what"] for finding in body["findings"])


def test_a_weight_that_is_not_in_the_tray_is_refused_with_the_tray(web_client: TestClient) -> None:
    assert "port 6" in refused(send(web_client, "weights", {"weights": ["no such weight"]}), 409)["error"]


@pytest.mark.parametrize("method", ["get", "post"])
def test_an_unknown_ticket_is_not_found(web_client: TestClient, method: str) -> None:
    if method == "get":
        for path in ("/api/jobs/T-9999", "/api/jobs/T-9999/plan"):
            assert "T-9999" in refused(web_client.get(path), 404)["error"]
        return
    headers = {**OURS, "Idempotency-Key": "k"}
    for path, body, _ in FLOW:
        refused(web_client.post(f"/api/jobs/T-9999/{path}", json=body, headers=headers), 404)


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("readings", {"quantity": "swing_weight", "value": "D3", "extra": 1}),
        ("readings", {"quantity": "swing_weight", "value": 3.5}),
        ("readings", {"quantity": "swing_weight", "value": "35,5"}),
        ("readings", {"quantity": "nothing", "value": "D3"}),
        ("readings", {"value": "D3"}),
        ("decisions", {"reading": "2", "keep": True, "reason": ""}),
        ("decisions", {"reading": 10**30, "keep": True, "reason": ""}),
        ("undo", {"fact": 0}),
        ("undo", {"fact": True}),
        ("steps", {"step": "dance"}),
        ("parts", {"section": "head", "values": {}}),
        ("parts", {"section": "nowhere", "values": {"mass": "1 g"}}),
        ("bends", {}),
        ("gates", None),
        ("gates", []),  # type: ignore[list-item]
    ],
    ids=str,
)
def test_bad_input_is_said_and_not_kept(web_client: TestClient, web_session: Session, path: str, body: Any) -> None:
    found = refused(send(web_client, path, body), 422)
    assert found["findings"]
    assert all(finding["where"] and finding["what"] for finding in found["findings"])
    assert web_session.ledger.count() == 1


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b'{"step": NaN}',
        b'{"step": 1e999}',
        b'{"step": ' + b"9" * 5000 + b"}",
        b'{"step": "\\ud800"}',
        b'{"step": "a\\u0000"}',
        b"[" * 100_000,
        b'{"a":' * 20 + b"1" + b"}" * 20,
    ],
    ids=range(10),
)
def test_what_is_no_clean_json_is_refused(web_client: TestClient, raw: bytes) -> None:
    headers = {**OURS, "Idempotency-Key": "k", "Content-Type": "application/json"}
    refused(web_client.post(f"/api/jobs/{JOB}/steps", content=raw, headers=headers), 422)


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b'{"a": 1e999}', "not finite"),
        (b'{"a": -Infinity}', "no number"),
        (b'{"a": "\\ud800"}', "control characters"),
        (b'{"\\u0000": 1}', "control characters"),
        (b'{"a":' * 20 + b"1" + b"}" * 20, "levels"),
        (b"[" * 100_000, "deeply|no JSON"),
        (b"9" * 5000, "no JSON"),
    ],
    ids=range(7),
)
def test_it_is_refused_before_a_route_sees_it(raw: bytes, said: str) -> None:
    with pytest.raises(InputError, match=said):
        check_json(raw)


def test_other_kinds_of_body_are_refused(web_client: TestClient) -> None:
    headers = {**OURS, "Idempotency-Key": "k"}
    refused(web_client.post(f"/api/jobs/{JOB}/steps", data={"step": "weigh"}, headers=headers), 415)
    big = {"document": {"ticket": {"note": "x" * 300_000}}}
    refused(web_client.post("/api/work", json=big, headers=headers), 413)


def test_a_browser_of_another_site_cannot_use_it(web_client: TestClient, web_session: Session) -> None:
    body, key = {"step": "weigh"}, {"Idempotency-Key": "k"}
    path = f"/api/jobs/{JOB}/steps"
    refused(web_client.post(path, json=body, headers=key), 403)
    refused(web_client.post(path, json=body, headers={**OURS, **key, "Origin": "https://elsewhere.example"}), 403)
    preflight = {
        "Origin": "https://elsewhere.example",
        "Access-Control-Request-Method": "POST",
        "Access-Control-Request-Headers": "x-clubwright",
    }
    allowed = web_client.options(path, headers=preflight)
    assert not [name for name in allowed.headers if name.startswith("access-control")]
    assert web_session.ledger.count() == 1


def test_recording_needs_a_key_and_a_good_one(web_client: TestClient) -> None:
    path = f"/api/jobs/{JOB}/steps"
    refused(web_client.post(path, json={"step": "weigh"}, headers=OURS), 422)
    refused(web_client.post(path, json={"step": "weigh"}, headers={**OURS, "Idempotency-Key": "a b"}), 422)


def test_other_methods_are_refused_as_json(web_client: TestClient) -> None:
    answer = web_client.delete("/api/jobs", headers=OURS)
    refused(answer, 405)
    assert answer.headers["allow"] == "GET"
    refused(web_client.get("/api/nowhere"), 404)


def test_over_the_network_a_program_signs_in_like_a_person(open_app: FastAPI, web_session: Session) -> None:
    sol = signed_in(open_app, "Sol")
    kept = send(sol, "steps", {"step": "weigh"})
    assert kept.status_code == 201, kept.text
    assert kept.json()["by"] == "Sol"
    client = TestClient(open_app, base_url=LOOPBACK)
    refused(client.get("/api/jobs"), 401)


def test_the_document_describes_every_route_and_nothing_else(web_client: TestClient) -> None:
    found = web_client.get("/openapi.json").json()
    assert all(path.startswith("/api/") for path in found["paths"])
    served = (
        {path for path, _, _ in FLOW}
        | {"decisions", "undo", "trims", "acceptances", "number", "club", "next"}
        | {"from", "bad", "order", "pulled", "pull", "figures", "reopen", "traces", "family", "again", "print"}
    )
    assert {path.rpartition("/")[2] for path in found["paths"] if path.startswith("/api/jobs/{job}/")} == (
        served | {"plan", "ticket", "minutes", "why", "{key}"}
    )
    for path, methods in found["paths"].items():
        for method, route in methods.items():
            if method == "post":
                names = {item["name"].lower() for item in route["parameters"] if item["required"]}
                assert "x-clubwright" in names, path
                keeps_nothing = ("/api/work", "/api/new", "/api/forget/look", "/api/jobs/{job}/print")
                assert "idempotency-key" in names or path in keeps_nothing, path
