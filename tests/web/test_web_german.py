"""A shop that says `language = "de"` reads its cards in German, with a decimal comma; what programs get stays English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import read_shop
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from shopwork import completed_example
from webclient import LOOPBACK, TestClient

EXAMPLE = Path(__file__).parents[2] / "examples" / "wedge-54.toml"
GERMAN = read_shop({"units": {"language": "de", "decimal": "comma"}})


@pytest.fixture
def client(web_session: Session, tmp_path: Path) -> Iterator[TestClient]:
    session = msgspec.structs.replace(web_session, settings=lambda: GERMAN)
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    app = create_app(WebSettings(shop=str(tmp_path)), session)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as found:
        yield found


def test_the_cards_are_german_and_the_answer_is_not(client: TestClient, web_session: Session) -> None:
    job = next(iter(web_session.shop().jobs))
    card = client.get(f"/bench/{job}", params={"step": "mark and cut"}).text
    assert "Anzeichnen, prüfen und am Griffende schneiden" in card
    assert "Augen- und Gehörschutz tragen; die Schutzhaube der Trennscheibe bleibt daran." in card
    assert re.search(r"Marke, ab der Spitze.{1,200}?\d\d,\d\d\d in", card, re.DOTALL)
    assert "Wear eye and ear protection" not in card
    answer = client.get(f"/api/jobs/{job}/plan").text
    assert "Mark, check, and cut the butt" in answer and "Anzeichnen" not in answer
    assert re.search(r"\d\d\.\d\d\d in", answer)
