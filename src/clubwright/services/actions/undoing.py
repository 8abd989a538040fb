"""The undo: a new fact reverses an earlier action, with all that it wrote, and nothing is taken out of the record."""

from __future__ import annotations

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, TicketTaken, Undone, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.record.ledger import LedgerPort
from clubwright.services.record.looking_up import exact_of, subject_of
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open


def undo(
    session: Session,
    job: str,
    fact: int | None = None,
    reason: str = "",
    *,
    site: str | None = None,
    key: str | None = None,
) -> Fact:
    """Reverse an earlier action on a job by a new fact; the last that stands when none is named.

    All that the same action wrote is reversed with it, also on another job.

    A ticket can be undone once nothing else of its job stands: then the record has no such ticket any more.

    Raises:
        RecordError: when there is nothing to undo, or the fact is not one of this job's.
    """

    def make(state: Job | None) -> What:
        _keep_ticket(state, fact, site or session.site)
        if fact is not None:
            return Undone(job=job, fact=fact, reason=reason, site=site, whole=True)
        last = require_open(state, job).last_standing_line()
        return Undone(job=job, fact=last.sequence, reason=reason, site=last.site, whole=True)

    def same(what: What) -> bool:
        return isinstance(what, Undone) and fact in (None, what.fact) and what.reason == reason

    def beside(what: What) -> list[Undone]:
        assert isinstance(what, Undone)  # what is made above
        return undos_beside(session.ledger, what, session.site)

    about = None if fact is None else (site or session.site, fact)
    return keep(
        session,
        job,
        make,
        typed=lambda what: _undo_text(what, session.site),
        same=same,
        key=key,
        about=about,
        beside=beside,
    )


def undos_beside(ledger: LedgerPort, undo: Undone, site: str) -> list[Undone]:
    """Return the undos of what the same action wrote on other jobs than the one of an undo.

    Args:
        ledger: The record.
        undo: Of the whole action, bound to its job.
        site: Bench that undoes, where the undo names none.
    """
    facts = {fact.place: fact for fact in ledger.facts(undo.job)}
    alike = [fact for place, fact in facts.items() if undo.site is None and place[1] == undo.fact]
    target = facts.get((undo.site or site, undo.fact)) or (alike[0] if len(alike) == 1 else None)
    found: dict[str, Undone] = {}
    for fact in ledger.action(target.action[1]) if target is not None else ():
        if fact.place in facts and not isinstance(fact.what.subject, tuple) and not isinstance(fact.what, TicketTaken):
            continue  # of an old record, whose facts name their job by its number: it is of this very job
        other = Undone(
            job=fact.what.job,
            subject=subject_of(fact),
            fact=fact.sequence,
            reason=undo.reason,
            site=fact.site,
            whole=True,
        )
        if exact_of(other) != exact_of(undo):
            found.setdefault(exact_of(other), other)
    return list(found.values())


def _keep_ticket(state: Job | None, fact: int | None, site: str) -> None:
    """Refuse to take the ticket from under what was done on it."""
    if state is None:
        return
    ticket = next((line for line in state.trail if line.kind == "ticket taken" and not line.undone), None)
    others = [line for line in state.trail if not line.undone and line.kind not in ("ticket taken", "undone")]
    if ticket is not None and (ticket.site, ticket.sequence) == (site, fact) and others:
        raise RecordError(
            f"fact {fact} is the ticket of job {state.id}, and {len(others)} later facts stand on it: undo those first"
        )


def _undo_text(what: What, site: str) -> str:
    assert isinstance(what, Undone)  # what undo makes
    return f"undo {what.fact}" + (f" of {what.site}" if what.site not in (None, site) else "")
