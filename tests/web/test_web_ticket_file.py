"""The ticket of a job as a file: the page, the command and the JSON interface write the same one."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from benchwork import JOB
from cli_runs import clubwright
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.services.actions import bench
from clubwright.services.record.session import Session


def test_page_command_and_interface_write_the_same_file(
    tmp_path: Path, web_client: TestClient, web_session: Session, capsys: pytest.CaptureFixture[str]
) -> None:
    bench.note_reading(web_session, JOB, "swing_weight", "D1.3", stage="dry, no grip", instrument="swing scale")
    page = web_client.get(f"/tickets/{JOB}/ticket.toml").text
    told = web_client.get(f"/api/jobs/{JOB}/ticket").json()
    assert told["text"] == page
    assert told["document"] == tomllib.loads(page) == ticket_file_of(web_session.job(JOB))
    assert told["document"]["reading"][-1]["value"] == "D1.3"
    file = tmp_path / "t.toml"
    assert clubwright(capsys, "export", JOB, "--out", str(file), "--shop", str(tmp_path)).code == 0
    assert file.read_text(encoding="utf-8") == page
    assert clubwright(capsys, "export", JOB, "--shop", str(tmp_path), "--json").body() == told["document"]
    there = clubwright(capsys, "export", JOB, "--out", str(file), "--shop", str(tmp_path))
    assert (there.code, "is there already" in there.err) == (1, True), "a ticket is not written over"


def test_a_ticket_that_is_not_there_has_no_file(web_client: TestClient) -> None:
    assert web_client.get("/api/jobs/T-9999/ticket").status_code == 404
