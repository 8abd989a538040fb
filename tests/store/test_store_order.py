"""Where each fact stands in the order of all is kept beside it: no look at a record reads every fact to know it."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import text

from clubwright.journal.facts import Fact, StepDone, TicketTaken
from clubwright.journal.order import in_order
from clubwright.journal.timeline import NO_END, Timeline, going_on
from clubwright.services.record.ledger import Merger
from clubwright.services.record.search import Search
from clubwright.store.index import order
from clubwright.store.index.moments import Moments
from clubwright.store.ledger import Ledger

CLOCKS = ("2026-03-02T08:", "2026-03-02T09:", "2099-01-01T08:", "1971-01-01T08:")
SITES = ("house", "van")


def written(ledger: Ledger, site: str, number: int, hour: str, job: str = "T-0001") -> list[Fact]:
    what = (
        TicketTaken(job=job, document={"ticket": {"id": job}}, source="t")
        if number == 1
        else StepDone(job=job, step="x")
    )
    return ledger.append(site, [what], by="Ann", at=f"{hour}{number:02d}:00.000Z", typed="", key=f"{site}-{number}")


def begun(ledger: Ledger) -> Ledger:
    """Write a few facts, let the index be made, and return the record as a program sees it that starts now."""
    for number in range(1, 5):
        written(ledger, "house", number, CLOCKS[0])
    with ledger.index() as index:
        assert index is not None
    return Ledger(ledger.engine)


def test_after_a_start_nothing_is_read_of_every_fact(ledger: Ledger, monkeypatch: pytest.MonkeyPatch) -> None:
    started = begun(ledger)

    def never(*_: object) -> None:
        raise AssertionError("every fact was read")

    monkeypatch.setattr(Moments, "of", never)
    monkeypatch.setattr(Timeline, "add", never)
    with started.index() as index:
        assert index is not None
        assert [line.id for line in index.lines(Search())[0]] == ["T-0001"]
    assert [fact.sequence for fact in started.facts("T-0001")] == [1, 2, 3, 4]
    assert [fact.sequence for fact in started.facts(kinds=("step done",))] == [2, 3, 4]
    written(started, "house", 5, CLOCKS[0])
    (last,) = written(started, "van", 1, CLOCKS[1], "T-0002")
    assert started.last_hash() == last.hash
    assert [fact.sequence for fact in started.facts("T-0001")] == [1, 2, 3, 4, 5]


@pytest.mark.parametrize("seed", range(4))
def test_the_places_that_are_kept_are_those_of_all_facts(ledger: Ledger, seed: int) -> None:
    """Benches write with clocks that go wrong and are set right, and see one another's facts by merges."""
    chance, last = random.Random(seed), dict.fromkeys(SITES, 0)
    begun(ledger)
    last["house"] = 4
    for number in range(14):
        site, other = chance.sample(SITES, 2)
        if chance.random() < 0.25 and last[site]:
            copy = ledger.facts()
            merger = Merger(site=site, by="Ann", at=f"{chance.choice(CLOCKS)}50:00.000Z", key=f"merge-{number}")
            received = stranger(copy, number)
            assert ledger.receive(received, merger) == 1
            last[site] += 1
        else:
            last[site] += 1
            what = StepDone(job=f"T-{other}", step="x")
            at = f"{chance.choice(CLOCKS)}{number:02d}:00.000Z"
            ledger.append(site, [what], by="Ann", at=at, typed="", key=f"{number}")
        facts = ledger.facts()
        assert facts == in_order(facts)
        assert ledger.verify() == ()
        for job in ("T-0001", "T-house", "T-van"):
            assert Ledger(ledger.engine).facts(job) == [fact for fact in facts if fact.what.job == job]
        with ledger.engine.connect() as connection:  # by the transactions themselves, and not by whoever asked
            assert connection.execute(text("SELECT count(*) FROM index_fact")).scalar_one() == len(facts)


def stranger(facts: list[Fact], number: int) -> list[Fact]:
    """Return a record with one fact more, of a bench of its own."""
    from clubwright.journal.chain import GENESIS, seal

    made = {"site": f"barn {number}", "sequence": 1, "at": f"{CLOCKS[number % 3]}30:00.000Z", "by": "Bo", "typed": ""}
    return [*facts, seal(StepDone(job="T-0001", step="x"), key=f"barn {number}", previous_hash=GENESIS, **made)]


@pytest.mark.parametrize("column", ["time = '2020'", "level = 9", "kind = 'glued'"])
def test_verify_does_not_believe_the_places_and_no_bench_is_put_in_another_order(ledger: Ledger, column: str) -> None:
    begun(ledger)
    facts = ledger.facts()
    assert ledger.verify() == ()
    with ledger.engine.begin() as connection:
        connection.execute(text(f"UPDATE index_fact SET {column} WHERE sequence = 3"))
    assert [finding.where for finding in ledger.verify()] == ["index of jobs"]
    if ledger.engine.dialect.name == "sqlite":
        assert Ledger(ledger.engine).facts("T-0001") == facts
    ledger.rebuild()
    assert ledger.verify() == ()
    assert Ledger(ledger.engine).facts("T-0001") == facts


def test_a_fact_that_its_place_no_longer_names_is_not_passed_over(ledger: Ledger) -> None:
    if ledger.engine.dialect.name != "sqlite":
        pytest.skip("only SQLite's own indexes are held against ours")
    begun(ledger)
    facts = ledger.facts()
    with ledger.engine.begin() as connection:
        connection.execute(text("DELETE FROM index_fact WHERE sequence = 2"))
    assert Ledger(ledger.engine).facts("T-0001") == facts


@given(st.integers(0, 2**32 - 1).map(random.Random))
def test_what_goes_on_gets_the_moments_that_all_facts_give_it(chance: random.Random) -> None:
    def rows(start: dict[str, int], count: int) -> list[tuple[str, int, str]]:
        found = []
        for _ in range(count):
            site = chance.choice(SITES)
            start[site] = start.get(site, 0) + 1
            found.append((site, start[site], f"{chance.choice(CLOCKS)}{chance.randrange(60):02d}:00.000Z"))
        return found

    last: dict[str, int] = {}
    before, whole = Timeline(), Timeline()
    there = rows(last, chance.randrange(6))
    saw = {(site, number): {"van": chance.randrange(4)} for site, number, _ in there if site == "house" and number == 1}
    new = rows(last, chance.randrange(1, 3))
    before.add(there, saw)
    whole.add([*there, *new], saw)
    seen = {site: max([0, *(heads.get(site, 0) for heads in saw.values())]) for site in SITES}
    starts = {site: NO_END._replace(seen_to=seen[site]) for site in SITES}
    after = going_on({**starts, **before.ends()}, new)
    if after is None:
        return
    ends = whole.ends()
    assert {site: ends[site] for site in after} == after
    assert {place: whole.moments[place] for place in before.moments} == before.moments
    for site, number, at in new:
        assert whole.moments[(site, number)] == (at.removesuffix("Z"), after[site].moment[1])


def test_a_bench_whose_clock_runs_on_finds_nothing_anew(ledger: Ledger, monkeypatch: pytest.MonkeyPatch) -> None:
    started = begun(ledger)
    worked: list[int] = []
    add = Timeline.add
    monkeypatch.setattr(order.Timeline, "add", lambda self, *what: worked.append(1) or add(self, *what))
    written(started, "house", 5, CLOCKS[1])
    assert worked == []
    written(started, "house", 6, CLOCKS[0])
    assert worked == [1]
