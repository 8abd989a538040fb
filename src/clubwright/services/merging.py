"""Bring what another bench wrote into this record: all of it, or nothing where the two contradict each other."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.errors import ClubwrightError, RecordError
from clubwright.journal.facts import Fact
from clubwright.journal.fold import fold
from clubwright.journal.order import by_job, merge
from clubwright.services.desk import Desk


def take_in(desk: Desk, facts: Sequence[Fact]) -> int:
    """Take in another record's facts, and return how many were new.

    Signatures come along, so this asks for "sign off".

    Raises:
        NotAllowed: when this person may not sign.
        RecordError: when the records differ in one fact, use one key for two, or make no sound job together; nothing is
            taken in.
    """
    desk.require("sign off")
    union = merge(desk.ledger.facts(), facts)
    _one_fact_for_each_key(union)
    _sound_together(union, {fact.what.job for fact in facts})
    return desk.ledger.receive(facts)


def _one_fact_for_each_key(union: Sequence[Fact]) -> None:
    first: dict[str, Fact] = {}
    for fact in union:
        there = first.setdefault(fact.key, fact)
        if there is not fact:
            raise RecordError(
                f'{there.site}/{there.sequence} ("{there.typed}") and {fact.site}/{fact.sequence} ("{fact.typed}") have the '
                f'same key "{fact.key}", and a record holds each key once. Nothing was taken in: leave --key out, so that '
                "every action gets its own"
            )


def _sound_together(union: Sequence[Fact], jobs: set[str]) -> None:
    """Fold each job that comes in as it would stand; a number that both benches gave away is the usual fault."""
    of_job = by_job(union)
    for job in sorted(jobs):
        try:
            fold(of_job[job])
        except ClubwrightError as refused:
            raise RecordError(
                f"job {job} would not stand: {refused}. Nothing was taken in: mend it at the bench it belongs to, then merge"
            ) from refused
