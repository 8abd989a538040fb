"""Erasing in the database, on both engines: the rows are others, the guards are back, and what was there is not."""

from __future__ import annotations

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from clubwright.journal.erased import covered
from clubwright.journal.erasing import erased_in, spans_of
from clubwright.journal.facts import NamesErased, TicketTaken
from clubwright.services.erasure import Erasure
from clubwright.services.ledger import ConflictError, Merger
from clubwright.store.ledger import Ledger

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
