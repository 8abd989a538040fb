"""Erasing in the database, on both engines: the rows are others, the guards are back, and what was there is not."""

from __future__ import annotations

import pytest
from sqlalchemy import insert, text
from sqlalchemy.exc import DBAPIError

from clubwright.journal.erased import covered
from clubwright.journal.erasing import erased_in, spans_of
from clubwright.journal.facts import Fact, NamesErased, TicketTaken
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import ConflictError, DamagedError, Merger
from clubwright.store.groups import head, sealed
from clubwright.store.ledger import Ledger
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table

AT = "2026-03-02T08:00:00.000Z"
NAME = "Zebulon Quagmire"
MERGER = Merger(site="van", by="Ann", at=AT, key="erasing")


def erasure(ledger: Ledger) -> Erasure:
    erased = [covered(fact, spans) for fact in ledger.facts() if (spans := spans_of(fact, [NAME], "P-1"))]
    what = NamesErased(person="P-1", asked_by="the player", facts=erased_in(erased))
    return Erasure(covered=erased, whats=[what], typed=["forgot a player"])


def take(ledger: Ledger, number: str, player: str) -> None:
    what = TicketTaken(job=number, document={"ticket": {"id": number, "player": player}}, source="t.toml")
    ledger.append("van", [what], by="Ann", at=AT, typed=f"ticket for {player}", key=number)


def test_the_rows_are_erased_and_the_guards_are_back(ledger: Ledger) -> None:
    take(ledger, "T-1", NAME)
    take(ledger, "T-2", "Ottilie Brandysnap")
    other = ledger.facts("T-2")
    written = ledger.erase(erasure(ledger), MERGER, 2)
    assert ledger.verify() == ()
    assert ledger.facts("T-2") == other
    assert ledger.erase(erasure(ledger), MERGER, 2) == written  # sent again
    with ledger.engine.connect() as connection:
        rows = connection.execute(text("SELECT * FROM fact")).all()
    assert "Quagmire" not in str(rows)
    assert len(rows) == 3
    with pytest.raises(DBAPIError, match="append-only"), ledger.engine.begin() as connection:
        connection.execute(text("UPDATE fact SET typed = 'x'"))
    take(ledger, "T-3", NAME)
    assert ledger.verify() == ()


def test_what_was_decided_on_an_older_record_is_not_erased(ledger: Ledger) -> None:
    take(ledger, "T-1", NAME)
    decided = erasure(ledger)
    take(ledger, "T-2", NAME)
    before = ledger.facts()
    with pytest.raises(ConflictError):
        ledger.erase(decided, MERGER, 1)
    assert ledger.facts() == before


def test_what_follows_from_the_facts_is_thrown_away_with_the_name_in_it(ledger: Ledger) -> None:
    take(ledger, "T-1", NAME)
    with ledger.engine.begin() as connection:
        connection.execute(text("CREATE TABLE index_sample (player TEXT)"))
        connection.execute(text("INSERT INTO index_sample VALUES (:name)"), {"name": NAME})
    ledger.erase(erasure(ledger), MERGER, 1)
    with pytest.raises(DBAPIError), ledger.engine.connect() as connection:
        connection.execute(text("SELECT * FROM index_sample"))
    assert ledger.verify() == ()


def marked(ledger: Ledger) -> Fact:
    """Write a fact with the mark of something erased in it, of which no erasure of the record says anything."""
    what = TicketTaken(job="T-1", document={"ticket": {"id": "T-1", "player": NAME}}, source="t.toml")
    with ledger.engine.begin() as connection:
        after = head(connection, "van")
        (fact,) = sealed(after, [what], site="van", by="Ann", at=AT, typed=["ticket"], key="marked")
        found = covered(fact, spans_of(fact, [NAME], "P-1"))
        assert found.erased
        connection.execute(insert(fact_table), [row_of(found)])
    return found


def test_a_fact_asked_for_by_its_line_or_its_key_is_held_against_its_erasure(ledger: Ledger) -> None:
    place = marked(ledger).place
    for asked in (lambda: ledger.facts("T-1"), lambda: ledger.fact(place), lambda: ledger.action("marked")):
        with pytest.raises(DamagedError, match="not what an erasure in the record says"):
            asked()


def test_a_fact_that_was_erased_in_is_found_by_its_line_and_its_key(ledger: Ledger) -> None:
    take(ledger, "T-1", NAME)
    ledger.erase(erasure(ledger), MERGER, 1)
    (fact,) = ledger.facts("T-1")
    assert fact.erased
    assert ledger.fact(fact.place) == fact
    assert ledger.action("T-1") == [fact]
