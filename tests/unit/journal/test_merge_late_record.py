"""Honest benches are taken in though a record that is older by its clock came to them late, and numbers came back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from benchwork import Clock, session_on
from closingwork import GRIP, WEIGHT, take
from clubwright.errors import InputError
from clubwright.journal.facts import Fact, Finished, PartChanged, TicketTaken
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from forging import forged, record_at

JOB = "T-9"


class Benches:
    """Benches by name, each with a record of its own, or one that is named."""

    def __init__(self, folder: Path, stack: ExitStack) -> None:
        self._folder, self._stack, self.clock = folder, stack, Clock()

    def at(self, site: str, beside: Session | None = None) -> Session:
        ledger = self._stack.enter_context(record_at(self._folder / site)) if beside is None else beside.ledger
        return session_on(ledger, self.clock, site=site)


@pytest.fixture
def benches(tmp_path: Path) -> Iterator[Benches]:
    with ExitStack() as stack:
        yield Benches(tmp_path, stack)


def ended_elsewhere(benches: Benches) -> tuple[list[Fact], list[Fact]]:
    """Return a job of a bench away when it was just taken, and with its end; the clock goes on a day."""
    away = benches.at("away")
    take(away, WEIGHT)
    early = away.ledger.facts()
    subject = early[0].place
    at = early[0].at
    away.ledger.append(
        "away", [Finished(job=JOB, subject=subject, shown={})], by="Cy", at=at, typed="finished", key="end"
    )
    benches.clock.wait(days=1)
    return early, away.ledger.facts()


def test_work_done_before_the_end_came_in_is_taken_in_by_a_third_bench(benches: Benches) -> None:
    """What it follows was written after that end by the clock: a merge says that the end was not seen."""
    early, whole = ended_elsewhere(benches)
    shed, van, shop = (benches.at(site) for site in ("shed", "van", "shop"))
    take_in(shed, early)
    step = bench.do_step(shed, JOB, "weigh", skipped="no time")
    take_in(van, shed.ledger.facts())
    bench.undo(van, JOB, step.sequence, site="shed")
    bench.change_part(van, JOB, "head", {"mass": "261 g"})
    take_in(van, whole)
    assert take_in(shop, van.ledger.facts()).new == van.ledger.count()
    assert shop.job(JOB).document == van.job(JOB).document


def test_so_is_the_work_of_a_bench_that_writes_into_one_record_with_another(benches: Benches) -> None:
    """It merged nothing itself: only the other one did, and its merges say nothing of what this one saw."""
    early, whole = ended_elsewhere(benches)
    shed, shop = benches.at("shed"), benches.at("shop")
    van = benches.at("van", beside=shed)
    take_in(shed, early)
    step = bench.do_step(shed, JOB, "weigh", skipped="no time")
    benches.clock.wait(minutes=1)
    bench.undo(van, JOB, step.sequence, site="shed")
    bench.change_part(van, JOB, "head", {"mass": "261 g"})
    take_in(shed, whole)
    assert take_in(shop, shed.ledger.facts()).new == shed.ledger.count()


def test_what_nobody_can_have_done_is_still_refused(benches: Benches) -> None:
    """The end stood already at the bench that wrote after it: so its merge says."""
    _, whole = ended_elsewhere(benches)
    shed, shop = benches.at("shed"), benches.at("shop")
    take_in(shed, whole)
    facts = shed.ledger.facts()
    after = PartChanged(job=JOB, subject=("away", 1), section="head", values={"mass": "261 g"})
    with pytest.raises(InputError, match="job T-9 is finished"):
        take_in(shop, [*facts, forged(facts, after, site="shed")])


def test_a_number_that_came_back_to_a_ticket_is_on_two_of_a_bench_and_taken_in(benches: Benches) -> None:
    """Undone, a new number is free, and given away; the undo is undone: both are told apart, here and elsewhere."""
    van, shop = benches.at("van"), benches.at("shop")
    take(van, WEIGHT)
    bench.renumber(van, JOB, "T-8")
    out = bench.undo(van, JOB)
    take(van, GRIP)
    bench.undo(van, JOB, out.sequence)
    assert set(van.shop().jobs) == {"T-8@van:1", "T-8@van:4"}
    take_in(shop, van.ledger.facts())
    assert set(shop.shop().jobs) == set(van.shop().jobs)


def test_a_number_that_another_bench_made_free_is_given_away_again_and_taken_in(benches: Benches) -> None:
    van, shed, shop = (benches.at(site) for site in ("van", "shed", "shop"))
    take(van, WEIGHT)
    bench.renumber(van, JOB, "T-8")
    take_in(shed, van.ledger.facts())
    bench.undo(shed, JOB, 2, site="van")
    take_in(van, shed.ledger.facts())
    take(van, GRIP)
    assert set(van.shop().jobs) == {JOB, "T-8"}
    take_in(shop, van.ledger.facts())
    assert set(shop.shop().jobs) == {JOB, "T-8"}


def test_two_tickets_that_a_bench_never_can_have_called_the_same_are_refused(benches: Benches) -> None:
    van, shop = benches.at("van"), benches.at("shop")
    take(van, WEIGHT)
    facts = van.ledger.facts()
    again = forged(facts, TicketTaken(job=JOB, document=dict(WEIGHT), source="small.toml"))
    with pytest.raises(InputError, match="two tickets are called so at one bench"):
        take_in(shop, [*facts, again])
