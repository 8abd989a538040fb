"""Simulated shops: every law holds in a few of them here, in hundreds by `make simulate`; and a run tried what it had to."""

from __future__ import annotations

from collections import Counter

import msgspec
import pytest
from breaking import LawBroken
from clock import JUMPS
from disk import Disk, DiskFull
from hands import PHASES, History, drawn
from playing import play
from power import phases_of
from run import MANY, WANTED, WANTED_OF_MANY, played_twice, simulate, unvisited
from shop import Shop, empty_record
from sqlite_on_disk import RECORD
from tickets import ticket

from clubwright.errors import RecordError
from clubwright.services.actions import bench as actions
from clubwright.services.recording.merging import take_in
from journal_facts import TICKET, chained
from laws import survived, what_was_seen_comes_first

SEEDS = 4
"""A handful: `make simulate` plays hundreds."""


def test_every_law_holds() -> None:
    seen, broken = simulate(range(SEEDS), workers=2)
    assert {seed: report.broken for seed, report in broken.items()} == {}
    assert sum(seen[f"cut {phase}"] for phase in PHASES) >= 2 * SEEDS
    assert (
        min(seen[what] for what in ("TicketTaken", "StepDone", "Undone", "PartChanged", "merge", "somebody in between"))
        > 0
    )


def test_a_seed_has_enough_in_it() -> None:
    histories = [drawn(seed) for seed in range(300)]
    for history in histories:
        verbs = Counter(action.do for action in history.actions)
        assert len(history.actions) >= 50
        assert sum(action.cut is not None for action in history.actions) >= 2
        assert verbs["merge"] >= 2
        keys = [action.key for action in history.actions]
        assert len(set(keys)) == len(keys)
    assert {history.benches for history in histories} == {1, 2, 3, 4}
    cuts = [action.cut for history in histories for action in history.actions if action.cut]
    assert {cut.phase for cut in cuts} == set(PHASES)
    jumps = {action.pick for history in histories for action in history.actions if action.do == "clock"}
    assert jumps == set(range(len(JUMPS)))


def test_one_seed_is_one_history_also_when_it_was_kept() -> None:
    assert drawn(7) == drawn(7)
    twice = played_twice(7)
    assert twice.broken == ""
    kept = msgspec.json.decode(msgspec.json.encode(drawn(7)), type=History)
    assert play(kept).digest == twice.digest
    assert drawn(8) != drawn(7)


def test_a_seed_that_differs_from_itself_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    runs = iter((drawn(7), drawn(8)))
    monkeypatch.setattr("run.drawn", lambda _: next(runs))
    assert played_twice(7).law == "a seed is one history"


def test_what_never_came_about_is_told() -> None:
    everything = Counter(dict.fromkeys((*WANTED, *WANTED_OF_MANY), 1))
    assert unvisited(everything, MANY) == []
    for phase in PHASES:
        assert unvisited(everything - Counter([f"cut {phase}"]), 1) == [f"cut {phase}"]
    assert unvisited(everything - Counter(["Glued"]), MANY) == ["Glued"]
    assert unvisited(everything - Counter(["Glued"]), 1) == []


def test_the_phases_of_an_action_come_in_their_order() -> None:
    shop = Shop(1)
    bench = shop.benches[0]
    bench.disk.at_rest()
    actions.take_ticket(bench.session(0), ticket(2, "T-101"), "t.toml", "k")
    phases = phases_of(bench.disk.log, bench.disk.names[RECORD], 0)
    assert list(dict.fromkeys(phases)) == ["between actions", *PHASES[:-1]]
    assert phases[-1] == "between actions"
    shop.close()


def test_a_full_disk_takes_nothing_and_goes_on_once_there_is_room() -> None:
    disk = Disk()
    disk.room = 10
    file = disk.make("a")
    disk.write(file, 0, b"0123456789")
    disk.write(file, 2, b"over")
    with pytest.raises(DiskFull):
        disk.write(file, 9, b"ab")
    assert disk.files[file] == b"01over6789"

    shop = Shop(1)
    bench = shop.benches[0]
    for bench.disk.room in (0, 600, 5000):
        with pytest.raises(RecordError, match="Make room on that disk"):
            actions.take_ticket(bench.session(0), ticket(2, "T-101"), "t.toml", "k")
    assert bench.ledger.count() == len(bench.kept) == 0
    bench.disk.room = None
    actions.take_ticket(bench.session(0), ticket(2, "T-101"), "t.toml", "k")
    assert bench.ledger.count() == len(bench.kept) == 1
    assert bench.ledger.verify() == ()
    shop.close()


def test_what_may_be_there_after_a_crash() -> None:
    one, two, three = chained([TICKET] * 3)
    kept = {one.place: one}
    survived(kept, kept, (two, three), "here")
    survived({fact.place: fact for fact in (one, two, three)}, kept, (two, three), "here")
    with pytest.raises(LawBroken, match="an action is whole or not there"):
        survived({fact.place: fact for fact in (one, two)}, kept, (two, three), "here")
    with pytest.raises(LawBroken, match="nothing lost or doubled"):
        survived({}, kept, (two, three), "here")


def test_a_new_record_is_the_same_for_every_bench() -> None:
    assert list(empty_record()) == [RECORD]


def test_what_a_bench_does_is_laid_over_what_it_had_seen_whatever_the_clocks_say() -> None:
    """As the laws ask of every history: here by hand, with a clock that stood ahead."""
    shop = Shop(2)
    ahead, right = shop.benches
    ahead.clock.jump("ten hours ahead")
    actions.take_ticket(ahead.session(0), ticket(4, "T-101"), "t.toml", "k1")
    actions.change_part(
        ahead.session(0), "T-101", "weight", {"name": "lead 3", "mass": "3 g", "seat": "head"}, key="k2"
    )
    take_in(right.session(0), list(ahead.kept.values()))
    actions.fit_weights(right.session(0), "T-101", ["lead 3"], key="k3")
    try:
        assert right.session(0).shop().broken == {}
    finally:
        shop.close()


def test_what_was_seen_is_known_also_where_a_merge_brought_only_merges() -> None:
    """A bench with its clock in 1999 merges, and is merged before it wrote of any job: that orders nothing of a job."""
    shop = Shop(2)
    right, wrong = shop.benches
    wrong.clock.jump("1999")
    actions.take_ticket(right.session(0), ticket(5, "T-101"), "t.toml", "k1")
    take_in(wrong.session(0), list(right.kept.values()))
    take_in(right.session(0), list(wrong.kept.values()))
    shop.true.wait(5)
    actions.change_part(right.session(0), "T-101", "head", {"hand": "right"}, key="k2")
    wrong.clock.jump("right")
    take_in(wrong.session(0), list(right.kept.values()))
    try:
        what_was_seen_comes_first(wrong, wrong.in_order(), wrong.in_order())
        assert right.saw[("bench1", 2)] == {"bench1": 1}
        assert right.saw[("bench2", 2)] == {"bench1": 2}
    finally:
        shop.close()
