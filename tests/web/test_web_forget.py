"""A player is forgotten at the page and at the JSON interface: looked at first, held, and only by who may sign off."""

from __future__ import annotations

import html
import re

import msgspec
import pytest

from benchwork import JOB, document
from clubwright.services.actions import bench
from clubwright.services.actions.forgetting import UNREACHED
from clubwright.services.record.session import Session
from webclient import TestClient, post

HEADERS = {"X-Clubwright": "1"}
NAME = "Zebulon Quagmire"
LOOK = {"player": NAME, "also": ["Quagmire"]}


@pytest.fixture
def web_session_with_player(web_session: Session) -> Session:
    made = document()
    made["ticket"] |= {"id": "T-0900", "player": NAME, "note": "Quagmire's own"}
    bench.take_ticket(web_session, made, "t")
    return web_session


def names_in(session: Session) -> bool:
    return b"Quagmire" in msgspec.json.encode(session.ledger.facts())


def test_the_page_looks_first_and_erases_by_a_button_that_is_held(
    web_client: TestClient, web_session_with_player: Session
) -> None:
    assert 'href="/forget"' in web_client.get("/records?state=all").text
    asked = web_client.get("/forget").text
    assert "Whose name?" in asked
    assert "Erase for good" not in asked
    looked = post(web_client, "/forget", page="/forget", player=NAME, also="Quagmire", do="look")
    assert looked.status_code == 200
    assert "2 texts in 1 facts" in looked.text
    assert 'class="primary hold"' in looked.text
    assert names_in(web_session_with_player)
    fields = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', looked.text))
    assert (fields["facts"], fields["player"]) == ("1", NAME)
    unlooked = post(web_client, "/forget", page="/forget", **_without_token(fields), asked_by="the player")
    assert unlooked.status_code == 422
    named = post(web_client, "/forget", page="/forget", **_without_token(fields), asked_by=NAME, looked="yes")
    assert "it holds what shall be erased" in html.unescape(named.text)
    assert names_in(web_session_with_player)
    done = post(web_client, "/forget", page="/forget", **_without_token(fields), asked_by="the player", looked="yes")
    assert done.status_code == 200
    assert NAME not in done.text
    assert all(line in html.unescape(done.text) for line in UNREACHED)
    assert not names_in(web_session_with_player)
    listed = web_client.get("/records?state=all&q=forgotten").text
    assert "T-0900" in listed
    assert "a forgotten player P-" in web_client.get("/bench/T-0900").text
    assert web_client.get(f"/bench/{JOB}").status_code == 200


def _without_token(fields: dict[str, str]) -> dict[str, str]:
    return {name: value for name, value in fields.items() if name != "csrf"}


def test_the_interface_looks_and_erases(web_client: TestClient, web_session_with_player: Session) -> None:
    looked = web_client.post("/api/forget/look", json=LOOK, headers=HEADERS).json()
    assert (looked["facts"], looked["texts"], looked["jobs"]) == (1, 2, ["T-0900"])
    sent = {**LOOK, "asked_by": "the player", "facts": looked["facts"]}
    headers = HEADERS | {"Idempotency-Key": "forget-1"}
    wrong = web_client.post("/api/forget", json={**sent, "facts": 7}, headers=headers)
    assert wrong.status_code == 422
    done = web_client.post("/api/forget", json=sent, headers=headers)
    assert done.status_code == 201, done.text
    assert not names_in(web_session_with_player)
    again = web_client.post("/api/forget", json=sent, headers=headers)
    assert again.json()["written"] == done.json()["written"]
    assert web_client.post("/api/forget/look", json=LOOK, headers=HEADERS).status_code == 422
