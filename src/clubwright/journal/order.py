"""One order of facts for everybody: by time, but never against a site's own numbering; and the union of two records."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, Place


def in_order(facts: Iterable[Fact]) -> list[Fact]:
    """Sort facts by (time, site, sequence).

    A site's own numbering comes first: where its clock stepped back, a fact counts as written no earlier than the one
    before it, so that an undo never comes before what it undoes.
    """
    latest: dict[str, str] = {}
    keyed: list[tuple[str, str, int, Fact]] = []
    for fact in sorted(facts, key=lambda fact: fact.place):
        # without the Z, a whole second sorts before its own fractions
        latest[fact.site] = max(latest.get(fact.site, ""), fact.at.removesuffix("Z"))
        keyed.append((latest[fact.site], fact.site, fact.sequence, fact))
    keyed.sort(key=lambda row: row[:3])
    return [row[3] for row in keyed]


def merge(facts_a: Iterable[Fact], facts_b: Iterable[Fact]) -> list[Fact]:
    """Return the union of two records, in order.

    Raises:
        RecordError: when both hold different facts under one site and number: two benches wrote under one site's name,
            or one of the records was changed.
    """
    union: dict[Place, Fact] = {}
    for fact in (*facts_a, *facts_b):
        there = union.setdefault(fact.place, fact)
        if there != fact:
            raise RecordError(
                f"the records differ in fact {fact.site}/{fact.sequence}: verify both, and see whether two benches "
                f'write as "{fact.site}"; give each its own site name'
            )
    return in_order(union.values())
