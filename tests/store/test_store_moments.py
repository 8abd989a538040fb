"""A record that grows stays as quick: what was learned of its order is kept, and only a job's own facts are read."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, document, session_on
from clubwright.journal.facts import StepDone, TicketTaken
from clubwright.services.actions import bench
from clubwright.store import reading
from clubwright.store.ledger import Ledger
from clubwright.store.rows import judged

HOURS = (8, 12, 9, 10, 7, 11)
"""The van's clock steps back and forth; the shop's is right."""


def test_the_order_learned_bit_by_bit_is_that_of_the_whole_record(ledger: Ledger):
    other = Ledger(ledger.engine)  # a second program on the same record
    for number, hour in enumerate(HOURS):
        at = f"2026-03-02T{hour:02d}:00:00.000Z"
        job = f"T-{number % 2}"
        what = TicketTaken(job=job, document={}, source="") if number < 2 else StepDone(job=job, step=str(number))
        writer, site = ((ledger, "van"), (other, "shop"))[number % 3 == 2]
        writer.append(site, [what], by="Ann", at=at, typed="", key=str(number))
        for job in ("T-0", "T-1"):
            fresh = [fact.place for fact in Ledger(ledger.engine).facts() if fact.what.job == job]
            assert [fact.place for fact in ledger.facts(job)] == fresh
            assert [fact.place for fact in other.facts(job)] == fresh


def test_the_last_number_is_the_sites_own(ledger: Ledger):
    assert ledger.last("van") == 0
    what = TicketTaken(job="T-1", document={}, source="")
    ledger.append(
        "van", [what, StepDone(job="T-1", step="pull")], by="Ann", at="2026-03-02T08:00:00Z", typed="", key="a"
    )
    assert (ledger.last("van"), ledger.last("shop")) == (2, 0)


def test_a_reading_reads_no_fact_of_another_job(ledger: Ledger, monkeypatch: pytest.MonkeyPatch):
    session = session_on(ledger, Clock())
    bench.take_ticket(session, document(), "wedge-54.toml")
    others = [StepDone(job="T-9", step="pull")] * 50
    ledger.append("van", others, by="Ann", at="2026-03-02T08:00:00Z", typed="", key="others")
    read = []
    monkeypatch.setattr(reading, "judged", lambda row: read.append(row["job"]) or judged(row))
    bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", instrument="swing scale")
    assert set(read) == {JOB}
