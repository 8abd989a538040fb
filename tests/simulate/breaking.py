"""A law that does not hold, and how its facts are named."""

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


def places(facts: Iterable[Fact]) -> str:
    return text(fact.place for fact in facts)


def text(places: Iterable[Place]) -> str:
    return ", ".join(f"{site}/{number}" for site, number in places) or "nothing"
