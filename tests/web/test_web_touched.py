"""Which clubs has this gauge read? The command, `/api` and Python answer alike, and what was undone does not count."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from benchwork import JOB
from cli_runs import clubwright
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.record.touched import touched_by
from webclient import TestClient

OTHER = "T-0090"
GAUGE = "gram scale"


@pytest.fixture
def read(web_session: Session) -> None:
    """Two clubs are read on one gauge; the reading of the second is undone."""
    document = {
        "ticket": {"id": OTHER, "kind": "iron", "hand": "left", "player": "Mara Quill", "label": "7 iron"},
        "instrument": {GAUGE: {"resolution": "0.1 g"}},
    }
    bench.take_ticket(web_session, document, "t")
    for value in ("465.4 g", "465.5 g"):
        bench.note_reading(web_session, JOB, "total_weight", value, stage="dry, gripped", instrument=GAUGE)
    bench.note_reading(web_session, OTHER, "total_weight", "420 g", stage="finished", instrument=GAUGE)
    bench.undo(web_session, OTHER, web_session.job(OTHER).last_standing_line().sequence, "read the wrong club")


def test_command_api_and_python_answer_alike(
    read: None, web_client: TestClient, web_session: Session, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = touched_by(web_session, {"gauge": " Gram Scale"})
    assert [(item.job, item.facts) for item in found] == [(JOB, 2)]
    answer = web_client.get("/api/touched", params={"gauge": GAUGE})
    assert answer.json() == msgspec.to_builtins(found)
    ran = clubwright(capsys, "touched", "--gauge", GAUGE, "--shop", str(tmp_path), "--json")
    assert ran.body() == answer.json()
    said = clubwright(capsys, "touched", "--player", "Mara Quill", "--shop", str(tmp_path)).out
    assert OTHER in said
    assert JOB not in said
    assert "No job" in clubwright(capsys, "touched", "--lot", "lot 99", "--shop", str(tmp_path)).out


@pytest.mark.parametrize("given", [{}, {"gauge": GAUGE, "lot": "lot 7"}, {"gauge": "  "}])
def test_one_thing_is_asked_for_at_a_time(read: None, web_client: TestClient, given: dict[str, str]) -> None:
    answer = web_client.get("/api/touched", params=given)
    assert answer.status_code == 422
    assert "gauge, lot, part, person, player" in answer.text


def test_a_rebuild_leaves_the_facts_as_they_are(
    read: None, web_session: Session, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = web_session.ledger.facts()
    assert clubwright(capsys, "rebuild", "--shop", str(tmp_path), "--json").body() == {"jobs": 2}
    assert web_session.ledger.facts() == before
    assert clubwright(capsys, "verify", "--shop", str(tmp_path)).code == 0
