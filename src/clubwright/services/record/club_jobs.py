"""The jobs on one club, looked for from any of them: only the facts of their own numbers are read."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact, Place
from clubwright.journal.names import exact_name
from clubwright.journal.reducers.fold import Job, Shop, fold_job, require_listable
from clubwright.journal.same_club import jobs_together, with_clubs
from clubwright.journal.subjects import subjects_of
from clubwright.services.record.ledger import LedgerPort
from clubwright.services.record.looking_up import look_up


def club_jobs(ledger: LedgerPort, job: Job) -> tuple[Job, ...]:
    """Return all jobs on the club of one job, the first one first, each with what it has to know of the others.

    One whose state is not known is told on its own page, and left out here.
    """
    wanted: set[str] = set(job.numbers[:1])
    while True:
        found = ledger.readable(sorted(wanted))
        damaged = {name for item in found.damage for name in item.jobs}
        jobs = _folded([fact for fact in found.facts if fact.what.job not in damaged])
        mine = next((group for group in jobs_together(jobs) if any(each.place == job.place for each in group)), [])
        named = {number for each in mine for number in (each.earlier_job, *each.later_jobs) if number}
        if named <= wanted:
            break
        wanted |= named
    if len(mine) < 2:
        return (job,)
    named_jobs = {each.place: msgspec.structs.replace(each, id=_name(ledger, each)) for each in mine}
    return tuple(with_clubs(named_jobs, found.facts).values())


def with_club(ledger: LedgerPort, job: Job) -> Job:
    """Return a job with what it has to know of the others on its club."""
    if job.finished is not None or (job.earlier is None and not job.later_jobs):
        return job
    return next(each for each in club_jobs(ledger, job) if each.place == job.place)


def shop_with_clubs(shop: Shop, facts: list[Fact]) -> Shop:
    """Return the shop with each job knowing of the others on its club."""
    names = {job.place: name for name, job in shop.jobs.items()}
    found = with_clubs({job.place: job for job in shop.jobs.values()}, facts)
    return msgspec.structs.replace(shop, jobs={names[place]: job for place, job in found.items()})


def came_in(ledger: LedgerPort, jobs: Iterable[Job]) -> list[Place]:
    """Return jobs by their places, in the order in which they came in."""
    wanted = {job.place: job.numbers[0] for job in jobs}
    return [fact.place for fact in ledger.readable(sorted(set(wanted.values()))).facts if fact.place in wanted]


def _folded(facts: list[Fact]) -> dict[Place, Job]:
    found: dict[Place, Job] = {}
    for place, subject in subjects_of(facts).items():
        try:
            job = fold_job(subject, subject.number)
            if job is not None:
                require_listable(job)
                found[place] = job
        except ClubwrightError:
            continue
    return found


def _name(ledger: LedgerPort, job: Job) -> str:
    return look_up(ledger, exact_name(job.numbers[0], job.place)).name
