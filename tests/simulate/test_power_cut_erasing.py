"""The power goes while a name is erased: it is erased whole, with the fact that says so, or nothing of it is begun."""

from __future__ import annotations

import random

import pytest
from disk import Disk
from sqlite_on_disk import RECORD, engine_on
from wreck import Wreck

from clubwright.journal.erased import covered
from clubwright.journal.erasing import erased_in, spans_of
from clubwright.journal.facts import Fact, NamesErased, StepDone, TicketTaken
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import Merger
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

AT = "2026-03-02T08:00:00.000Z"
NAME = "Zebulon Quagmire"
TICKET = TicketTaken(job="T-1", document={"ticket": {"player": NAME, "note": "y" * 5000}}, source="x")
TORN = 2
PARTS = 3


def worked(disk: Disk) -> tuple[list[Fact], list[Fact]]:
    """Erase a name on a small record, and return its facts before and after."""
    with engine_on(disk) as engine:
        migrate(engine)
        ledger = Ledger(engine)
        ledger.append(
            "bench", [TICKET, StepDone(job="T-1", step="pull", note=NAME)], by="Ann", at=AT, typed=NAME, key="a"
        )
        disk.at_rest()
        before = ledger.facts()
        erased = [covered(fact, spans_of(fact, [NAME], "P-1")) for fact in before]
        what = NamesErased(person="P-1", asked_by="the player", facts=erased_in(erased))
        merger = Merger(site="bench", by="Ann", at=AT, key="b")
        ledger.erase(Erasure(covered=erased, whats=[what], typed=["forgot a player"]), merger, len(before))
        disk.say("erased")
        return before, ledger.facts()


@pytest.mark.parametrize("part", range(PARTS))
def test_it_is_done_whole_or_not_begun(part: int) -> None:
    disk = Disk()
    before, after = worked(disk)
    chance = random.Random(54)
    reached: set[str] = set()
    known: dict[tuple[tuple[str, bytes], ...], bool] = {}
    for operation in range(part, len(disk.log) + 1, PARTS):
        wreck = Wreck(disk, operation)
        said = bool(wreck.said)
        for content in wreck.left(chance, TORN):
            mark = tuple(sorted(content.items()))
            if mark not in known:
                left = Disk(content)
                with engine_on(left) as engine:
                    migrate(engine)
                    ledger = Ledger(engine)
                    facts = ledger.facts()
                    assert ledger.verify() == (), f"operation {operation}"
                    assert facts in (before, after), f"operation {operation}"
                known[mark] = facts == after
                held = any(NAME.encode() in left.files[number] for number in left.names.values())
                # in the record itself, in a journal, or in both: only where it was not erased
                assert held != known[mark], f"operation {operation}"
            reached.add("after" if known[mark] else "before")
            assert known[mark] or not said, f"operation {operation}: it was acknowledged, and is undone"
    assert reached == {"before", "after"}


def test_no_name_of_a_file_is_left_that_was_made_for_it() -> None:
    disk = Disk()
    worked(disk)
    assert set(disk.names) == {RECORD}
