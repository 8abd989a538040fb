"""What is accepted by name is what the person saw: its mark stands in the answer, and every way in refuses an older one."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from test_actions_law import prepared, session_in

from actionwork import CASES, WAYS
from benchwork import JOB, Clock
from cli_runs import clubwright
from clubwright.api.shop import Shop
from clubwright.errors import RecordError
from clubwright.services.actions import bench
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, TestClient

pytestmark = pytest.mark.usefixtures("played")
SEEN = {"quantity": "length", "name": "R. Ashdown", "reason": "measured by him"}


def length_in(told: dict[str, Any]) -> str:
    return next(row["mark"] for row in told["closing"] if row["quantity"] == "length")


def test_an_acceptance_holds_only_for_what_was_seen(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = Clock()
    prepared(tmp_path / "before", CASES["accept"], clock)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)

    def api(folder: Path, given: dict[str, Any]) -> tuple[str, Any]:
        with session_in(folder, clock) as session:
            app = create_app(WebSettings(shop=str(folder)), session)
            with TestClient(app, base_url=LOOPBACK) as client:
                mark = length_in(client.get(f"/api/jobs/{JOB}").json())
                sent, headers = (
                    {**given, "shown": given.get("shown", mark)},
                    {"X-Clubwright": "1", "Idempotency-Key": "a"},
                )
                answer = client.post(f"/api/jobs/{JOB}/acceptances", json=sent, headers=headers)
        return mark, "" if answer.status_code == 201 else answer.text

    def python(folder: Path, given: dict[str, Any]) -> tuple[str, Any]:
        with Shop(folder, by="bench", site="bench", now=clock) as shop:
            mark = next(row.mark for row in shop.closing(JOB) if row.quantity == "length")
            try:
                shop.accept(JOB, **{**given, "shown": given.get("shown", mark)})
            except RecordError as refused:
                return mark, str(refused)
        return mark, ""

    def command(folder: Path, given: dict[str, Any]) -> tuple[str, Any]:
        at = ("--shop", str(folder))
        told = json.loads(clubwright(capsys, "show", JOB, *at, "--json").out)
        mark = length_in(told)
        words = ("accept", JOB, "length", "--by", "R. Ashdown", "--reason", "measured by him")
        ran = clubwright(capsys, *words, "--shown", given.get("shown", mark), *at)
        return mark, ran.err

    assert len(WAYS) == 4, "the page is tried in its own tests"
    marks = set()
    for name, way in {"api": api, "python": python, "command": command}.items():
        old, new = tmp_path / f"{name}-old", tmp_path / f"{name}-new"
        for folder in (old, new):
            shutil.copytree(tmp_path / "before", folder)
        mark, refused = way(new, SEEN)
        assert refused == "", f"{name}: {refused}"
        marks.add(mark)
        with session_in(old, clock) as session:
            bench.note_reading(session, JOB, "length", "35.6 in", instrument="rule")
        moved, refused = way(old, {**SEEN, "shown": mark})
        assert moved != mark
        assert "Length stands otherwise now" in refused or "length stands otherwise now" in refused, (
            f"{name}: {refused}"
        )
        with session_in(old, clock) as session:
            assert session.job(JOB).accepted == {}
    assert len(marks) == 1, "one club, one mark, whoever looks"
