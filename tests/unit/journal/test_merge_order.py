"""What a merge brings in comes before what is written after it, whatever the clocks say; every list bears such a fact."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import msgspec
import pytest

from benchwork import JOB, Clock, document, session_on
from clubwright.journal.facts import RecordsMerged
from clubwright.services.actions import bench
from clubwright.services.jobs.job_list import waiting
from clubwright.services.record.search import Search, found
from clubwright.services.recording.merging import take_in
from clubwright.store.ledger import Ledger
from forging import record_at


@pytest.mark.parametrize("off_days", [-20_000, -400, 0, 400, 26_000])
def test_work_follows_what_it_was_decided_on(tmp_path: Path, off_days: int) -> None:
    """The van names the head, the shop takes that in and names it anew, and the van takes that in; clocks differ."""
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        right, wrong = Clock(), Clock()
        wrong.time += timedelta(days=off_days)
        shop, van = session_on(first, right, site="shop"), session_on(second, wrong, site="van")
        bench.take_ticket(van, document(), "t")
        for name, session, other in (
            ("head 1", van, shop),
            ("head 2", shop, van),
            ("head 3", van, shop),
            ("head 4", shop, van),
        ):
            right.wait(minutes=5)
            wrong.wait(minutes=5)
            take_in(session, other.ledger.facts())
            bench.change_part(session, JOB, "head", {"name": name})
            assert session.job(JOB).document["head"]["name"] == name
        take_in(van, first.facts())
        assert van.job(JOB) == shop.job(JOB)
        assert [line.text for line in shop.job(JOB).trail[1:]] == [
            f"head: name head {number}" for number in range(1, 5)
        ]
        # a record that is opened anew, and one that learned it bit by bit, agree
        assert Ledger(first.engine).facts() == first.facts()


def test_a_merge_is_a_fact_of_no_job_and_every_list_bears_it(tmp_path: Path) -> None:
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        shop, van = session_on(first, Clock(), site="shop"), session_on(second, Clock(), site="van")
        bench.take_ticket(van, document(), "t")
        assert take_in(shop, second.facts()).new == 1
        (merged,) = first.facts(kinds=["records merged"])
        assert isinstance(merged.what, RecordsMerged)
        assert (merged.by, merged.place, merged.what.heads) == (
            "Ann",
            ("shop", 1),
            {"van": (1, second.facts()[0].hash)},
        )
        assert take_in(shop, second.facts()).new == 0
        assert first.count() == 2, "nothing new was seen"
        assert take_in(van, first.facts()).new == 1
        assert second.facts() == first.facts(), "what merges saw goes round once"
        assert list(shop.shop().jobs) == [JOB]
        assert shop.shop().broken == {}
        assert [item.job.id for item in waiting(shop.shop().jobs.values(), shop.now())] == [JOB]
        assert [job.id for job in found(shop.shop(), Search())] == [JOB]
        assert first.verify() == ()
        bench.change_part(shop, JOB, "head", {"mass": "297 g"})
        assert first.backup(tmp_path / "copy.sqlite") == 3


def test_a_merge_is_kept_whole_or_not_at_all(tmp_path: Path) -> None:
    """What was seen is written in the transaction of what was taken in."""
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        shop, van = session_on(first, Clock(), site="shop"), session_on(second, Clock(), site="van")
        bench.take_ticket(van, document(), "t", "one key")
        clash = msgspec.structs.replace(shop, new_key=lambda: "one key")
        with pytest.raises(Exception, match=r"UNIQUE|no gaps"):
            take_in(clash, second.facts())
        assert first.count() == 0
