"""The record on both engines: gapless, idempotent, append-only, and whole or not at all."""

from __future__ import annotations

import sqlite3
import threading
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from clubwright.errors import RecordError
from clubwright.journal.facts import Finished, GateSigned, Gripped, ReadingTaken, StepDone, TicketTaken, WeightsFitted
from clubwright.journal.reducers.fold import fold
from clubwright.services.record.ledger import ConflictError
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

AT = "2026-03-02T08:00:00.000Z"
TICKET = TicketTaken(job="T-1", document={"ticket": {"id": "T-1", "player": "Zoë “½” Example"}}, source="t.toml")


def write(ledger: Ledger, *payloads, site="van", key="k1", at=AT, typed="typed", by="Ann", expected=None):
    return ledger.append(site, payloads, by=by, at=at, typed=typed, key=key, expected_sequence=expected)


def reading(value: str = "D1.5", job: str = "T-1") -> ReadingTaken:
    return ReadingTaken(job=job, quantity="swing_weight", value=value, stage="finished", weights=[])


def test_what_is_written_is_read_back_equal(ledger):
    written = write(ledger, TICKET, reading()) + write(ledger, WeightsFitted(job="T-1", weights=[]), key="k2")
    assert ledger.facts() == written
    assert [fact.sequence for fact in written] == [1, 2, 3]
    assert ledger.verify() == ()


def test_floats_shown_at_a_signature_come_back_as_the_same_text_on_both_engines(ledger):
    shown = {"mean": 0.1 + 0.2, "big": 1e22, "tiny": -0.0, "list": [(1.5, True, None, 3)]}
    write(ledger, TICKET, GateSigned(job="T-1", step="cut", shown=shown))
    kept = ledger.facts()[1].what.shown
    assert kept == {
        "mean": "0.30000000000000004",
        "big": "1e+22",
        "tiny": "-0.0",
        "list": [["1.5", True, None, 3]],
    }
    assert ledger.verify() == ()


def test_facts_are_asked_for_by_their_kind(ledger):
    write(ledger, TICKET, reading(), WeightsFitted(job="T-1", weights=[]), reading("D2"))
    assert [fact.sequence for fact in ledger.facts(kinds=["reading taken"])] == [2, 4]
    assert [fact.sequence for fact in ledger.facts("T-1", kinds=["ticket taken", "weights fitted"])] == [1, 3]
    assert [fact.sequence for fact in ledger.facts(kinds=["reading taken"], after={"van": 2})] == [4]
    assert ledger.facts("T-2", kinds=["reading taken"]) == []
    assert ledger.facts(kinds=[]) == []


def test_not_a_number_is_refused_and_nothing_is_written(ledger):
    with pytest.raises(RecordError, match="nan"):
        write(ledger, TICKET, Finished(job="T-1", shown={"mean": float("nan")}))
    assert ledger.facts() == []


@pytest.mark.parametrize("bad", ["a\x00b", "a\ud800b"])
def test_text_that_no_database_holds_is_refused(ledger, bad):
    with pytest.raises(RecordError, match="character"):
        write(ledger, TICKET, reading(bad))
    assert ledger.facts() == []


def test_same_key_again_gives_the_facts_that_are_there(ledger):
    first = write(ledger, TICKET, reading(), key="a")
    again = write(ledger, TICKET, reading(), key="a", at="2026-03-02T09:00:00.000Z", expected=0)
    assert again == first
    assert len(ledger.facts()) == 2


@pytest.mark.parametrize(
    "other",
    [
        {"payloads": (TICKET, reading("D2"))},
        {"payloads": (TICKET,)},
        {"payloads": (TICKET, reading(), reading())},
        {"payloads": (TICKET, reading()), "site": "shop"},
        {"payloads": (TICKET, reading()), "by": "Bea"},
    ],
)
def test_same_key_for_something_else_is_refused(ledger, other):
    write(ledger, TICKET, reading(), key="a")
    with pytest.raises(RecordError, match="used before"):
        write(ledger, *other["payloads"], key="a", site=other.get("site", "van"), by=other.get("by", "Ann"))
    assert len(ledger.facts()) == 2


def test_two_actions_after_each_other_are_not_one_group(ledger):
    write(ledger, TICKET, key="a")
    write(ledger, reading(), key="b")
    assert len(write(ledger, TICKET, key="a")) == 1


def test_a_stale_view_gets_a_conflict_that_says_both_numbers(ledger):
    write(ledger, TICKET, key="a", expected=0)
    with pytest.raises(ConflictError) as caught:
        write(ledger, reading(), key="b", expected=0)
    assert (caught.value.expected, caught.value.found) == (0, 1)
    write(ledger, reading(), key="b", expected=1)


def test_facts_of_one_job_and_facts_since(ledger):
    write(ledger, TICKET, key="a")
    write(ledger, TicketTaken(job="T-2", document={}, source=""), key="b")
    write(ledger, TicketTaken(job="T-3", document={}, source=""), key="c", site="shop")
    assert [fact.sequence for fact in ledger.facts(job="T-2")] == [2]
    assert [fact.place for fact in ledger.facts(after={"van": 1})] == [("shop", 1), ("van", 2)]
    assert [fact.place for fact in ledger.facts(after={"van": 2, "shop": 0})] == [("shop", 1)]


def test_facts_of_one_job_stand_in_the_same_order_as_in_the_whole_record(ledger):
    """The van's clock steps back after another job's facts: those decide which of its times are believed."""
    write(ledger, TICKET, key="a", at="2026-03-02T08:00:00Z")
    write(ledger, TicketTaken(job="T-2", document={}, source=""), key="b", at="2026-03-02T10:00:00Z")
    write(ledger, StepDone(job="T-2", step="pull"), key="b2", at="2026-03-02T10:05:00Z")
    write(ledger, reading("D1"), key="c", at="2026-03-02T08:30:00Z")
    write(ledger, reading("D2"), key="d", at="2026-03-02T09:00:00Z", site="shop")
    whole = [fact.place for fact in ledger.facts() if fact.what.job == "T-1"]
    assert [fact.place for fact in ledger.facts(job="T-1")] == whole == [("van", 1), ("shop", 1), ("van", 4)]
    assert [fact.place for fact in ledger.facts(after={"van": 3})] == [("shop", 1), ("van", 4)]


@pytest.mark.parametrize(
    "statement",
    ["UPDATE fact SET typed = 'x'", "DELETE FROM fact", "UPDATE fact SET hash = hash WHERE sequence = 2"],
)
def test_a_migrated_record_refuses_change(ledger, statement):
    write(ledger, TICKET, reading())
    with pytest.raises(DBAPIError, match="append-only"), ledger.engine.begin() as connection:
        connection.execute(text(statement))
    assert len(ledger.facts()) == 2


@pytest.mark.postgres
def test_postgresql_refuses_truncate(ledger):
    if ledger.engine.dialect.name != "postgresql":
        pytest.skip("SQLite has no TRUNCATE")
    with pytest.raises(DBAPIError, match="append-only"), ledger.engine.begin() as connection:
        connection.execute(text("TRUNCATE fact"))


COPY = """
INSERT {mode} INTO fact (site, sequence, at, "by", typed, kind, job, what, key, previous_hash, hash)
SELECT site, {sequence}, at, "by", 'forged', kind, job, what, {key}, previous_hash, hash FROM fact WHERE sequence = 1
"""


@pytest.mark.parametrize(("sequence", "key"), [("sequence", "'new'"), ("3", "key"), ("7", "'new'"), ("0", "'new'")])
@pytest.mark.parametrize("mode", ["", "OR REPLACE"])
def test_nothing_is_slipped_in_or_replaced(ledger, sequence, key, mode):
    if mode and ledger.engine.dialect.name == "postgresql":
        pytest.skip("PostgreSQL has no REPLACE")
    write(ledger, TICKET, reading())
    with pytest.raises(DBAPIError), ledger.engine.begin() as connection:
        connection.execute(text(COPY.format(mode=mode, sequence=sequence, key=key)))
    assert [fact.typed for fact in ledger.facts()] == ["typed", "typed"]
    assert ledger.verify() == ()


def test_another_program_on_the_same_file_cannot_replace_a_fact_either(tmp_path):
    """Without our settings, SQLite's REPLACE deletes a row without asking the trigger on DELETE."""
    engine = open_engine(f"sqlite:///{tmp_path / 'r.sqlite'}")
    try:
        migrate(engine)
        ledger = Ledger(engine)
        write(ledger, TICKET, reading())
        other = sqlite3.connect(tmp_path / "r.sqlite")
        for sequence, key, previous in [
            ("sequence", "'new'", "previous_hash"),
            ("3", "key", f"'{ledger.facts()[1].hash}'"),
        ]:
            forged = COPY.format(mode="OR REPLACE", sequence=sequence, key=key)
            with pytest.raises(sqlite3.IntegrityError, match="no gaps"):
                other.execute(forged.replace(" previous_hash, hash FROM", f" {previous}, hash FROM"))
        other.close()
        assert [fact.typed for fact in ledger.facts()] == ["typed", "typed"]
    finally:
        engine.dispose()


TRIGGERS = {f"record file, trigger fact_no_{what}" for what in ("update", "change", "gap")}


@pytest.mark.parametrize("trigger", ["update", "delete", "gap"])
def test_verify_finds_a_trigger_that_is_gone_and_a_backup_has_it_again(ledger, tmp_path, trigger):
    write(ledger, TICKET, reading())
    with ledger.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(text(f"DROP TRIGGER fact_no_{trigger}"))
        else:
            trigger = "gap" if trigger == "gap" else "change"
            connection.execute(text(f"DROP TRIGGER fact_no_{trigger} ON fact"))
    (finding,) = ledger.verify()
    assert finding.where == f"record file, trigger fact_no_{trigger}"
    assert ledger.backup(tmp_path / "b.sqlite") == 2
    engine = open_engine(f"sqlite:///{tmp_path / 'b.sqlite'}")
    assert Ledger(engine).verify() == ()
    assert Ledger(engine).facts() == ledger.facts()
    engine.dispose()


@pytest.mark.parametrize(
    "statement",
    [
        "DROP INDEX ix_fact_job",
        "CREATE TRIGGER mine AFTER INSERT ON fact BEGIN SELECT 1; END",
        "ALTER TABLE fact ADD COLUMN mood TEXT",
    ],
)
def test_verify_finds_what_somebody_else_made_of_the_table(ledger, statement):
    write(ledger, TICKET)
    if ledger.engine.dialect.name == "postgresql":
        pytest.skip("a server of several programs has its own keeper")
    with ledger.engine.begin() as connection:
        connection.execute(text(statement))
    assert len(ledger.verify()) == 1


def test_verify_finds_what_was_changed_behind_the_triggers(ledger):
    write(ledger, TICKET, reading(), StepDone(job="T-1", step="weigh"))
    with ledger.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(text("DROP TRIGGER fact_no_update"))
        else:
            connection.execute(text("ALTER TABLE fact DISABLE TRIGGER ALL"))
        connection.execute(text("UPDATE fact SET \"by\" = 'Bea' WHERE sequence = 2"))
    *guards, finding = ledger.verify()
    assert finding.where == "record van/2"
    assert {guard.where for guard in guards} <= TRIGGERS
    assert guards


@pytest.mark.parametrize("column", ["job", "kind"])
def test_verify_finds_a_column_that_contradicts_the_fact(ledger, column):
    write(ledger, TICKET, reading())
    with ledger.engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.execute(text("DROP TRIGGER fact_no_update"))
        else:
            connection.execute(text("ALTER TABLE fact DISABLE TRIGGER ALL"))
        connection.execute(text(f"UPDATE fact SET {column} = 'T-9' WHERE sequence = 2"))
    assert [finding.where for finding in ledger.verify() if finding.where not in TRIGGERS] == ["record van/2"]


def test_many_hands_on_one_site_leave_no_gap(ledger):
    write(ledger, TICKET, key="start")
    failures: list[BaseException] = []

    def work(hand: int) -> None:
        try:
            for number in range(12):
                write(ledger, reading(), Gripped(job="T-1"), key=f"{hand}-{number}", by=f"hand {hand}")
        except BaseException as failure:
            failures.append(failure)

    threads = [threading.Thread(target=work, args=(hand,)) for hand in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    facts = ledger.facts()
    assert sorted(fact.sequence for fact in facts) == list(range(1, 1 + 1 + 6 * 12 * 2))
    assert ledger.verify() == ()
    # the two facts of one action stand side by side
    by_key = {fact.key: fact.sequence for fact in facts}
    assert all(by_key[f"{h}-{n}#2"] == by_key[f"{h}-{n}"] + 1 for h in range(6) for n in range(12))


def test_only_one_of_many_that_saw_the_same_state_gets_through(ledger):
    write(ledger, TICKET, key="start")
    outcomes: list[str] = []

    def work(hand: int) -> None:
        try:
            write(ledger, reading(), key=f"hand {hand}", expected=1)
            outcomes.append("written")
        except ConflictError:
            outcomes.append("conflict")

    threads = [threading.Thread(target=work, args=(hand,)) for hand in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["conflict"] * 5 + ["written"]


def test_backup_holds_every_fact_and_is_a_record(ledger, tmp_path):
    written = write(ledger, TICKET, reading()) + write(ledger, TICKET, site="shop", key="k2")
    path = tmp_path / "backup.sqlite"
    assert ledger.backup(path) == 3
    assert [file.name for file in tmp_path.iterdir() if file.name.startswith("backup")] == ["backup.sqlite"]
    engine = open_engine(f"sqlite:///{path}")
    try:
        migrate(engine)
        copy = Ledger(engine)
        assert {fact.place: fact for fact in copy.facts()} == {fact.place: fact for fact in written}
        write(copy, reading(), key="k3")
        assert copy.verify() == ()
    finally:
        engine.dispose()


def test_backup_writes_over_nothing(ledger, tmp_path):
    path = tmp_path / "backup.sqlite"
    path.write_text("mine")
    with pytest.raises(RecordError, match="there already"):
        ledger.backup(path)
    assert path.read_text() == "mine"


def test_backup_that_lost_facts_is_thrown_away(ledger, tmp_path, monkeypatch):
    write(ledger, TICKET, reading())

    def loses(*_: object) -> None:
        engine = open_engine(f"sqlite:///{tmp_path / 'backup.sqlite.part'}")
        migrate(engine)
        Ledger(engine).receive(ledger.facts()[:1])
        engine.dispose()

    monkeypatch.setattr("clubwright.store.backup._copy_pages", loses)
    monkeypatch.setattr("clubwright.store.backup._copy_facts", loses)
    with pytest.raises(RecordError, match="van/2"):
        ledger.backup(tmp_path / "backup.sqlite")
    assert not list(tmp_path.glob("backup*"))


def test_two_records_become_one_by_union(ledger, tmp_path):
    engine = open_engine(f"sqlite:///{tmp_path / 'van.sqlite'}")
    try:
        migrate(engine)
        van = Ledger(engine)
        write(van, TICKET, reading(), key="v")
        write(ledger, TicketTaken(job="T-2", document={}, source=""), site="shop", key="s")
        assert ledger.receive(van.facts()) == 2
        assert ledger.receive(van.facts()) == 0
        write(van, Gripped(job="T-1"), key="w")
        assert ledger.receive(van.facts(after={"van": 2})) == 1
        assert set(fold(ledger.facts()).jobs) == {"T-1", "T-2"}
        assert ledger.verify() == ()
        with pytest.raises(RecordError, match="missing"):
            van.receive(
                fact
                for fact in [*ledger.facts(), *write(ledger, reading(), site="shop", key="t")]
                if fact.place != ("shop", 1)
            )
    finally:
        engine.dispose()


def test_records_that_differ_do_not_become_one(ledger, tmp_path):
    engine = open_engine(f"sqlite:///{tmp_path / 'van.sqlite'}")
    try:
        migrate(engine)
        van = Ledger(engine)
        write(van, TICKET, key="v")
        write(ledger, TICKET, key="other")
        with pytest.raises(RecordError, match="differ in fact van/1"):
            ledger.receive(van.facts())
        assert len(ledger.facts()) == 1
    finally:
        engine.dispose()


def test_sqlite_is_opened_as_a_record_needs_it(tmp_path: Path):
    engine = open_engine(f"sqlite:///{tmp_path / 'r.sqlite'}")
    try:
        with engine.connect() as one:
            for pragma, wanted in [("journal_mode", "delete"), ("synchronous", 3), ("foreign_keys", 1)]:
                assert one.exec_driver_sql(f"PRAGMA {pragma}").scalar() == wanted
    finally:
        engine.dispose()
