"""The record's index of jobs answers at any time what follows from the facts, and is asked only while it does."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, insert, text

from benchwork import Clock, session_on
from clubwright.bootstrap import RECORD, open_session
from clubwright.journal.chain import seal
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Finished,
    PartChanged,
    ReadingTaken,
    Renumbered,
    StepDone,
    TicketTaken,
    Undone,
    What,
)
from clubwright.journal.order import in_order
from clubwright.services.record.folded_index import FoldedIndex
from clubwright.services.record.job_index import JobIndex
from clubwright.services.record.ledger import Merger, Readable
from clubwright.services.record.search import STATES, Search
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table

SITES = ("bench", "van")
NUMBERS = ("T-0001", "T-0002", "T-van-0001")
PLAYERS = ("Ada Example", "Bram Example", " ada example")
GAUGES = ("swing scale", "gram scale")


def answers(index: JobIndex) -> dict[str, Any]:
    """Ask an index everything that it can be asked."""
    searches = [
        Search(words=words, state=state)
        for words in ("", "ada", "xampl", "0001 example", "am 0002", "zz9", "%")
        for state in STATES
    ]
    found: dict[str, Any] = {f"{search}": index.lines(search) for search in searches}
    found |= {f"two of {search}": index.lines(search, 2, 1) for search in searches}
    found["every"] = index.every()
    found["broken"] = index.broken()
    found |= {f"alike {word}": index.alike("player", word, 2) for word in ("ada example", "bram example", "")}
    found["shafts"] = index.alike("shaft", "larch 125", 10)
    found["again"] = index.made_again(["T-0001", "T-0002"])
    found["numbers"] = [index.has_number(number) for number in (*NUMBERS, "T-0009", "T-0010")]
    found["highest"] = [index.highest(start) for start in ("T-", "T-van-", "")]
    found |= {f"touched {name}": index.touched("gauge", name) for name in (*GAUGES, "Swing Scale ", "caliper")}
    found["lot"] = index.touched("lot", "lot 7")
    found["player"] = index.touched("player", "Ada Example")
    found["person"] = index.touched("person", "Ann")
    found["part"] = index.touched("part", "Larch 125")
    return found


def require_law(ledger: Ledger) -> None:
    """What the tables say is what follows from the facts."""
    with ledger.index() as index:
        assert index is not None
        stored = answers(index)
    facts = in_order(ledger.facts())
    assert stored == answers(FoldedIndex(Readable(facts=facts)))
    assert ledger.verify() == ()
    for job in NUMBERS:
        assert ledger.facts(job) == [fact for fact in facts if fact.what.job == job]


class Shop:
    """Chance actions on a few jobs of one record; some of them could not have happened, and leave a broken job."""

    def __init__(self, ledger: Ledger, chance: random.Random) -> None:
        self.ledger, self.chance, self.count, self.minute = ledger, chance, 0, 0
        self.facts: list[Fact] = []

    def act(self) -> None:
        self.count += 1
        self.minute += self.chance.choice((1, 1, 1, 5, -30))  # a clock that is set back now and then
        site = self.chance.choice(SITES)
        at = f"2026-03-02T{8 + self.minute // 60 % 12:02d}:{self.minute % 60:02d}:00.000Z"
        what = self.what()
        self.facts += self.ledger.append(site, [what], by="Ann", at=at, typed="x", key=f"{site}-{self.count}")

    def what(self) -> What:
        job, chance = self.chance.choice(NUMBERS), self.chance
        ticket = {"id": job, "player": chance.choice(PLAYERS), "label": "wedge", "again_of": chance.choice(NUMBERS)}
        document = {"ticket": ticket, "shaft": {"name": "Larch 125"}}
        mine = [fact for fact in self.facts if fact.what.job == job]
        if not mine or chance.random() < 0.08:
            return TicketTaken(job=job, document=document, source="t")
        about = chance.choice(mine)
        reading = {"quantity": "swing_weight", "value": "D1", "stage": "finished", "weights": []}
        return chance.choice(
            (
                ReadingTaken(job=job, instrument=chance.choice((*GAUGES, None)), **reading),
                PartChanged(job=job, section="ticket", values={"player": chance.choice(PLAYERS)}),
                AdhesiveMixed(job=job, part_a="4 g", part_b="2 g", temperature="22 C", batch="lot 7"),
                StepDone(job=job, step="pull"),
                Finished(job=job, shown={}),
                Renumbered(job=job, number=chance.choice((*NUMBERS, "T-0009"))),
                Undone(job=job, fact=about.sequence, reason="", site=about.site),
            )
        )


@pytest.mark.parametrize("seed", range(6))
def test_after_every_action_the_index_answers_what_follows_from_the_facts(ledger: Ledger, seed: int) -> None:
    shop = Shop(ledger, random.Random(seed))
    shop.act()
    require_law(ledger)
    heads = []
    for _ in range(14):
        shop.act()
        with ledger.engine.connect() as connection:
            heads.append({row[0]: row[1] for row in connection.execute(text("SELECT site, sequence FROM index_head"))})
        require_law(ledger)
    # it was brought up by the transactions themselves, and not by whoever asked
    assert [sum(each.values()) for each in heads] == list(range(2, 16))


def heads_of(engine: Engine) -> list[Any]:
    with engine.connect() as connection:
        return sorted(tuple(row) for row in connection.execute(text("SELECT site, sequence FROM index_head")))


@pytest.mark.parametrize("seed", [1, 2])
def test_what_a_merge_brings_is_in_the_index_and_moves_what_it_moves(ledger: Ledger, tmp_path: Path, seed: int) -> None:
    shop = Shop(ledger, random.Random(seed))
    for _ in range(6):
        shop.act()
    require_law(ledger)
    with_others = open_engine(f"sqlite:///{tmp_path / 'other.sqlite'}")
    try:
        migrate(with_others)
        other = Ledger(with_others)
        document = {"ticket": {"id": "T-0001", "player": "Bram Example"}}
        at = "2026-03-02T08:00:00.000Z"
        other.append(
            "house", [TicketTaken(job="T-0001", document=document, source="t")], by="Bo", at=at, typed="", key="h"
        )
        other.append("house", [Renumbered(job="T-0001", number="T-0002")], by="Bo", at=at, typed="", key="h2")
        merger = Merger(site="bench", by="Ann", at="2026-03-02T23:00:00.000Z", key="merged")
        assert ledger.receive(other.facts(), merger) == 2
    finally:
        with_others.dispose()
    assert dict(heads_of(ledger.engine))["house"] == 2
    require_law(ledger)


def test_facts_that_another_program_wrote_are_seen_and_the_index_is_worked_out_anew(ledger: Ledger) -> None:
    shop = Shop(ledger, random.Random(3))
    shop.act()
    require_law(ledger)
    site = shop.facts[0].site
    last = shop.facts[-1]
    what = StepDone(job=last.what.job, step="weigh")
    made = {"site": site, "sequence": last.sequence + 1, "at": last.at, "by": "Bo", "typed": "x", "key": "by hand"}
    with ledger.engine.begin() as connection:
        connection.execute(insert(fact_table), [row_of(seal(what, previous_hash=last.hash, **made))])
    assert heads_of(ledger.engine) == [(site, 1)]
    require_law(ledger)
    assert heads_of(ledger.engine) == [(site, 2)]


def test_what_fails_leaves_the_index_as_it_was(ledger: Ledger, monkeypatch: pytest.MonkeyPatch) -> None:
    shop = Shop(ledger, random.Random(4))
    for _ in range(5):
        shop.act()
    require_law(ledger)
    before = ledger.facts()

    def fails(*_: object) -> None:
        raise RuntimeError("the lamp went out")

    with monkeypatch.context() as patch:
        patch.setattr("clubwright.store.index.tables_of.write_heads", fails)
        with pytest.raises(RuntimeError, match="lamp"):
            shop.act()
    assert ledger.facts() == before
    require_law(ledger)
    shop.act()
    require_law(ledger)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE index_job SET searched = 'forged'",
        "DELETE FROM index_touch WHERE kind = 'person'",
        "INSERT INTO index_number (number, site, sequence, job) VALUES ('T-0009', 'bench', 1, 'T-0009')",
    ],
)
def test_verify_does_not_believe_the_index_and_a_rebuild_mends_it(ledger: Ledger, statement: str) -> None:
    shop = Shop(ledger, random.Random(5))
    for _ in range(6):
        shop.act()
    require_law(ledger)
    assert ledger.verify() == ()
    with ledger.engine.begin() as connection:
        connection.execute(text(statement))
    findings = ledger.verify()
    assert [finding.where for finding in findings] == ["index of jobs"]
    assert "clubwright rebuild" in findings[0].mend
    facts = ledger.facts()
    assert ledger.rebuild() > 0
    assert ledger.verify() == ()
    assert ledger.facts() == facts


def test_a_line_that_cannot_be_read_is_no_reason_to_show_no_list(ledger: Ledger) -> None:
    shop = Shop(ledger, random.Random(6))
    shop.act()
    require_law(ledger)
    session = session_on(ledger, Clock())
    there = session.ask(lambda index: index.every())
    with ledger.engine.begin() as connection:
        connection.execute(text("UPDATE index_job SET line = '{'"))
    assert session.ask(lambda index: index.every()) == there != []


def test_an_older_record_gets_its_index_when_it_is_opened(tmp_path: Path) -> None:
    old = Path(__file__).parent.parent / "data" / "records" / "0001.sqlite"
    (tmp_path / RECORD).write_bytes(old.read_bytes())
    with open_session(str(tmp_path), by="Ann") as session:
        connection = sqlite3.connect(tmp_path / RECORD)
        assert connection.execute("SELECT site, sequence FROM index_head").fetchall() == [("van", 16)]
        connection.close()
        assert [line.id for line in session.ask(lambda index: index.every())] == ["T-DEMO"]


def test_without_its_guards_a_record_is_read_whole(ledger: Ledger) -> None:
    if ledger.engine.dialect.name != "sqlite":
        pytest.skip("the guards are dropped by other names there")
    shop = Shop(ledger, random.Random(7))
    shop.act()
    require_law(ledger)
    with ledger.engine.begin() as connection:
        connection.execute(text("DROP TRIGGER fact_no_update"))
        connection.execute(text("UPDATE fact SET typed = 'forged'"))
    with ledger.index() as index:
        assert index is None
    [broken] = session_on(ledger, Clock()).ask(lambda index: index.broken())
    assert [finding.what for finding in broken.findings] == ["this fact was changed after it was written"]
