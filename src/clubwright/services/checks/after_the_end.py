"""A job that is finished stays as it was signed; and a fact is possible only where a ticket is left that can be read."""

from __future__ import annotations

import msgspec

from clubwright.errors import RecordError
from clubwright.journal.answered_for import answered_for
from clubwright.journal.facts import ClubSaid, Undone, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.checks.job_ticket import ticket_of


def require_possible(before: Job | None, after: Job | None, what: What) -> None:
    """Refuse one more fact that could not have happened on a job.

    Args:
        before: The job; None where there is none, or it does not fold.
        after: The job with that fact; None when nothing of it stands then.
        what: What happened.

    Raises:
        ClubwrightError: when it could not.
    """
    if after is not None:
        _refuse_after_the_end(before, after, what)
        ticket_of(after)


def _refuse_after_the_end(before: Job | None, after: Job, what: What) -> None:
    """A finished job stays as it was signed: steps may be ticked, nothing that a verdict rests on may change.

    What was read in an earlier job on the same club is no part of any verdict: that may be said later too.

    Where two benches closed it, one end may be undone while the other still stands.
    """
    if before is None or before.finished is None or after.finished is None or isinstance(what, ClubSaid):
        return
    if isinstance(what, Undone):
        after = msgspec.structs.replace(after, finished=before.finished)
    if answered_for(before) != answered_for(after):
        raise RecordError(
            f"job {before.id} is finished (fact {before.finished.sequence}): to go on with it, undo that first"
        )
