"""The mixes of adhesive of a record, each with all joints that are glued from it."""

from __future__ import annotations

from datetime import timedelta

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Place
from clubwright.journal.fold import Job
from clubwright.journal.mixes import BadMix, Mix
from clubwright.services.desk import Desk, utc_text
from clubwright.services.job_ticket import ticket_of
from clubwright.services.looking_up import name_of
from clubwright.services.mixes import MADE, joined_by, mix_name, not_for
from clubwright.state.particulars import in_si


class MixJoint(msgspec.Struct, frozen=True, kw_only=True):
    """A job whose joint is glued from a mix, or to be.

    Attributes:
        job: Name of the job.
        glued: Whether the joint is closed.
        finished: Whether the job is.
    """

    job: str
    glued: bool
    finished: bool


class MixRow(msgspec.Struct, frozen=True, kw_only=True):
    """A mix of the record.

    Attributes:
        mix: What it was made by, as ``SITE/NUMBER``.
        made_on: Job that it was made on.
        weighed: Part A and part B, as typed.
        batch: Lot of the product.
        mixed_at: When, UTC, ISO 8601 with Z.
        bad: Why it is bad, and who says so; None while nobody does.
        joints: What is glued from it, or to be.
    """

    mix: str
    made_on: str
    weighed: str
    batch: str
    mixed_at: str
    bad: BadMix | None
    joints: tuple[MixJoint, ...]


def mixes(desk: Desk) -> tuple[MixRow, ...]:
    """Return every mix of the record that stands, newest first, with its joints on all jobs, open and closed."""
    jobs = desk.shop().jobs
    made = [(mix, maker) for maker in jobs.values() for mix in maker.made_mixes.values()]
    glued: dict[Place, list[MixJoint]] = {}
    for job in jobs.values():
        for place in joined_by(job):
            joint = MixJoint(job=job.id, glued=job.glued_at is not None, finished=job.finished is not None)
            glued.setdefault(place, []).append(joint)
    rows = [_row(mix, maker, tuple(glued.get(mix.place, ()))) for mix, maker in made]
    return tuple(sorted(rows, key=lambda row: row.mixed_at, reverse=True))


def mixes_at_hand(desk: Desk, job: Job) -> tuple[MixRow, ...]:
    """Return the mixes of other jobs that a job's joint may still be glued from, by the pot life on its own ticket."""
    row = ticket_of(job).club.adhesive
    life_s = in_si(row.pot_life)
    if life_s is None or job.finished is not None:
        return ()
    since = utc_text(desk.now() - timedelta(seconds=life_s))
    made = [fact for fact in desk.ledger.readable(kinds=(MADE,)).facts if since < fact.done_at]
    found: list[MixRow] = []
    for name in dict.fromkeys(name_of(fact) for fact in made):
        try:
            maker = desk.job(name)
        except ClubwrightError:
            continue  # it is told in the list of jobs
        if maker.place == job.place:
            continue
        fresh = [mix for mix in maker.made_mixes.values() if since < mix.mixed_at and not not_for(desk, job, mix)]
        found += [_row(mix, maker, ()) for mix in fresh]
    return tuple(found)


def _row(mix: Mix, maker: Job, joints: tuple[MixJoint, ...]) -> MixRow:
    return MixRow(
        mix=mix_name(mix.place),
        made_on=maker.id,
        weighed=f"{mix.part_a} + {mix.part_b}",
        batch=mix.batch,
        mixed_at=mix.mixed_at,
        bad=maker.bad_mixes.get(mix.place),
        joints=joints,
    )
