"""A call of one of the program's own services, and what is at hand when it is chosen."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import msgspec
from forgeries import FORGER
from shop import Bench, Shop

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact, Place
from clubwright.journal.job import Job
from clubwright.journal.reducers.fold import fold_job, require_listable
from clubwright.services.actions import bench as actions
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in


class Call(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is about to be done.

    Attributes:
        label: In words.
        job: Job that it is about; empty for all of them.
        run: Does it, at a session, with a key.
        merges: Whether it takes in another record.
        honest: Whether every fact in that is one that its bench wrote.
        replaces: The fact that is undone with it, where it takes the place of one.
    """

    label: str
    job: str = ""
    run: Callable[[Session, str], object]
    merges: bool = False
    honest: bool = True
    replaces: Place | None = None


class Scene(msgspec.Struct, frozen=True, kw_only=True):
    """What is at hand when an action begins: the job is the one chosen, None where there is none that folds."""

    shop: Shop
    bench: Bench
    session: Session
    chance: random.Random
    name: str
    job: Job | None
    facts: tuple[Fact, ...]


def scene_of(shop: Shop, bench: Bench, hand: int, job: int | str, pick: int) -> Scene:
    """Look around before an action: at the job of a number, or at the so-and-so-many-th of those that are there.

    It is only looked at what the bench holds, not asked of its record: what an action asks is asked by the action.
    """
    jobs = bench.jobs()
    names = list(jobs)
    name = job if isinstance(job, str) else names[job % len(names)] if names else ""
    state = None
    if name in jobs:
        try:
            state = fold_job(jobs[name], name)
            if state is not None:
                require_listable(state)
        except ClubwrightError:
            state = None
    facts = jobs[name].facts if name in jobs else ()
    chance = random.Random(pick)
    return Scene(shop=shop, bench=bench, session=bench.session(hand), chance=chance, name=name, job=state, facts=facts)


def on_the_job(at: Scene, label: str, act: Callable[..., object], *values: Any, **more: Any) -> Call:
    """Return a call of one of the bench actions on the job."""
    name = at.name
    return Call(
        label=f"{label} on {name}", job=name, run=lambda session, key: act(session, name, *values, key=key, **more)
    )


def taking(label: str, document: dict[str, Any]) -> Call:
    """Return a call that takes a ticket in."""
    return Call(
        label=f"{label} as {document['ticket']['id']}",
        job=document["ticket"]["id"],
        run=lambda session, key: actions.take_ticket(session, document, "t.toml", key),
    )


def taking_in(label: str, facts: list[Fact], *, forged: bool = False) -> Call:
    """Return the call that takes in another record."""
    honest = not forged and not any(fact.by == FORGER for fact in facts)
    return Call(label=label, run=lambda session, _: take_in(session, facts), merges=True, honest=honest)


def one_of(verb: str, act: Callable[..., object], *choices: tuple[Any, ...]) -> Callable[[Scene], Call]:
    """Return what makes a call of one bench action, with one of several lists of values."""

    def choose(at: Scene) -> Call:
        values = at.chance.choice(choices)
        return on_the_job(at, " ".join([verb, *map(str, values)]), act, *values)

    return choose
