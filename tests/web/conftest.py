"""The page on an own workshop: the invented wedge taken in, a clock that moves only when told, no network needed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from browsing import browser, make_tablet, served, tablet
from fastapi import FastAPI

from benchwork import Clock, document, session_on
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, TestClient, add_people

__all__ = ["browser", "make_tablet", "served", "tablet"]
"""Fixtures of a real browser."""


@pytest.fixture
def web_clock() -> Clock:
    return Clock()


@pytest.fixture
def web_session(tmp_path: Path, web_clock: Clock) -> Iterator[Session]:
    """A session on a SQLite record in the workshop's folder, with the wedge's ticket taken."""
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    found = session_on(Ledger(engine), web_clock, site="bench", by="bench")
    bench.take_ticket(found, document(), "wedge-54.toml")
    yield found
    engine.dispose()


@pytest.fixture
def web_app(tmp_path: Path, web_session: Session) -> FastAPI:
    """The page as it is served on loopback."""
    return create_app(WebSettings(shop=str(tmp_path)), web_session)


@pytest.fixture
def web_client(web_app: FastAPI) -> Iterator[TestClient]:
    """A browser at the bench itself."""
    with TestClient(web_app, base_url=LOOPBACK, follow_redirects=False) as client:
        yield client


@pytest.fixture
def open_app(tmp_path: Path, web_session: Session) -> FastAPI:
    """The page opened to the network, with one person of each role."""
    add_people(tmp_path)
    return create_app(WebSettings(shop=str(tmp_path), open_network=True), web_session)
