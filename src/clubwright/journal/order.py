"""One order of facts for everybody: what a bench had seen comes first, then the clock; and the union of two records."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, NamesErased, Place, RecordsMerged
from clubwright.journal.timeline import Heads, Moment, Timeline


def seen_by(fact: Fact) -> Heads | None:
    """Return the last number of each bench that a merge had seen; None for any other fact."""
    if not isinstance(fact.what, RecordsMerged):
        return None
    return {site: number for site, (number, _) in fact.what.heads.items()}


def in_order(facts: Iterable[Fact], written: Mapping[Place, Moment] | None = None) -> list[Fact]:
    """Sort facts by moment (`clubwright.journal.timeline`), then by site and sequence.

    Args:
        facts: In any order.
        written: Moments of the whole record, when these are only some of its facts.
    """
    listed = list(facts)
    written = written_in(listed) if written is None else written
    return sorted(listed, key=lambda fact: (written[fact.place], *fact.place))


def written_in(facts: Iterable[Fact]) -> Mapping[Place, Moment]:
    """Return the moment of each fact of a whole record."""
    listed = list(facts)
    timeline = Timeline()
    saw = {fact.place: heads for fact in listed if (heads := seen_by(fact)) is not None}
    timeline.add({(fact.site, fact.sequence, fact.at) for fact in listed}, saw)
    return timeline.moments


def by_job(facts: Iterable[Fact]) -> dict[str, list[Fact]]:
    """Return the facts that name each ticket number, in the order they have; not those that are about no job."""
    found: dict[str, list[Fact]] = {}
    for fact in facts:
        if isinstance(fact.what, RecordsMerged | NamesErased):
            continue
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
