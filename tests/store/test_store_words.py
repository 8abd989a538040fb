"""A few letters of a rare word are looked up; what is found is what every text holds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select

from clubwright.journal.facts import PartChanged, TicketTaken
from clubwright.services.record.folded_index import FoldedIndex
from clubwright.services.record.search import Search
from clubwright.store.index import words as index_words
from clubwright.store.index.tables import tail_table
from clubwright.store.index.words import LEAST, MOST, tails_of, words_of
from clubwright.store.ledger import Ledger

LONG = "x" * 9 + "y" * 200
WORDS = ("example-3", "EXAMPLE-3 0010", "0010 wedge", "wedge", "y" * 60, "y" * 60 + "12", "zzz", "1")


@given(st.text("ab ", max_size=4 * MOST), st.integers(0, 4 * MOST), st.integers(LEAST, MOST))
def test_whatever_stands_in_a_word_begins_one_of_its_tails(text: str, start: int, length: int) -> None:
    part = text[start : start + length]
    if len(part) < LEAST or " " in part:
        return
    assert any(tail.startswith(part) for tail, _ in tails_of(words_of(text)))


def shop_of(ledger: Ledger, count: int) -> None:
    for number in range(1, count + 1):
        job = f"T-{number:04d}"
        ticket = {
            "id": job,
            "player": f"Ada Example-{number % 7}",
            "label": "wedge",
            "note": "x" * 9 + "y" * 200 + str(number),
        }
        what = TicketTaken(job=job, document={"ticket": ticket}, source="t")
        at = f"2026-03-02T08:{number:02d}:00.000Z"
        ledger.append("bench", [what], by="Ann", at=at, typed="", key=job)


@pytest.mark.parametrize("few", [0, 3, 500])
@pytest.mark.parametrize(
    "words", ["example-3", "EXAMPLE-3 0010", "0010 wedge", "wedge", "y" * 60, "y" * 60 + "12", "zzz", "1"]
)
def test_a_search_finds_what_every_text_holds(
    ledger: Ledger, monkeypatch: pytest.MonkeyPatch, words: str, few: int
) -> None:
    monkeypatch.setattr(index_words, "FEW", few)
    shop_of(ledger, 12)
    folded = FoldedIndex(ledger.readable())
    with ledger.index() as index:
        assert index is not None
        for search in (Search(words=words), Search(words=words, state="closed"), Search(words=words, kind="wedge")):
            assert index.lines(search) == folded.lines(search)
            assert index.lines(search, 2, 1) == folded.lines(search, 2, 1)


def test_a_word_that_no_job_has_any_more_is_found_by_nothing(ledger: Ledger) -> None:
    def tails() -> set[str]:
        with ledger.engine.connect() as connection:
            return set(connection.execute(select(tail_table.c.tail)).scalars())

    shop_of(ledger, 8)
    with ledger.index():
        pass
    assert {"example-1", "ple-1", "ada"} <= tails()
    change = {"job": "T-0001", "section": "ticket"}
    at = "2026-03-02T09:00:00.000Z"
    ledger.append("bench", [PartChanged(values={"player": "Bram Other"}, **change)], by="A", at=at, typed="", key="b")
    assert {"bram", "example-1", "ple-1"} <= tails(), "another job still has it"
    ledger.append(
        "bench",
        [PartChanged(job="T-0008", section="ticket", values={"player": "Bram"})],
        by="A",
        at=at,
        typed="",
        key="c",
    )
    assert tails().isdisjoint({"example-1", "ple-1"})
    assert {"example-2", "ada"} <= tails()
    assert ledger.verify() == ()
