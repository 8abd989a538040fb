"""Minutes of operations on the bench page, the list of tickets and `/api`: the same sums as by command and Python."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest

from clubwright.services.actions import bench
from clubwright.services.jobs.minutes import job_times_part, open_times, open_times_part, times_now, times_text
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import read_shop
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from shopwork import shop, ticket
from webclient import LOOPBACK, TestClient


@pytest.fixture
def at(web_session: Session) -> Session:
    settings = read_shop({**shop(), "minutes": {"weigh": "41 min"}})
    return msgspec.structs.replace(web_session, settings=lambda: settings)


@pytest.fixture
def client(at: Session, tmp_path: Path) -> Iterator[TestClient]:
    with TestClient(
        create_app(WebSettings(shop=str(tmp_path)), at), base_url=LOOPBACK, follow_redirects=False
    ) as found:
        yield found


def test_page_list_and_interface_say_what_is_left(client: TestClient, at: Session) -> None:
    bench.take_ticket(at, ticket(head={"hand": "right"}), "T.toml")
    left = times_now(at, "T-0301").left
    page = client.get("/bench/T-0301").text
    assert f">{times_text(left)} left</a>" in page
    assert ">41 min</a>" in page
    assert f"{times_text(left)} left" in client.get("/tickets").text
    assert client.get("/api/jobs/T-0301/minutes").json() == job_times_part(times_now(at, "T-0301")).plain()
    assert client.get("/api/minutes").json() == open_times_part(open_times(at)).plain()
    assert client.get("/api/jobs/T-0999/minutes").status_code == 404


def test_the_plan_as_plain_data_has_no_minutes(client: TestClient, at: Session) -> None:
    bench.take_ticket(at, ticket(), "T.toml")
    assert "41 min" not in client.get("/api/jobs/T-0301/plan").text
