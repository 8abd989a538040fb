"""The shop's settings by the page and by `/api`: the same figures, findings and refusals as by command line and Python."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest

import clubwright as library
from clubwright.importers.shop_file import settings_in
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import read_shop
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from shopwork import SHOP_TEXT, TICKET_TEXT, shop, ticket
from webclient import LOOPBACK, TestClient, post

OURS = {"X-Clubwright": "1"}
WORDS = "54 mid bounce, 35 1/4 to the cap, D4"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    found = tmp_path / "shop.toml"
    found.write_text(SHOP_TEXT, encoding="utf-8")
    return found


@pytest.fixture
def client(web_session: Session, file: Path) -> Iterator[TestClient]:
    session = msgspec.structs.replace(web_session, settings=lambda: settings_in(file.parent))
    app = create_app(WebSettings(shop=str(file.parent)), session)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as found:
        yield found


def take(client: TestClient, number: str = "T-0301") -> None:
    sent = {"document": ticket(ticket={"id": number, "kind": "wedge", "hand": "right"})}
    answer = client.post("/api/tickets", json=sent, headers={**OURS, "Idempotency-Key": number})
    assert answer.status_code == 201, answer.text


def test_work_by_api_is_work_by_python_with_that_file(client: TestClient, file: Path) -> None:
    answer = client.post("/api/work", json={"document": ticket()}, headers=OURS)
    assert answer.json() == library.work(ticket(), shop_file=file).plain()
    assert "(shop setting)" in answer.text


def test_the_settings_are_given_as_they_are_now(client: TestClient, file: Path) -> None:
    assert client.get("/api/shop").json() == {"source": "shop.toml", "tables": read_shop(shop()).tables, "findings": []}
    file.write_text(SHOP_TEXT.replace('"1/32 in"', '"thin"'), encoding="utf-8")
    assert [item["where"] for item in client.get("/api/shop").json()["findings"]] == ["shop.toml [shop] kerf"]
    file.unlink()
    assert client.get("/api/shop").json() == {"source": "", "tables": {}, "findings": []}


def test_a_bad_file_stops_the_next_ticket_and_no_job(client: TestClient, file: Path) -> None:
    take(client)
    file.write_text(SHOP_TEXT.replace('"1/32 in"', '"thin"'), encoding="utf-8")
    sent = {"document": ticket(ticket={"id": "T-0302", "kind": "wedge", "hand": "right"})}
    refused = client.post("/api/tickets", json=sent, headers={**OURS, "Idempotency-Key": "k"})
    assert refused.status_code == 422
    assert "shop.toml [shop] kerf" in refused.text
    assert client.get("/api/jobs/T-0301").status_code == 200
    assert "cannot be taken" in client.get("/tickets/T-0301").text
    pasted = post(client, "/tickets/new/file", page="/tickets/new", text=TICKET_TEXT.replace("T-0301", "T-0303"))
    assert pasted.status_code == 422
    assert "shop.toml [shop] kerf" in pasted.text


def test_a_change_since_is_shown_on_the_tickets_page_and_by_api(client: TestClient, file: Path) -> None:
    take(client)
    assert "changed since" not in client.get("/tickets/T-0301").text
    file.write_text(SHOP_TEXT.replace('"1/32 in"', '"1/16 in"'), encoding="utf-8")
    assert "kerf 1/32 in then, kerf 1/16 in now" in client.get("/tickets/T-0301").text
    found = client.get("/api/jobs/T-0301").json()
    assert "kerf 1/16 in now" in found["answer"]["findings"][0]["what"]
    assert "changed since" not in client.get("/tickets/T-0054").text, "it was taken without any settings"


def test_the_form_is_checked_with_the_shops_settings(client: TestClient) -> None:
    fields = {
        "ticket.id": "T-0304",
        "ticket.kind": "wedge",
        "ticket.hand": "right",
        "target.swing_weight": "D4",
        "adhesive.name": "two-prat",
    }
    checked = post(client, "/tickets/new/form", page="/tickets/new/form", **fields, do="check", key="f1")
    assert checked.status_code == 200
    assert "Did you mean two-part?" in checked.text
    taken = post(client, "/tickets/new/form", page="/tickets/new/form", **fields, do="take", key="f2")
    assert taken.status_code == 303
    toml = client.get("/tickets/T-0304/ticket.toml").text
    assert "[from_shop" in toml
    assert "1/32 in" in toml


def test_words_give_the_same_ticket_as_the_command(client: TestClient, file: Path) -> None:
    found = client.post("/api/new", json={"words": WORDS}, headers=OURS).json()
    assert found == library.new_ticket(WORDS, number="T-0055", shop_file=file).plain()
    assert client.post("/api/new", json={"words": "x" * 501}, headers=OURS).status_code == 422
    assert client.post("/api/new", json={"words": WORDS}).status_code in (403, 422)
