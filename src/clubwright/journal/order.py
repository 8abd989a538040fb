"""One order of facts for everybody: by time, but never against a site's own numbering; and the union of two records."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, Place


class Latest(msgspec.Struct, frozen=True):
    """How far a site's facts were read: the last number, and the moment that nothing later can come before."""

    sequence: int
    moment: str


def moments(rows: Iterable[tuple[str, int, str]], latest: dict[str, Latest] | None = None) -> dict[Place, str]:
    """Return when each fact counts as written, for sorting.

    A site's own numbering comes first: where its clock stepped back, a fact counts as written no earlier than the one
    before it, so that an undo never comes before what it undoes.

    Args:
        rows: Site, sequence and time of every fact of the record; or only of those after ``latest``.
        latest: How far each site was read before; brought up to date.
    """
    latest = {} if latest is None else latest
    found: dict[Place, str] = {}
    for site, sequence, at in sorted(rows):
        # without the Z, a whole second sorts before its own fractions
        before = latest[site].moment if site in latest else ""
        latest[site] = Latest(sequence, max(before, at.removesuffix("Z")))
        found[(site, sequence)] = latest[site].moment
    return found


def in_order(facts: Iterable[Fact], written: Mapping[Place, str] | None = None) -> list[Fact]:
    """Sort facts by (time, site, sequence).

    Args:
        facts: In any order.
        written: From `moments` over the whole record, when these are only some of its facts.
    """
    listed = list(facts)
    when = moments((fact.site, fact.sequence, fact.at) for fact in listed) if written is None else written
    return sorted(listed, key=lambda fact: (when[fact.place], *fact.place))


def by_job(facts: Iterable[Fact]) -> dict[str, list[Fact]]:
    """Return the facts that name each ticket number, in the order they have."""
    found: dict[str, list[Fact]] = {}
    for fact in facts:
        found.setdefault(fact.what.job, []).append(fact)
    return found


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
