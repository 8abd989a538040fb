"""The mixes of adhesive of a record, each with all joints that are glued from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta

from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.facts import Fact, Place
from clubwright.journal.mixes import Mix
from clubwright.journal.reducers.fold import Job
from clubwright.services.actions.making.mixes import MADE, TAKEN, joined_by, mix_name, not_for
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.looking_up import name_of
from clubwright.services.record.session import Session, utc_text
from clubwright.services.told.club import MixesAnswer, MixJoint, MixRow
from clubwright.state.particulars import in_si

MOST_DAYS = 36500


def mixes(session: Session, days: int | None = None) -> tuple[MixRow, ...]:
    """Return the mixes of the record that stand, newest first, with their joints on all jobs, open and closed.

    Args:
        session: Who and where.
        days: Only those mixed in so many days until now, 1 to `MOST_DAYS`; every one when None.

    Raises:
        InputError: for another number of days.
    """
    if days is not None and not 0 < days <= MOST_DAYS:
        mend = f"Give a whole number of days from 1 to {MOST_DAYS}, or leave it out for every mix."
        raise InputError([Finding(where="days", what=f"{days} is no such number of days", mend=mend)])
    since = None if days is None else utc_text(session.now() - timedelta(days=days))
    if since is None:
        jobs = session.shop().jobs
    else:
        facts = session.ledger.readable(kinds=(MADE, TAKEN), since=since).facts
        jobs = {job.id: job for job in _jobs_of(session, facts)}
    made = [(mix, maker) for maker in jobs.values() for mix in maker.made_mixes.values()]
    made = [(mix, maker) for mix, maker in made if since is None or since < mix.mixed_at]
    glued: dict[Place, list[MixJoint]] = {}
    for job in jobs.values():
        for place in joined_by(job):
            joint = MixJoint(job=job.id, glued=job.glued_at is not None, finished=job.finished is not None)
            glued.setdefault(place, []).append(joint)
    rows = [_row(mix, maker, tuple(glued.get(mix.place, ()))) for mix, maker in made]
    return tuple(sorted(rows, key=lambda row: (row.mixed_at, row.mix), reverse=True))


def mixes_answer(session: Session, days: int | None = None) -> MixesAnswer:
    """Return the same list as a program is answered with it."""
    return MixesAnswer(schema=1, mixes=mixes(session, days))


def mixes_at_hand(session: Session, job: Job) -> tuple[MixRow, ...]:
    """Return the mixes of other jobs that a job's joint may still be glued from, by the pot life on its own ticket."""
    row = ticket_of(job).club.adhesive
    life_s = in_si(row.pot_life)
    if life_s is None or job.finished is not None:
        return ()
    since = utc_text(session.now() - timedelta(seconds=life_s))
    made = [fact for fact in session.ledger.readable(kinds=(MADE,), since=since).facts if since < fact.done_at]
    found: list[MixRow] = []
    for maker in _jobs_of(session, made):
        if maker.place == job.place:
            continue
        fresh = [mix for mix in maker.made_mixes.values() if since < mix.mixed_at and not not_for(session, job, mix)]
        found += [_row(mix, maker, ()) for mix in fresh]
    return tuple(found)


def _jobs_of(session: Session, facts: Iterable[Fact]) -> Iterator[Job]:
    """Give the jobs that facts are of: only these are read, and one that cannot be is told in the list of jobs."""
    for name in dict.fromkeys(name_of(fact) for fact in facts):
        try:
            job = session.job(name)
        except ClubwrightError:
            continue
        yield job


def _row(mix: Mix, maker: Job, joints: tuple[MixJoint, ...]) -> MixRow:
    return MixRow(
        mix=mix_name(mix.place),
        made_on=maker.id,
        weighed=f"{mix.part_a} + {mix.part_b}",
        batch=mix.batch,
        mixed_at=mix.mixed_at,
        bad=maker.bad_mixes.get(mix.place),
        joints=tuple(sorted(joints, key=lambda joint: joint.job)),
    )
