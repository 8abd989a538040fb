"""Commands on clubs that outlive their jobs: take with --club, the next job, the list, and two jobs on one club."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.bootstrap import open_session
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.actions import bench

WORDS = {"kind": "iron", "hand": "right"}


def workshop(folder: Path) -> str:
    """A record with one closed job and one open one, of invented clubs."""
    with open_session(str(folder), by="Ann") as session:
        for number in ("T-1", "T-9"):
            bench.take_ticket(
                session, {"ticket": {**WORDS, "id": number, "job": "weight"}, "head": {"mass": "262 g"}}, "first"
            )
        bench.finish(session, "T-1")
    return str(folder)


def test_the_next_job_of_a_club_by_command(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    shop = workshop(tmp_path / "shop")
    file = tmp_path / "again.toml"
    file.write_text(dump_ticket({"ticket": {"id": "T-2", "job": "regrip"}, "grip": {"mass": "52 g"}}), encoding="utf-8")
    assert clubwright(capsys, "take", str(file), "--shop", shop).code == 2, "it does not say which club"
    assert clubwright(capsys, "take", str(file), "--club", "T-1", "--shop", shop).code == 0
    found = clubwright(capsys, "club", "T-2", "--shop", shop, "--json").body()
    assert found["club"] == {"site": "bench", "sequence": 1}, "the fact that took its first job in"
    rows = found["jobs"]
    assert [(row["job"], row["work"], row["state"]) for row in rows] == [
        ("T-1", "weight", "closed"),
        ("T-2", "regrip", "open"),
    ]
    assert "regrip" in clubwright(capsys, "club", "T-1", "--shop", shop).out
    with open_session(shop, by="Ann") as session:
        bench.finish(session, "T-2")
    assert clubwright(capsys, "work-again", "T-1", "T-3", "weight", "--shop", shop).code == 0
    with open_session(shop, by="Ann") as session:
        assert session.job("T-3").document["grip"] == {"mass": "52 g"}, "the club as its last job left it"


def test_two_jobs_on_one_club_by_command(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    shop = workshop(tmp_path / "shop")
    assert clubwright(capsys, "same-club", "T-9", "T-1", "--reason", "its serial", "--shop", shop).code == 0
    assert len(clubwright(capsys, "club", "T-1", "--shop", shop, "--json").body()["jobs"]) == 2
    assert clubwright(capsys, "same-club", "T-9", "T-1", "--reason", "its serial", "--shop", shop).code == 2
