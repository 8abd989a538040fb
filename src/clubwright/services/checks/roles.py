"""What a person may do at the bench, and which role each kind of fact needs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from clubwright.journal.facts import (
    DeviationAccepted,
    Fact,
    Finished,
    GateSigned,
    MixCalledBad,
    NamesErased,
    OrderChanged,
    Undone,
    What,
)

Role = Literal["look", "work", "sign off"]
ROLES: tuple[Role, ...] = ("look", "work", "sign off")
"""What a person may do, each including those before it."""


_SIGNED = (DeviationAccepted, Finished, GateSigned, NamesErased, OrderChanged)
"""What a person answers for."""


def covers(role: Role, needed: Role) -> bool:
    """True when a role includes another."""
    return ROLES.index(role) >= ROLES.index(needed)


def role_of_kind(kind: type[What]) -> Role:
    """Return the role that writing a kind of fact needs; of an undo, the least it can."""
    return "sign off" if issubclass(kind, _SIGNED) else "work"


def role_for(what: What, facts: Iterable[Fact], site: str) -> Role:
    """Return the role that writing a fact needs.

    A signature, what is accepted by name, another order, and the end of a job need "sign off"; anybody who works may call a
    mix bad, and it takes "sign off" to take that back. So does reversing one, and reversing that reversal: else a person who
    may only work could bring a signature back that was withdrawn.

    Args:
        what: The fact.
        facts: Facts of its job, in which an undo's target is looked up.
        site: Bench that writes, where the undo names none.
    """
    if not isinstance(what, Undone):
        return role_of_kind(type(what))
    known = list(facts)
    seen: set[tuple[str, int]] = set()
    targets = _targets(what, site, known)
    while targets:
        fact = targets.pop()
        if isinstance(fact.what, (*_SIGNED, MixCalledBad)):
            return "sign off"
        if isinstance(fact.what, Undone) and fact.place not in seen:
            seen.add(fact.place)
            targets += _targets(fact.what, fact.site, known)
    return "work"


def _targets(what: Undone, site: str, facts: list[Fact]) -> list[Fact]:
    """Return what an undo may mean: where it names no bench and its own has no such fact, every bench's with that number."""
    named = [fact for fact in facts if fact.place == (what.site or site, what.fact)]
    if what.whole is True and named:
        return [fact for fact in facts if fact.action == named[0].action]
    return named or [fact for fact in facts if what.site is None and fact.sequence == what.fact]
