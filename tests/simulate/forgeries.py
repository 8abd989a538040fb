"""Records that somebody tampered with: most could not have been written by any bench, and none may do harm."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

import msgspec
from shop import Bench

from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, Glued, ReadingTaken, StepDone, What
from clubwright.journal.order import in_order

FORGER = "Mallory"
Forger = Callable[[Bench, Bench, random.Random], list[Fact]]
"""Makes a record for one bench out of another one's; empty where there is nothing to forge."""


def _site(bench: Bench, site: str) -> list[Fact]:
    return [fact for fact in in_order(bench.kept.values()) if fact.site == site]


def _changed(mine: Bench, theirs: Bench, chance: random.Random) -> list[Fact]:
    """One fact says who wrote it otherwise, and keeps its hash."""
    facts = list(theirs.kept.values())
    if facts:
        number = chance.randrange(len(facts))
        facts[number] = msgspec.structs.replace(facts[number], by=FORGER)
    return facts


def _gap(mine: Bench, theirs: Bench, chance: random.Random) -> list[Fact]:
    """Facts are missing in the middle."""
    facts = in_order(theirs.kept.values())
    last = {fact.site: fact for fact in facts}
    inner = [fact for fact in facts if last[fact.site] is not fact and fact.place not in mine.kept]
    gone = chance.choice(inner) if inner else None
    return [] if gone is None else [fact for fact in facts if fact is not gone]


def _another_end(mine: Bench, theirs: Bench, chance: random.Random) -> list[Fact]:
    """The last fact of a bench is another one, with a valid hash: the bench went on from an old copy of its record."""
    own = [fact for fact in _site(theirs, theirs.site) if fact.place in mine.kept]
    if not own:
        return []
    last = own[-1]
    what = StepDone(job=last.what.job, step="weigh", note="not what was there")
    return [*own[:-1], _sealed(what, theirs.site, own[:-1], last.at)]


def _stranger(what: Callable[[str], What]) -> Forger:
    """A bench that nobody knows writes about a job that is there."""

    def forge(mine: Bench, theirs: Bench, chance: random.Random) -> list[Fact]:
        numbers = sorted(mine.numbers())
        if not numbers:
            return []
        at = max(fact.at for fact in mine.kept.values())
        return [_sealed(what(chance.choice(numbers)), f"stranger {chance.randrange(10**6)}", [], at)]

    return forge


def _sealed(what: What, site: str, before: Sequence[Fact], at: str) -> Fact:
    last = before[-1] if before else None
    return seal(
        what,
        site=site,
        sequence=1 if last is None else last.sequence + 1,
        at=at,
        by=FORGER,
        typed="forged",
        key=f"forged-{site}",
        previous_hash=GENESIS if last is None else last.hash,
    )


def _nonsense(job: str) -> What:
    return ReadingTaken(job=job, quantity="colour", value="blue", stage="finished", weights=["none such"])


FORGED: dict[str, Forger] = {
    "a fact changed": _changed,
    "a gap": _gap,
    "another end": _another_end,
    "a job that is not there": lambda mine, theirs, chance: [
        _sealed(StepDone(job="T-0", step="weigh"), "stranger", [], "2026-03-02T09:00:00.000Z")
    ],
    "glued by a stranger": _stranger(lambda job: Glued(job=job, temperature="22 C")),
    "nonsense by a stranger": _stranger(_nonsense),
}
"""Kinds of forgeries. The last two could have happened as far as a record can tell: they may pass, and every list opens."""

IMPOSSIBLE = ("a fact changed", "a gap", "another end", "a job that is not there")
