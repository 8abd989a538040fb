"""What a bench can have had before it when it wrote a fact: the record says part of it, and leaves the rest open.

A merge says how far its bench had seen every other one (`RecordsMerged`): so far it is sure. What it saw beyond that, as
benches do that write into one record, was some beginning of what the others wrote.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from clubwright.journal.facts import Fact
from clubwright.journal.order import seen_by

Heads = Mapping[str, int]


class Sight:
    """How far each bench had seen the others when it wrote, as its own merges say it.

    Args:
        facts: Of a whole record.
    """

    def __init__(self, facts: Iterable[Fact]) -> None:
        self._merges: dict[str, list[tuple[int, Heads]]] = {}
        for fact in facts:
            heads = seen_by(fact)
            if heads is not None:
                self._merges.setdefault(fact.site, []).append((fact.sequence, heads))

    def of(self, fact: Fact) -> Heads:
        """Return the last number of each bench that is sure to have been seen; none where no merge came before."""
        before = [item for item in self._merges.get(fact.site, ()) if item[0] < fact.sequence]
        return max(before, key=lambda item: item[0])[1] if before else {}


def views(facts: Sequence[Fact], fact: Fact, sure: Heads) -> Iterator[list[Fact]]:
    """Yield the views that a bench can have had when it wrote a fact, the likeliest first.

    All that comes before in the order of time; then its own facts and what it is sure to have seen, with each beginning of
    what the others wrote; then all that comes before, but of one of them only a beginning: a record that came in late.

    Args:
        facts: In order, the fact among them.
        fact: The one that was written.
        sure: The last number of each other bench that its bench had seen.
    """
    own = {each.place for each in facts if each.site == fact.site and each.sequence < fact.sequence}
    others = [each.place for each in facts if each.site != fact.site]
    own |= {(site, number) for site, number in others if number <= sure.get(site, 0)}
    before = facts[: next(at for at, each in enumerate(facts) if each.place == fact.place)]
    yield list(before)
    unsure = [place for place in others if place not in own]
    for count in range(len(unsure) + 1):
        seen = own.union(unsure[:count])
        yield [each for each in facts if each.place in seen]
    sites = sorted({site for site, _ in unsure})
    for late in sites if len(sites) > 1 else ():
        rest = own | {each.place for each in before if each.site != late}
        its = [place for place in unsure if place[0] == late]
        for count in range(len(its)):
            seen = rest.union(its[:count])
            yield [each for each in facts if each.place in seen]
