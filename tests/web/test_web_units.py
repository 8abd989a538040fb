"""Units shown first on the pages; what is sent and kept, and the interface for programs, stay as they are."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import NO_SETTINGS, read_shop
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from shopwork import completed_example
from webclient import LOOPBACK, TestClient

EXAMPLE = Path(__file__).parents[2] / "examples" / "wedge-54.toml"
SETTINGS = {"mm": read_shop({"units": {"length": "mm"}}), "": NO_SETTINGS}


@pytest.fixture(params=["mm", ""])
def unit(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def client(web_session: Session, unit: str, tmp_path: Path) -> Iterator[TestClient]:
    session = msgspec.structs.replace(web_session, settings=lambda: SETTINGS[unit])
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    app = create_app(WebSettings(shop=str(tmp_path)), session)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as found:
        yield found


def test_the_cut_card_leads_with_it_and_the_interface_does_not(
    client: TestClient, web_session: Session, unit: str
) -> None:
    job = next(iter(web_session.shop().jobs))
    page = client.get(f"/bench/{job}?step=mark+and+cut").text
    big = [part.split("</span>")[0].rpartition(">")[2] for part in page.split('class="big-number')[1:]]
    assert len(big) == 2
    assert [text.endswith(" mm") for text in big] == [unit == "mm"] * 2
    assert " mm (" not in client.get(f"/api/jobs/{job}/plan").text
    assert client.get(f"/records/{job}/sheet.pdf").status_code == 200
