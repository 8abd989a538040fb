"""A law that does not hold, and how its facts are named."""

from __future__ import annotations

import traceback
from collections.abc import Iterable
from pathlib import Path

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


def broken_by(fault: Exception, said: str = "") -> LawBroken:
    """Return the law that something raised breaks: its own, or that nothing is raised, named by its kind and its place.

    Args:
        fault: What was raised, by the program or by the simulation itself.
        said: In what.
    """
    if isinstance(fault, LawBroken):
        return fault
    at = traceback.extract_tb(fault.__traceback__)[-1]
    law = f"no exception: {type(fault).__name__} in {Path(at.filename).name}, {at.name}"
    return LawBroken(law, f"{said}{fault} (line {at.lineno})")


def places(facts: Iterable[Fact]) -> str:
    return text(fact.place for fact in facts)


def text(places: Iterable[Place]) -> str:
    return ", ".join(f"{site}/{number}" for site, number in places) or "nothing"
