"""One broken subject leaves every list up: each page and each part of /api that is about no one job opens beside it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI

from benchwork import JOB, Clock, document, session_on
from cli_runs import clubwright
from clubwright.bootstrap import RECORD
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, TestClient

OTHER = "T-0090"
ASKS = {"/api/touched": "?player=Mara+Quill", "/live": None}
"""What an address has to be asked with; None for what is listened to."""


def lists(app: FastAPI) -> list[str]:
    """Every address that is read and names no one job."""
    found, waiting = set(), list(app.routes)
    while waiting:
        route = waiting.pop()
        inner = getattr(route, "original_router", None) or getattr(route, "router", None)
        waiting += list(getattr(inner, "routes", []))
        path = getattr(route, "path", "{")
        if "GET" in (getattr(route, "methods", None) or ()) and "{" not in path:
            found.add(path if path.startswith("/") and ASKS.get(path) is None else path + str(ASKS[path]))
    return sorted(found - {path for path, ask in ASKS.items() if ask is None})


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{tmp_path / RECORD}")
    migrate(engine)
    session = session_on(Ledger(engine), Clock(), site="bench", by="bench")
    bench.take_ticket(session, document(), "t")
    other = {
        "ticket": {"id": OTHER, "kind": "iron", "hand": "left", "player": "Mara Quill", "label": "7 iron"},
        "head": {"hand": "left"},
    }
    bench.take_ticket(session, other, "t")
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")
    bench.change_part(session, JOB, "head", {"mass": "296.1 g"})
    yield session
    engine.dispose()


COMMANDS = ("jobs", "mixes", "minutes")
"""Commands that list what is in the record."""

BROKEN = {
    "a figure that was changed": "UPDATE fact SET what = replace(what, '296.1', '286.1') WHERE sequence = 4",
    "content that is no JSON": "UPDATE fact SET what = 'x' WHERE sequence = 4",
    "its ticket is gone from it": "UPDATE fact SET what = 'x' WHERE sequence = 1",
}


@pytest.mark.parametrize("how", BROKEN)
def test_one_broken_job_leaves_every_list_up(
    shop: Session, tmp_path: Path, capsys: pytest.CaptureFixture[str], how: str
) -> None:
    connection = sqlite3.connect(tmp_path / RECORD)
    for trigger in ("update", "delete", "gap"):
        connection.execute(f"DROP TRIGGER fact_no_{trigger}")
    connection.execute(BROKEN[how])
    connection.commit()
    connection.close()
    app = create_app(WebSettings(shop=str(tmp_path)), shop)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as client:
        answers = {path: client.get(path) for path in lists(app)}
        assert {path: answer.status_code for path, answer in answers.items() if answer.status_code >= 400} == {}
        assert OTHER in answers["/tickets"].text
        assert client.get(f"/bench/{OTHER}").status_code == 200
        assert {"/tickets", "/records", "/tickets/new", "/api/jobs", "/api/mixes"} <= set(answers)
    for command in COMMANDS:
        ran = clubwright(capsys, command, "--shop", str(tmp_path))
        assert ran.code == 0, (command, ran.err)
        assert OTHER in ran.out or "lot 7" in ran.out or command == "mixes", command
