"""How a fact is kept: tried on the job as it stands, gates asked, written only if nobody wrote in between.

Trying means working the job's ticket with the new fact in it: an input that the ticket reader would refuse is refused
here with the same findings, and nothing is written. When another action on this job comes in between, at any bench, or
any other one of this bench, the whole check is made again on what is there then.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from clubwright.errors import Finding, GateClosed, InputError, NotInRecord, RecordError
from clubwright.journal.action_keys import is_of_action
from clubwright.journal.facts import Fact, Place, ReadingDecided, Undone, What
from clubwright.journal.reducers.fold import Job
from clubwright.notation import units_shown
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.services.record.club_jobs import with_club
from clubwright.services.record.ledger import ConflictError, Decided
from clubwright.services.record.looking_up import as_named, exact_of, look_up, look_up_new
from clubwright.services.record.session import Session
from clubwright.services.recording.trying import state_if_sound, try_on
from clubwright.words.say import say

TRIES = 40
"""So often an action is tried because another one on the same job came in between: each time, one of them got through."""

Making = Callable[[Job | None], What]
"""Makes the fact from the job as it stands; raises when it cannot be done."""


def keep(
    session: Session,
    job: str,
    make: Making,
    *,
    typed: Callable[[What], str],
    same: Callable[[What], bool],
    key: str | None,
    new: bool = False,
    about: Place | None = None,
    beside: Callable[[What], Sequence[What]] = lambda _: (),
) -> Fact:
    """Try a fact, and keep it when the job can still be worked; the fact of the same action sent before stands for it.

    Args:
        session: Who and where.
        job: Ticket number, or the name that the job goes by.
        make: Makes the fact from the job as it stands, None where there is no such ticket.
        typed: Says it in the trail.
        same: Whether a fact is what this very action wrote when it was sent before.
        key: Idempotency key.
        new: Whether the fact takes a ticket under that number.
        about: The fact that it is about, where it is about one.
        beside: Facts of other jobs that the action writes too, each naming its job; they are tried like this one.

    Raises:
        ClubwrightError: of any kind, from the check; nothing is kept.
    """

    def one(state: Job | None) -> Sequence[What]:
        return [make(state)]

    return keep_all(session, job, one, typed=typed, same=same, key=key, new=new, about=about, beside=beside)[0]


def keep_all(
    session: Session,
    job: str,
    make: Callable[[Job | None], Sequence[What]],
    *,
    typed: Callable[[What], str],
    same: Callable[[What], bool],
    key: str | None,
    new: bool = False,
    about: Place | None = None,
    count: int = 1,
    beside: Callable[[What], Sequence[What]] = lambda _: (),
) -> list[Fact]:
    """Try the `count` facts of one action together with what is kept along, all or none (`Session.along`); else as `keep`.

    Raises:
        ClubwrightError: of any kind, from the check; nothing is kept.
    """
    chosen = key or session.new_key()
    for left in reversed(range(TRIES)):
        seen = session.ledger.last(session.site)
        found = look_up_new(session.ledger, job) if new else look_up(session.ledger, job, about)
        mine = found.facts
        # the fact that is tried comes after all that is there; what any bench writes of the job from here on refuses it
        seen = max([seen, *(fact.sequence for fact in mine if fact.site == session.site)])
        again = _repeated(session, job, mine, key, same, count)
        if again:
            return again
        state = state_if_sound(found)
        state = None if state is None else with_club(session.ledger, state)
        whats = [found.bound(what) for what in make(state)]
        along = try_on(session, found, state, whats, seen, session.along)
        try:
            others = [other for what in whats for other in beside(what)]
            decided = [found.decided(), *(try_beside(session, other, seen) for other in others)]
            said = [*map(typed, whats), *(text for _, text in along), *map(typed, others)]
            written = [*whats, *(what for what, _ in along), *others]
            return session.keep_all(written, said, chosen, seen, decided)[: len(whats)]
        except ConflictError:
            if not left:
                raise
        except RecordError:
            # the same action, sent twice at once: the other one may have got through while this one was tried
            again = _repeated(session, job, look_up_new(session.ledger, job).facts, key, same, count)
            if not again:
                raise
            return again
    raise AssertionError("the last try returns or raises")


def try_beside(session: Session, what: What, seen: int) -> Decided:
    """Try what the same action writes on another job, and return what that is decided on.

    Raises:
        ConflictError: when this bench wrote on that job since the action was decided on.
    """
    found = look_up(session.ledger, exact_of(what))
    last = max((fact.sequence for fact in found.facts if fact.site == session.site), default=0)
    if last > seen:
        raise ConflictError(session.site, seen, last)
    try_on(session, found, state_if_sound(found), [what], seen)
    return found.decided()


def keep_what(
    session: Session,
    what: What,
    typed: str,
    key: str | None,
    gate: str | None = None,
    needs: Callable[[Job], Sequence[Finding]] = lambda _: (),
    when: datetime | None = None,
) -> Fact:
    """Keep a fact that does not depend on the state, once its gate is open and signed, and what else it needs is there.

    The gate is asked as it stood when the work was done.
    """

    def make(state: Job | None) -> What:
        standing = require_open(state, what.job)
        if gate is not None:
            require_gate(session, standing, gate, needs=needs, when=when)
        return what

    about = (what.site or session.site, what.reading) if isinstance(what, ReadingDecided) else None
    about = (what.site or session.site, what.fact) if isinstance(what, Undone) else about
    return keep(session, what.job, make, typed=lambda _: typed, same=lambda found: found == what, key=key, about=about)


def _repeated(
    session: Session, job: str, mine: Sequence[Fact], key: str | None, same: Callable[[What], bool], count: int
) -> list[Fact]:
    """Return the facts that this very action wrote when it was sent before with the same key; none when it was not."""
    if key is None:
        return []
    sent = [fact for fact in mine if is_of_action(fact.key, key) and (fact.site, fact.by) == (session.site, session.by)]
    sent.sort(key=lambda fact: fact.sequence)
    # before or behind them there may be the undo of what they replace, behind them the step that is ticked with them
    for first in reversed(range(len(sent) - count + 1)):
        facts = sent[first : first + count]
        if all(same(as_named(fact.what, job)) for fact in facts):
            return facts
    return []


def require_gate(
    session: Session,
    state: Job,
    step: str,
    *,
    signed: bool = True,
    needs: Callable[[Job], Sequence[Finding]] = lambda _: (),
    when: datetime | None = None,
) -> JobAnswer:
    """Return the job worked, once a gate is open (and signed, where a person must answer for it).

    Args:
        session: Who and where.
        state: The job as it stands.
        step: The gate.
        signed: Whether it must be signed too.
        needs: What the action behind the gate needs besides, as findings while it is missing.
        when: When the work was done; now when None.

    Raises:
        InputError: when the job has no such gate.
        GateClosed: with every reason.
    """
    worked = answer_job(state, when or session.now())
    gate = next((gate for gate in worked.gates if gate.step == step), None)
    if gate is None:
        names = ", ".join(gate.step for gate in worked.gates)
        mend = f"Gates of this job: {names}." if names else "This kind of work has none: leave it out."
        raise InputError([Finding(where="gate", what=f'this job has no gate "{step}"', mend=mend)])
    reasons = [
        *(say(reason, units_shown()) for reason in gate.reasons),
        *(f"{item.what}: {item.mend}" for item in needs(state)),
    ]
    if signed:
        reasons += signature_reasons(state, worked, step)
    if reasons:
        raise GateClosed(step, reasons)
    return worked


def require_open(state: Job | None, job: str) -> Job:
    """Return the job, once it is known to be there.

    Raises:
        RecordError: when the record has no such ticket.
    """
    if state is None:
        raise NotInRecord(f'the record has no ticket "{job}": `clubwright jobs` lists those it has')
    return state
