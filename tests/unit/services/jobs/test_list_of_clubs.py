"""The list of jobs says what a job waits for also where that changed with another job on its club."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from benchwork import Clock, session_on
from clubwright.services.actions import bench
from clubwright.services.jobs.job_list import JobStatuses
from clubwright.services.record.job_lines import line_of
from forging import record_at

FIRST: dict[str, Any] = {
    "ticket": {"kind": "iron", "hand": "right", "id": "T-1", "job": "weight", "player": "I. Nvented"},
    "head": {"mass": "262 g", "bore_to_ground": "28 mm", "bore_depth": "32 mm", "lie": "62 deg", "loft": "30 deg"},
    "shaft": {"cut_length": "910 mm", "cut_mass": "110 g"},
    "grip": {"mass": "50 g", "cap": "3 mm"},
}


def again(number: str) -> dict[str, Any]:
    return {
        "ticket": {"id": number, "job": "reshaft", "club": "T-1"},
        "target": {"length": "940 mm"},
        "shaft": {"raw_length": "1000 mm", "mass": "112 g"},
        "grip": {"mass": "52 g", "cap": "3 mm"},
    }


def test_a_job_waits_for_all_other_open_jobs_on_its_club_and_no_longer_for_one_that_is_gone(tmp_path: Path) -> None:
    with record_at(tmp_path / "shop") as ledger:

        def waits() -> str:
            standing, listed = standings.of(session.job("T-2"), session.now()), line_of(session.job("T-2"))
            assert lines.of(listed, session.now(), session.job) == standing, "by its line in the index alike"
            return standing.waits

        session = session_on(ledger, Clock(), site="shop")
        bench.take_ticket(session, FIRST, "first")
        bench.finish(session, "T-1")
        bench.take_ticket(session, again("T-2"), "second")
        bench.take_ticket(session, again("T-3"), "third")
        standings, lines = JobStatuses(), JobStatuses()
        assert "another open job too (T-3)" in waits()
        # the fourth is kept beside the third, so nothing is written on the second
        taken = bench.take_ticket(session, again("T-4"), "fourth")
        assert "another open job too (T-3 and T-4)" in waits()
        bench.undo(session, "T-4", taken.sequence, "another club")
        assert "another open job too (T-3)" in waits()
