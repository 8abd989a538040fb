"""The mixes of the last days, and those at hand, are asked for without any that is older."""

from __future__ import annotations

from datetime import timedelta

import msgspec
import pytest

from benchwork import JOB, Clock, document, run_to
from clubwright.errors import InputError
from clubwright.journal.facts import AdhesiveMixed
from clubwright.services.actions import bench
from clubwright.services.actions.making.mix_list import mixes, mixes_at_hand
from clubwright.services.actions.making.mixes import MADE
from clubwright.services.record.session import Session, utc_text
from clubwright.store import reading
from clubwright.store.rows import judged

pytestmark = [
    pytest.mark.usefixtures("played"),
    pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True),
]
OTHERS = ("T-0900", "T-0901")


@pytest.fixture
def shop(session: Session, clock: Clock) -> Session:
    """The wedge is read dry; one mix was made two days ago, and one three minutes ago that the wedge takes from."""
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    for number, job in enumerate(OTHERS):
        made = document()
        made["ticket"] |= {"id": job, "player": "Ada Quill"}
        bench.take_ticket(session, made, "t")
        if number == 0:
            bench.mix_adhesive(session, job, "5.0 g", "2.5 g", "22 C", "lot 6")
            clock.wait(hours=48)
    bench.mix_adhesive(session, OTHERS[1], "4.0 g", "2.0 g", "22 C", "lot 7")
    clock.wait(minutes=3)
    return session


def test_the_mixes_of_the_last_days_are_those_of_all_that_are_as_new(shop: Session) -> None:
    bench.take_from_mix(shop, JOB, OTHERS[1])
    every = mixes(shop)
    assert [row.made_on for row in every] == [*OTHERS[::-1]]
    assert mixes(shop, 1) == every[:1]
    assert {joint.job for joint in every[0].joints} == {JOB, OTHERS[1]}
    assert mixes(shop, 3) == every
    with pytest.raises(InputError, match="1 to 36500"):
        mixes(shop, 0)


def test_what_is_at_hand_reads_no_mix_that_is_too_old(shop: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    with shop.ledger.index():
        pass
    read: list[str] = []
    monkeypatch.setattr(reading, "judged", lambda row: read.append(row["what"]) or judged(row))
    found = shop.ledger.readable(kinds=(MADE,), since=utc_text(shop.now() - timedelta(hours=1))).facts
    assert [fact.what.job for fact in found] == [OTHERS[1]]
    assert len(read) == 1
    assert [row.made_on for row in mixes_at_hand(shop, shop.job(JOB))] == [OTHERS[1]]


def test_without_its_index_a_record_gives_the_same(shop: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    since = utc_text(shop.now() - timedelta(hours=1))
    with shop.ledger.index() as index:
        assert index is not None
    by_index = shop.ledger.readable(kinds=(MADE,), since=since)
    monkeypatch.setattr("clubwright.store.index.tables_of.IndexKeeper.current", lambda *_: False)
    assert shop.ledger.readable(kinds=(MADE,), since=since) == by_index
    assert len(by_index.facts) == 1


def test_a_mix_is_named_by_its_line_and_nothing_else_is_taken_for_one(shop: Session) -> None:
    (made,) = [fact for fact in shop.ledger.facts(OTHERS[1]) if isinstance(fact.what, AdhesiveMixed)]
    assert shop.ledger.fact(made.place) == made
    assert shop.ledger.fact((made.site, 9999)) is None
    for wrong in (f"{made.site}/{made.sequence - 1}", f"{made.site}/9999", f"{made.site}/{10**30}"):
        with pytest.raises(InputError, match="names no mix"):
            bench.take_from_mix(shop, JOB, wrong)
    taken = bench.take_from_mix(shop, JOB, f"{made.site}/{made.sequence}")
    assert msgspec.structs.asdict(taken.what)["mix"] == made.place
