"""What somebody worked in the demo is never thrown away without asking, and what its page promises lies ahead."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from clubwright.bootstrap import RECORD, open_session
from clubwright.cli.demo import TICKET, DemoClock, demo_session, make_room, take_waiting, worked_in
from clubwright.cli.demo_page import make_demo
from clubwright.errors import NotPossible
from clubwright.services.actions import bench
from clubwright.services.jobs.job_list import waiting


def demo_in(folder: Path) -> None:
    make_room(folder)
    with open_session(str(folder), by="bench") as real:
        take_waiting(demo_session(real, DemoClock()))


def test_an_untouched_demo_is_made_anew(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    demo_in(folder)
    assert not worked_in(folder)
    make_room(folder)
    assert not (folder / RECORD).exists()


def test_a_demo_that_somebody_worked_in_stays_until_that_is_said(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    demo_in(folder)
    with open_session(str(folder), by="bench") as session:
        bench.change_part(session, "T-0109", "head", {"hand": "left"})
        before = session.ledger.count()
    assert worked_in(folder)
    with pytest.raises(NotPossible, match=r"somebody has worked in the demo .*--anew"):
        make_room(folder)
    with open_session(str(folder), by="bench") as session:
        assert session.ledger.count() == before
    make_room(folder, anew=True)
    assert (folder / TICKET).exists()
    assert not (folder / RECORD).exists()


def test_what_the_served_demo_promises_is_still_to_come(tmp_path: Path) -> None:
    now = datetime(2031, 7, 3, 9, 0, tzinfo=UTC)
    make_room(tmp_path / "demo")
    with open_session(str(tmp_path / "demo"), by="bench", now=lambda: now) as session:
        make_demo(session)
        facts = session.ledger.facts()
        assert now - timedelta(hours=24) <= datetime.fromisoformat(facts[0].at)
        assert datetime.fromisoformat(facts[-1].at) <= now
        for hours, late in ((0, False), (14, False), (72, True)):
            rows = waiting(session.shop().jobs.values(), now + timedelta(hours=hours))
            said = [row for row in rows if row.promised]
            assert len(said) >= 2
            assert any(row.late for row in said) is late
