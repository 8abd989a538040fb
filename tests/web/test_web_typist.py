"""A shop that types a decimal comma: forms take it, facts hold canonical text, and a thousand is not taken for one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import msgspec
import pytest

from benchwork import JOB, Clock, actions
from clubwright.journal.facts import ReadingTaken
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import read_shop
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from shopwork import completed_example
from webclient import LOOPBACK, TestClient, post

EXAMPLE = Path(__file__).parents[2] / "examples" / "wedge-54.toml"
COMMA = read_shop({"units": {"decimal": "comma", "bare_length": "mm"}})


@pytest.fixture
def session(web_session: Session) -> Session:
    return msgspec.structs.replace(web_session, settings=lambda: COMMA)


@pytest.fixture
def client(session: Session, tmp_path: Path) -> Iterator[TestClient]:
    app = create_app(WebSettings(shop=str(tmp_path)), session)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as found:
        yield found


def test_a_reading_is_echoed_and_kept_as_canonical_text(client: TestClient, session: Session) -> None:
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    job = next(iter(session.shop().jobs))
    fields = {"action": "read", "quantity": "total_weight", "stage": "dry, gripped", "value": "465,4 g", "key": "k"}
    asked = client.get(f"/bench/{job}/echo", params={name: fields[name] for name in ("quantity", "stage", "value")})
    assert "465.4 g" in asked.text
    answer = post(client, f"/bench/{job}", f"/bench/{job}", **fields, confirmed="465,4 g")
    assert answer.status_code == 303, answer.text
    (taken,) = [fact.what for fact in session.ledger.facts() if isinstance(fact.what, ReadingTaken)]
    assert taken.value == "465.4 g"


def test_a_thousand_of_grams_is_not_one_gram(client: TestClient, session: Session) -> None:
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    job = next(iter(session.shop().jobs))
    fields = {"action": "read", "quantity": "total_weight", "stage": "dry, gripped", "value": "1,000 g", "key": "k"}
    page = f"/bench/{job}"
    answer = post(client, page, page, **fields, step="dry reading", confirmed="1,000 g")
    assert answer.status_code == 422
    assert "can be read two ways" in answer.text
    assert not [fact for fact in session.ledger.facts() if isinstance(fact.what, ReadingTaken)]


def test_the_form_of_a_ticket_takes_commas_and_bare_millimetres(client: TestClient, session: Session) -> None:
    fields = {
        "ticket.id": "T-1",
        "ticket.kind": "wedge",
        "ticket.hand": "right",
        "ticket.note": "1,5 mm off at the last club",
        "target.length": "895,4",
        "target.swing_weight": "D3,5",
        "head.mass": "298,4 g",
        "tape.0.layers": "1",
        "tape.0.name": "double, 1,5",
        "do": "take",
        "key": "k",
    }
    answer = post(client, "/tickets/new/form", "/tickets/new/form", **fields)
    assert answer.status_code == 303, answer.text
    document = session.job("T-1").document
    assert document["target"] == {"length": "895.4 mm", "swing_weight": "D3.5"}
    assert (document["head"]["mass"], document["tape"][0]["name"]) == ("298.4 g", "double, 1,5")
    assert document["ticket"]["note"] == "1,5 mm off at the last club"


def test_the_words_of_an_order_are_read_with_commas_and_kept_as_said(client: TestClient) -> None:
    page = client.get("/tickets/new/form", params={"words": "7 iron, right hand, 37,25 in"}).text
    assert 'value="37.25 in"' in page
    assert "7 iron, right hand, 37,25 in" in page


def test_the_interface_for_programs_is_read_as_it_is_written(client: TestClient, session: Session) -> None:
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    job = next(iter(session.shop().jobs))
    body = {"section": "head", "values": {"mass": "298,4 g"}}
    answer = client.post(f"/api/jobs/{job}/parts", json=body, headers={"X-Clubwright": "1", "Idempotency-Key": "k"})
    assert answer.status_code == 422
    assert "has a comma" in answer.text


def pages_from(client: TestClient, start: str) -> dict[str, int]:
    """Fetch a page and whatever it leads to, one link far, but for papers and data."""
    found: dict[str, int] = {}
    todo = {start}
    for _ in range(2):
        pages = {path: client.get(path) for path in sorted(todo - found.keys())}
        found |= {path: page.status_code for path, page in pages.items()}
        links = {unescape(link) for page in pages.values() for link in re.findall(r'href="(/[^"#]*)', page.text)}
        todo = {link for link in links if link.startswith(f"/bench/{JOB}") or link.endswith("/again")}
    return found


def test_no_page_reads_back_what_it_shows_with_a_comma(client: TestClient, session: Session, web_clock: Clock) -> None:
    """Links and forms carry canonical texts, so that each page answers as in a shop that writes a point."""
    found = {}
    for name, do, hours in actions()[1:]:
        web_clock.wait(hours=hours)
        do(session)
        if name in ("cut", "finish"):
            found |= pages_from(client, f"/bench/{JOB}") | pages_from(client, f"/records/{JOB}/again")
    assert len(found) > 10
    assert {path: status for path, status in found.items() if status != 200} == {}
