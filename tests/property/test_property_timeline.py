"""Laws of the order of facts: causal first, clock second, and the same however the facts came together."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from clubwright.journal.chain import GENESIS, heads, seal, verify_chain
from clubwright.journal.facts import Fact, Place, RecordsMerged, StepDone
from clubwright.journal.order import in_order, merge, seen_by
from clubwright.journal.timeline import Timeline, believed

START = datetime(2026, 3, 2, 8, tzinfo=UTC)
WRONG = (datetime(2099, 1, 1, tzinfo=UTC), datetime(1971, 1, 1, tzinfo=UTC), datetime(2026, 2, 20, tzinfo=UTC))
SITES = ("barn", "shop", "van")


def stamp(time: datetime) -> str:
    return time.isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Benches:
    """Benches that write and merge, each with a clock that may be wrong for a while; what each had seen is noted apart."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.now = START
        self.wrong: dict[str, datetime | None] = dict.fromkeys(SITES)
        self.records: dict[str, dict[Place, Fact]] = {site: {} for site in SITES}
        self.before: dict[Place, set[Place]] = {}
        self.knows: dict[str, set[Place]] = {site: set() for site in SITES}

    def write(self, site: str, what: StepDone | RecordsMerged) -> None:
        self.now += timedelta(minutes=self.chance.choice((1, 7, 90)))
        mine = sorted(place for place in self.records[site] if place[0] == site)
        last = self.records[site][mine[-1]] if mine else None
        clock = self.wrong[site]
        at = self.now if clock is None else clock + (self.now - START)
        fact = seal(
            what,
            site=site,
            sequence=len(mine) + 1,
            at=stamp(at),
            by="Ann",
            typed="",
            key=f"{site} {len(mine) + 1}",
            previous_hash=GENESIS if last is None else last.hash,
        )
        self.before[fact.place] = set(self.knows[site])
        self.knows[site].add(fact.place)
        self.records[site][fact.place] = fact

    def go_on(self) -> None:
        site = self.chance.choice(SITES)
        roll = self.chance.random()
        if roll < 0.15:
            self.wrong[site] = self.chance.choice((None, *WRONG))
        elif roll < 0.35:
            other = self.chance.choice(SITES)
            self.records[site] |= self.records[other]
            self.knows[site] |= self.knows[other]
            seen = {of: head for of, head in heads(self.records[site].values()).items() if of != site}
            self.write(site, RecordsMerged(heads=seen))
        else:
            self.write(site, StepDone(job="T-1", step="pull"))


def histories(chance: random.Random) -> Benches:
    benches = Benches(chance)
    for _ in range(chance.randint(1, 40)):
        benches.go_on()
    return benches


@given(st.integers(0, 2**32 - 1).map(random.Random))
def test_nothing_comes_before_what_its_bench_had_seen(chance: random.Random) -> None:
    benches = histories(chance)
    union = {place: fact for record in benches.records.values() for place, fact in record.items()}
    listed = in_order(union.values())
    at = {fact.place: number for number, fact in enumerate(listed)}
    for place, seen in benches.before.items():
        assert all(at[each] < at[place] for each in seen)
    assert verify_chain(listed) == ()


@given(st.integers(0, 2**32 - 1).map(random.Random))
def test_the_order_is_the_same_however_the_records_came_together(chance: random.Random) -> None:
    benches = histories(chance)
    a, b, c = ([*record.values()] for record in benches.records.values())
    whole = merge(merge(a, b), c)
    assert whole == merge(c, merge(b, a)) == merge(merge(c, a), b)
    # learned bit by bit, as a record that is open learns it, in any order that keeps each bench's numbering
    timeline = Timeline()
    waiting = {site: [fact for fact in whole if fact.site == site] for site in SITES}
    while any(waiting.values()):
        site = chance.choice([site for site in SITES if waiting[site]])
        count = chance.randint(1, 4)
        some, waiting[site] = waiting[site][:count], waiting[site][count:]
        saw = {fact.place: seen for fact in some if (seen := seen_by(fact)) is not None}
        timeline.add([(fact.site, fact.sequence, fact.at) for fact in some], saw)
    assert in_order(whole, timeline.moments) == whole


@given(st.lists(st.integers(0, 9), max_size=9))
def test_as_many_times_are_believed_as_can_be(minutes: list[int]) -> None:
    """Held against all runs there are."""
    times = [f"2026-03-02T08:0{minute}" for minute in minutes]
    found = believed(times)
    kept = [time for time, is_kept in zip(times, found, strict=True) if is_kept]
    assert kept == sorted(kept)
    longest = next(
        size for size in range(len(times), -1, -1) if any(list(run) == sorted(run) for run in combinations(times, size))
    )
    assert len(kept) == longest


@given(
    wrong=st.sampled_from([WRONG[0], WRONG[1]]),
    first=st.integers(0, 4),
    broken=st.integers(1, 4),
    merged=st.booleans(),
)
def test_a_clock_that_once_stood_wrong_puts_nobody_last_or_first_for_good(
    wrong: datetime, first: int, broken: int, merged: bool
) -> None:
    """A van writes right, then wrong, then right again; a barn writes beside it all the while and never merges."""
    benches = Benches(random.Random(1))
    benches.now = START
    for index in range(first + broken + 12):
        benches.wrong["van"] = wrong if first <= index < first + broken else None
        benches.write("van", StepDone(job="T-1", step="pull"))
        benches.write("barn", StepDone(job="T-1", step="pull"))
        if merged and index == first + broken - 1:
            benches.records["shop"] |= benches.records["van"]
            seen = {of: head for of, head in heads(benches.records["shop"].values()).items() if of != "shop"}
            benches.write("shop", RecordsMerged(heads=seen))
            benches.write("shop", StepDone(job="T-1", step="pull"))
    facts = [fact for record in benches.records.values() for fact in record.values()]
    listed = in_order({fact.place: fact for fact in facts}.values())
    right = [fact for fact in listed if abs(datetime.fromisoformat(fact.at) - START) < timedelta(days=30)]
    after = [fact.at for fact in right if fact.site != "van" or fact.sequence > first + broken]
    assert after == sorted(after)
    if wrong.year < 2025 or broken < first + 12:
        assert [fact.at for fact in right] == sorted(fact.at for fact in right)
