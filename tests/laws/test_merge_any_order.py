"""Records of several benches, merged in any order and any portions, give the same shop: facts, jobs, lists, answers."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from benchwork import JOB, Clock, answer_bytes, document, session_on
from clubwright.journal.facts import Fact
from clubwright.journal.reducers.fold import Shop
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.job_list import waiting
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from clubwright.store.ledger import Ledger
from forging import record_at
from shaftwork import iron


@pytest.fixture
def benches(tmp_path: Path) -> dict[str, list[Fact]]:
    """Facts of three benches whose clocks disagree, on one job, on one each, and on a number that two of them gave."""
    found: dict[str, list[Fact]] = {}
    with record_at(tmp_path / "a") as first:
        shop = session_on(first, Clock(), site="shop")
        bench.take_ticket(shop, document(), "t")
        for number, site in enumerate(("van", "tent")):
            with record_at(tmp_path / site) as record:
                clock = Clock()
                clock.wait(hours=200 * number - 100)
                there = session_on(record, clock, site=site)
                take_in(there, first.facts())
                bench.change_part(there, JOB, "head", {"mass": f"{296 + number} g"})
                bench.take_ticket(there, iron("X-1", label=f"of the {site}"), "t")
                bench.note_reading(there, JOB, "total_weight", "465.4 g", stage="dry, gripped", weights=[])
                bench.undo(there, JOB)
                found[site] = [fact for fact in record.facts() if fact.site == site]
        bench.change_part(shop, JOB, "grip", {"mass": "50.1 g"})
        found["shop"] = [fact for fact in first.facts() if fact.site == "shop"]
    return found


def shown(session: Session) -> tuple[Shop, list[str], bytes, list[Fact]]:
    """Everything that a bench shows, and the facts it shows it from."""
    now, shop = session.now(), session.shop()
    rows = [item.job.id for item in waiting(shop.jobs.values(), now)]
    return shop, rows, answer_bytes(answer_job(session.job(JOB), now).answer()), session.ledger.facts()


def test_merged_in_any_order_and_any_portions_the_shop_is_the_same(
    tmp_path: Path, benches: dict[str, list[Fact]]
) -> None:
    seen = []
    for number, order in enumerate(itertools.permutations(benches)):
        with record_at(tmp_path / f"into {number}") as record:
            portions = [benches[site] for site in order]
            if number % 2:  # all at once, and then each once more
                portions = [[fact for portion in portions for fact in portion], *portions]
            for portion in portions:
                record.receive(portion)
            seen.append(shown(session_on(record, Clock(), site="fourth")))
            assert record.verify() == ()
            assert Ledger(record.engine).facts() == record.facts()
    shop, rows, _, facts = seen[0]
    assert len(facts) == sum(map(len, benches.values())) and len(shop.jobs) == 3 and len(rows) == 3
    assert all(other == seen[0] for other in seen)
