"""What all laws speak of: facts in the order that the record promises, and a law that does not hold."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.journal.facts import Fact, Place


class LawBroken(Exception):
    """A law does not hold.

    Attributes:
        law: Which.
    """

    def __init__(self, law: str, said: str) -> None:
        self.law = law
        super().__init__(f"{law}: {said}")


def require(law: str, holds: bool, said: str) -> None:
    """Refuse what breaks a law."""
    if not holds:
        raise LawBroken(law, said)


def order(facts: Iterable[Fact]) -> list[Fact]:
    """Sort facts as the record promises: a site's own by number; else by time, none before an earlier one of its site."""
    latest: dict[str, str] = {}
    when: dict[Place, str] = {}
    for fact in sorted(facts, key=lambda fact: fact.place):
        latest[fact.site] = when[fact.place] = max(latest.get(fact.site, ""), fact.at.removesuffix("Z"))
    return sorted(facts, key=lambda fact: (when[fact.place], *fact.place))


def places(facts: Iterable[Fact]) -> str:
    return text(fact.place for fact in facts)


def text(places: Iterable[Place]) -> str:
    return ", ".join(f"{site}/{number}" for site, number in places) or "nothing"
