"""What is kept while shops are played changes nothing of them, and hides nothing from the laws."""

from __future__ import annotations

import random
from contextlib import nullcontext

import pytest
from hands import drawn
from once import KEYS, forget, worked_once
from playing import play

from clubwright.journal.reducers import fold as folding
from clubwright.ticket import read as reading
from journal_facts import TICKET, chained
from laws import folded_anew


def test_a_history_is_the_same_when_everything_is_worked_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = play(drawn(11))
    monkeypatch.setattr("playing.worked_once", nullcontext)
    assert play(drawn(11)).digest == kept.digest


def test_every_function_is_in_its_place_while_it_is_played_and_back_afterwards() -> None:
    before = {function.__name__: function for function in KEYS}
    with worked_once():
        assert folding.fold_job is not before["fold_job"]
        assert reading.read_ticket is not before["read_ticket"]
    assert folding.fold_job is before["fold_job"]
    assert reading.read_ticket is before["read_ticket"]


def test_a_result_that_somebody_changed_is_found_by_what_is_worked_anew() -> None:
    facts = chained([TICKET])
    with worked_once():
        job = next(iter(folding.fold_each(facts).jobs.values()))
        assert folding.fold_each(facts) == folded_anew(facts, random.Random(1))
        job.document["ticket"]["label"] = "changed behind its back"
        assert folding.fold_each(facts) != folded_anew(facts, random.Random(1))
        forget()
        assert folding.fold_each(facts) == folded_anew(facts, random.Random(1))
