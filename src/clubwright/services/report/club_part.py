"""A club of the record for programs: which it is, its parts, the jobs on it, and who glued it in which."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clubwright.club.part_paths import at_path
from clubwright.journal.job import Job
from clubwright.journal.same_club import founded
from clubwright.services.answer.answer import findings_part
from clubwright.services.jobs.gates import club_findings
from clubwright.services.record.job_lines import said
from clubwright.services.told.club import ClubJobAnswer, ClubJobsAnswer, GluedAnswer, PartAnswer, PlaceAnswer
from clubwright.state.club import KnownClub
from clubwright.ticket.fields.fields import WHICH_PART

PARTS = ("head", "shaft", "grip", "ferrule")
"""Parts of which a ticket says which they are."""


def club_part(jobs: Sequence[Job]) -> ClubJobsAnswer:
    """Return a club: which it is, and the jobs that were on it.

    Args:
        jobs: All on one club, the first one first (`jobs_of_club`).
    """
    site, sequence = founded(jobs)
    return ClubJobsAnswer(
        club=PlaceAnswer(site=site, sequence=sequence),
        parts=tuple(_parts(jobs[-1].parts)),
        jobs=tuple(
            ClubJobAnswer(
                came=job.trail[0].at,
                findings=findings_part(club_findings(job)),
                glued=None if job.glued is None else GluedAnswer(at=job.glued_at, by=job.glued.by),
                job=job.id,
                state="open" if job.finished is None else "closed",
                work=said(job, "job") or "build",
            )
            for job in jobs
        ),
    )


def _parts(club: KnownClub) -> Iterator[PartAnswer]:
    """Return which parts are on a club: what is said of each, and nothing of those of which nothing is."""
    for part in PARTS:
        words = {key: at_path(club, part).word(key) for key in ("name", *WHICH_PART)}
        if any(words.values()):
            yield PartAnswer(part=part, **words)
