"""Answering for it: steps done, gates signed, the job closed."""

from __future__ import annotations

from typing import Any

import msgspec

from clubwright.errors import Finding, GateClosed, InputError, RecordError, StepNotReady
from clubwright.journal.action_keys import end_key, is_of_an_end
from clubwright.journal.facts import Fact, Finished, GateSigned, StepDone, Undone, What
from clubwright.journal.reducers.fold import Job
from clubwright.planning.steps.types import StepKey
from clubwright.services.jobs.closing import accepted_part, closing_points, closing_reasons
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.jobs.signatures import CLOSED_AT, closed_at
from clubwright.services.jobs.step_needs import lacking
from clubwright.services.record.done_at import minute
from clubwright.services.record.session import Session
from clubwright.services.recording.possible import GATE_OF
from clubwright.services.recording.recording import keep, keep_what, require_gate, require_open
from clubwright.services.report.done_work import done_work
from clubwright.state.steps import STEPS


def do_step(
    session: Session, job: str, step: str, note: str = "", key: str | None = None, *, skipped: str | None = None
) -> Fact:
    """Record that a step of the plan is done, or that it was passed over.

    Args:
        session: Who and where.
        job: Ticket number.
        step: Key of the step.
        note: Anything worth keeping with it.
        key: Idempotency key.
        skipped: What was left out, where the step is passed over.

    Raises:
        InputError: when the job has no such step, one is passed over without saying what is left out, or may not be.
        StepNotReady: while what the step leaves behind is missing (`clubwright.services.jobs.step_needs`).
    """
    left_out = msgspec.UNSET if skipped is None else skipped.strip()

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        worked = answer_job(standing, session.now())
        chosen = next((item.key for item in worked.steps if item.key == step), None)
        if chosen is None:
            mend = "Steps of this job: " + ", ".join(sorted(item.key for item in worked.steps)) + "."
            raise InputError([Finding(where="step", what=f'no step is called "{step}"', mend=mend)])
        if isinstance(left_out, str):
            _require_skip(chosen, left_out)
        elif missing := lacking(chosen, worked, standing):
            raise StepNotReady(step, missing)
        return StepDone(job=job, step=step, note=note, skipped=left_out)

    def same(what: What) -> bool:
        return isinstance(what, StepDone) and (what.step, what.note, what.skipped) == (step, note, left_out)

    said = [f"skipped: {left_out}"] if isinstance(left_out, str) else []
    words = "; ".join([*said, *([note] if note else [])])
    typed = f"done: {step}" + (f" ({words})" if words else "")
    return keep(session, job, make, typed=lambda _: typed, same=same, key=key)


def _require_skip(step: StepKey, left_out: str) -> None:
    """Refuse to pass a step over in silence, and one that nothing else would catch."""
    if not STEPS[step].may_skip:
        mend = "Do it, and record what was done; or leave it open."
        raise InputError([Finding(where="step", what=f'"{step}" is not passed over', mend=mend)])
    if not left_out:
        what, mend = "nothing was said about what is left out", "Say it: the record keeps it with the step."
        raise InputError([Finding(where="what is left out", what=what, mend=mend)])


def sign_gate(session: Session, job: str, gate: str, key: str | None = None) -> Fact:
    """Sign a gate: the person answers for it, and what was shown is stored with the signature.

    Raises:
        GateClosed: while the gate is closed; for the release, also while a target is outside, open or unread and nobody
            accepted that by name.
    """

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        if gate == "release":
            _require(gate, [*_closed(session, standing, gate, signed=False), *_unsettled(session, standing)])
        worked = require_gate(session, standing, gate, signed=False)
        shown = {**_shown(standing, worked), "gate": gate}
        if gate == "release" and (closed := closed_at(standing)) is not None:
            shown[CLOSED_AT] = closed
        return GateSigned(job=job, step=gate, shown=shown)

    def same(what: What) -> bool:
        return isinstance(what, GateSigned) and what.step == gate

    return keep(session, job, make, typed=_signed_text, same=same, key=key)


def _signed_text(what: What) -> str:
    assert isinstance(what, GateSigned)  # what sign_gate makes
    closed = what.shown.get(CLOSED_AT)
    if closed is None:
        return f"signed: {what.step}"
    done, written = minute(closed["done_at"]), minute(closed["written_at"])
    return f"signed: {what.step}; joint closed at {done}, written at {written} by {closed['written_by']}"


def reopen(session: Session, job: str, reason: str, key: str | None = None) -> Fact:
    """Open a closed job again: its end is undone, or each of them where several benches closed it; what was signed stays.

    Raises:
        InputError: without a reason.
        RecordError: when the job is not closed.
    """
    if not reason.strip():
        what, mend = "nothing was typed", "Say why it is opened again: the record keeps it."
        raise InputError([Finding(where="why it is opened again", what=what, mend=mend)])
    action = key or session.new_key()
    mine = [fact for fact in session.facts_of(job) if (fact.site, fact.by) == (session.site, session.by)]
    sent_before = [fact for fact in mine if is_of_an_end(fact.key, action)]
    if sent_before:
        return sent_before[-1]
    state = session.job(job)
    ends = [line for line in state.trail if line.kind == "finished" and not line.undone]
    if not ends:
        raise RecordError(f"job {job} is not closed: go on with it as it is")
    for end in ends:
        undone = Undone(job=job, fact=end.sequence, reason=reason, site=end.site, whole=True)
        fact = keep_what(session, undone, f"opened again: {reason}", end_key(action, end.site, end.sequence))
    return fact


def finish(session: Session, job: str, key: str | None = None) -> Fact:
    """Close the job: the verdicts are stored as they were shown.

    Raises:
        GateClosed: while a target is outside, open or unread and nobody accepted that by name; while a build or re-shaft is
            not released to play, and signed for.
    """

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        worked = answer_job(standing, session.now())
        gate = GATE_OF[Finished]
        released = any(item.step == gate for item in worked.gates)
        reasons = _closed(session, standing, gate, signed=True) if released else []
        _require("the end of the job", [*reasons, *_unsettled(session, standing)])
        done = [item.plain() for item in done_work(standing, worked)]
        return Finished(job=job, shown={**_shown(standing, worked), "done": done})

    return keep(session, job, make, typed=lambda _: "finished", same=lambda what: isinstance(what, Finished), key=key)


def _shown(job: Job, worked: JobAnswer) -> dict[str, Any]:
    """Return what is kept with a signature: the answer, and what was accepted by name."""
    return {
        "accepted": [item.plain() for item in accepted_part(closing_points(job, worked))],
        "answer": worked.answer().plain(),
    }


def _closed(session: Session, job: Job, step: str, *, signed: bool) -> list[str]:
    """Say why a gate is closed, or not signed for; a job without such a gate is refused by `require_gate` itself."""
    try:
        require_gate(session, job, step, signed=signed)
    except GateClosed as closed:
        return list(closed.reasons)
    return []


def _unsettled(session: Session, job: Job) -> list[str]:
    """Say what is outside, open or unread, and not accepted by name."""
    return closing_reasons(job, answer_job(job, session.now()))


def _require(what: str, reasons: list[str]) -> None:
    if reasons:
        raise GateClosed(what, reasons)
