"""Which jobs are on one club: each job says which one came before it, and the club is what hangs together by that.

A club *is* the place of the fact that took its first job in. A job that names no earlier one is the first of a club of its
own. Decision 0011.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from clubwright.journal.facts import (
    ClubCameBack,
    ClubSaid,
    DeviationAccepted,
    Fact,
    Finished,
    GateSigned,
    Place,
    Renumbered,
    StepDone,
    TicketTaken,
    Undone,
    What,
)
from clubwright.journal.job import Job
from clubwright.journal.standing import standing_target

LEAVES_THE_CLUB = (ClubCameBack, DeviationAccepted, Finished, GateSigned, Renumbered, StepDone)
"""What may be written of a job without anything being other on its club, or known otherwise."""


def jobs_together(jobs: Mapping[Place, Job]) -> list[list[Job]]:
    """Part jobs by the club that they are on, each club's in the order in which the jobs are given.

    Args:
        jobs: By place; one that names an earlier job that is not among them is the first that is known of its club.
    """
    near: dict[Place, set[Place]] = {}
    for place, job in jobs.items():
        if job.earlier is not None and job.earlier in jobs:
            near.setdefault(place, set()).add(job.earlier)
            near.setdefault(job.earlier, set()).add(place)
    found: list[list[Job]] = []
    known: set[Place] = set()
    for first in jobs:
        if first in known:
            continue
        mine, waiting = {first}, [first]
        while waiting:
            fresh = near.get(waiting.pop(), set()) - mine
            mine |= fresh
            waiting += fresh
        known |= mine
        found.append([job for place, job in jobs.items() if place in mine])
    return found


def with_clubs(jobs: Mapping[Place, Job], facts: Sequence[Fact]) -> dict[Place, Job]:
    """Return jobs with what is to be known of each because of the others on its club.

    Args:
        jobs: By place.
        facts: Of all of them, in order.
    """
    if not any(job.earlier in jobs for job in jobs.values()):
        return dict(jobs)
    changed = _last_changes(facts)
    at = {fact.place: number for number, fact in enumerate(facts)}
    void = {(line.site, line.sequence) for job in jobs.values() for line in job.trail if line.undone}
    began = {
        place: max((at[fact.place] for fact in facts if _begins(fact, place) and fact.place not in void), default=-1)
        for place, job in jobs.items()
        if job.earlier in jobs
    }
    found = dict(jobs)
    for mine in jobs_together(jobs):
        opened = [job for job in mine if job.finished is None]
        for job in mine if len(mine) > 1 else ():
            others = tuple(other.id for other in opened if other is not job) if job in opened else ()
            before = jobs.get(job.earlier) if job.earlier is not None else None
            since = before is not None and changed.get(before.place, -1) > began[job.place]
            worked = before.id if before is not None and since and job.finished is None else ""
            found[job.place] = msgspec.structs.replace(job, also_open=others, worked_since=worked)
    return found


def _begins(fact: Fact, place: Place) -> bool:
    """True for what says with which club a job begins."""
    if isinstance(fact.what, TicketTaken):
        return fact.place == place
    return isinstance(fact.what, ClubSaid) and fact.what.subject == place


def _last_changes(facts: Sequence[Fact]) -> dict[Place, int]:
    """Return for each job which fact, counted in order, last made its club, or what is known of it, another one."""
    by_place = {fact.place: fact for fact in facts}
    found: dict[Place, int] = {}
    for number, fact in enumerate(facts):
        subject = fact.place if isinstance(fact.what, TicketTaken) else fact.what.subject
        if isinstance(subject, tuple) and not isinstance(_meant(fact, by_place), LEAVES_THE_CLUB):
            found[subject] = number
    return found


def _meant(fact: Fact, by_place: Mapping[Place, Fact]) -> What:
    """Return what a fact is about in the end: of an undo, what it brings back or takes away."""
    seen: set[Place] = set()
    while isinstance(fact.what, Undone) and fact.place not in seen:
        seen.add(fact.place)
        target = standing_target(fact, by_place)
        if target is None:
            break
        fact = target
    return fact.what


def founded(jobs: Iterable[Job]) -> Place:
    """Return which club jobs are on: the fact that took the first of them in.

    Args:
        jobs: All that are known on it, the first one first.
    """
    return next(iter(jobs)).place
