"""Trying facts on a job as it stands, before they are kept: what would be wrong then, and nothing else that is odd on it."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.facts import Fact, ReadingTaken, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.checks.after_the_end import require_possible
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.done_at import require_in_order
from clubwright.services.record.looking_up import LookedUp, look_up
from clubwright.services.record.session import Along, Session, nothing_along


def state_if_sound(found: LookedUp) -> Job | None:
    """Fold a job; one that does not fold may still be mended by an undo."""
    try:
        return found.job()
    except ClubwrightError:
        return None


def try_on(
    session: Session,
    found: LookedUp,
    before: Job | None,
    whats: Sequence[What],
    seen: int,
    along: Along = nothing_along,
) -> Sequence[tuple[What, str]]:
    """Work the job with all that is to be kept, and read its ticket at each fact on the way there.

    Returns what is kept along with them, bound to the job, as it was tried on the job that they leave.

    Args:
        session: Who and where.
        found: The job and its facts.
        before: It as it stands; None where it does not fold.
        whats: What is to be kept, bound to the job.
        seen: Last fact of this site.
        along: What is kept along with them.

    Raises:
        ClubwrightError: when it could not have happened. Findings are those that refuse it: the warnings that a ticket has
            anyhow are no reason to refuse what is sent now.
    """
    at = found.facts[-1].at if found.facts else ""

    def trial(number: int, what: What) -> Fact:
        return Fact(
            site=session.site,
            sequence=seen + number,
            at=at,
            by=session.by,
            typed="",
            what=what,
            key="trial",
            previous_hash="",
            hash="",
        )

    trials = [trial(number, what) for number, what in enumerate(whats, start=1)]
    left: Job | None = None
    try:
        # the whole first, since it has every finding; then what stands while only the first of them are there, as it does
        # for a bench that merges them one by one
        for count in (len(trials), *range(1, len(trials))):
            after = found.after(*trials[:count])
            left = after if count == len(trials) else left
            require_in_order(before, whats[count - 1])
            require_possible(before, after, whats[count - 1])
            # a reading that is understood can always be worked: one that does not fit is kept aside. A document that the
            # reader takes is still one whose plan may not be possible: both are tried
            if after is not None and count == len(trials) and not isinstance(whats[-1], ReadingTaken):
                answer_job(after, session.now())
        more = [] if left is None else [(found.bound(what), text) for what, text in along(before, left)]
        for number, (what, _) in enumerate(more, start=len(trials) + 1):
            trials.append(trial(number, what))
            require_possible(before, found.after(*trials), what)
        return more
    except InputError as refused:
        raise InputError(_that_refuse(refused.findings)) from refused


def findings_on(session: Session, job: str, whats: Sequence[What]) -> tuple[Finding, ...]:
    """Return what the ticket's reader would find wrong with facts, to be told beside what else is wrong with them."""
    found = look_up(session.ledger, job)
    try:
        seen = session.ledger.last(session.site)
        try_on(session, found, state_if_sound(found), [found.bound(what) for what in whats], seen)
    except InputError as refused:
        return refused.findings
    except ClubwrightError:
        pass  # told when what is wrong by itself is mended
    return ()


def _that_refuse(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.severity == "error") or tuple(findings)
