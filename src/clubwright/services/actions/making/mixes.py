"""A mix of adhesive for several joints: taken from for another job, and called bad by name."""

from __future__ import annotations

from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.facts import AdhesiveMixed, Fact, MixCalledBad, MixTaken, Place, What, kind_of
from clubwright.journal.mixes import Mix, mix_in_hand, used_mix
from clubwright.journal.names import line_name, read_line_name
from clubwright.journal.reducers.fold import Job
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.jobs.mixed_batch import mix_lacks
from clubwright.services.record.done_at import done_moment, done_text, minute, read_done_at
from clubwright.services.record.looking_up import name_of
from clubwright.services.record.session import Session, moment_of
from clubwright.services.recording.recording import keep, require_open

MADE = kind_of(AdhesiveMixed(job="", part_a="", part_b="", temperature="", batch=""))
TAKEN = kind_of(MixTaken(job="", mix=("", 0), of="", part_a="", part_b="", temperature="", batch="", mixed_at=""))
WHERE = "mix of adhesive"

mix_name = line_name
"""What a mix goes by: its bench, and the number of its line in the trail."""


def take_from_mix(session: Session, job: str, mix: str, key: str | None = None, *, done_at: str | None = None) -> Fact:
    """Record that a job's joint is to be glued from a mix that was made for another one; its pot life goes on running.

    Args:
        session: Who and where.
        job: Ticket number of the joint that takes from it.
        mix: ``SITE/NUMBER`` of the mix, or the job whose last mix it is.
        key: Idempotency key.
        done_at: When it was taken, where that was earlier.

    Raises:
        InputError: for no such mix, one that is bad, one of another adhesive, or a time before it was mixed.
    """
    done = read_done_at(session, done_at)
    found = _mix_named(session, mix)
    what = MixTaken(
        job=job,
        done_at=done,
        mix=found.place,
        of=found.of,
        part_a=found.part_a,
        part_b=found.part_b,
        temperature=found.temperature,
        batch=found.batch,
        mixed_at=found.mixed_at,
    )

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        lacks = mix_lacks(ticket_of(standing).club.adhesive) if standing.finished is None else ()
        findings = [*lacks, *not_for(session, standing, found)]
        if done_moment(session, done) < moment_of(found.mixed_at):
            mend = "Give a time after that, or leave it out."
            what_is_wrong = f"it was mixed only at {minute(found.mixed_at)}"
            findings.append(Finding(where="done at", what=what_is_wrong, mend=mend))
        if findings:
            raise InputError(findings)
        return what

    def typed(_: What) -> str:
        return f"taken from the mix of {found.of} ({found.part_a} + {found.part_b}){done_text(done)}"

    return keep(session, job, make, typed=typed, same=lambda kept: kept == what, key=key)


def call_mix_bad(session: Session, job: str, reason: str, mix: str | None = None, key: str | None = None) -> Fact:
    """Record that a mix is bad: every joint glued from it, on whatever job, shows that and is not released.

    Args:
        session: Who says so.
        job: Any job that is glued from it, or to be.
        reason: Why, in the person's words.
        mix: ``SITE/NUMBER`` where the job had several; the one in its joint or in hand when None.
        key: Idempotency key.

    Raises:
        InputError: without a reason, where the job has no mix, or where two may be meant.
    """
    found = _mix_meant(session.job(job), mix)
    maker = _maker_of(session, found)
    if maker is None:
        raise _no_such(mix_name(found.place))
    name = name_of(maker)
    what = MixCalledBad(job=name, mix=found.place, reason=reason)

    def make(state: Job | None) -> What:
        standing = require_open(state, name)
        if found.place in standing.bad_mixes:
            bad = standing.bad_mixes[found.place]
            mend = f"To take that back, undo that line on job {standing.id}."
            raise InputError([Finding(where=WHERE, what=f"{bad.by} called it bad already: {bad.reason}", mend=mend)])
        if not reason.strip():
            mend = "Say why: whoever has such a joint reads it."
            raise InputError([Finding(where="why it is bad", what="nothing was typed", mend=mend)])
        return what

    def typed(_: What) -> str:
        return f"mix {found.part_a} + {found.part_b} is bad: {reason}"

    return keep(session, name, make, typed=typed, same=lambda kept: kept == what, key=key)


def joined_by(job: Job) -> list[Place]:
    """Return the mix in a job's joint, and the one in hand for it."""
    found = [mix.place for mix in (used_mix(job), mix_in_hand(job)) if mix is not None]
    return list(dict.fromkeys(found))


def not_for(session: Session, job: Job, mix: Mix) -> list[Finding]:
    """Say why a mix is not for a job: it is bad or gone, or of another adhesive than the ticket's."""
    try:
        made = _maker_of(session, mix)
        maker = session.job(mix.of if made is None else name_of(made))
    except ClubwrightError:
        return list(_no_such(mix_name(mix.place)).findings)
    if mix.place not in maker.made_mixes:
        mend = "Take from one that stands: `clubwright mixes` lists them."
        return [Finding(where=WHERE, what=f"it was undone on job {maker.id}", mend=mend)]
    bad = maker.bad_mixes.get(mix.place)
    if bad is not None:
        mend = "Throw it away, and mix anew."
        return [Finding(where=WHERE, what=f"{bad.by} says that it is bad: {bad.reason}", mend=mend)]
    ordered, mixed = (each.parts.adhesive.name for each in (job, maker))
    if ordered and mixed and ordered.casefold() != mixed.casefold():
        mend = "Mix the adhesive of this ticket, or put right which one it is."
        return [Finding(where=WHERE, what=f'it is "{mixed}", and this ticket is for "{ordered}"', mend=mend)]
    return []


def _maker_of(session: Session, mix: Mix) -> Fact | None:
    """Return the fact that made a mix; None where the record has none of that number on that job."""
    return next((fact for fact in session.ledger.facts(mix.of) if fact.place == mix.place), None)


def _mix_named(session: Session, text: str) -> Mix:
    """Return the mix that a person names, by its line or by its job."""
    line = read_line_name(text.strip())
    if line is not None:
        made = session.ledger.fact(line)
        found = session.job(name_of(made)).made_mixes.get(made.place) if made and kind_of(made.what) == MADE else None
    else:
        taken = session.job(text).mixes
        found = taken[-1] if taken else None
    if found is None:
        raise _no_such(text)
    return found


def _mix_meant(job: Job, text: str | None) -> Mix:
    """Return the mix of a job that a person says is bad."""
    had = {mix_name(mix.place): mix for mix in (*job.made_mixes.values(), *job.mixes)}
    if text is not None and text.strip():
        if text.strip() not in had:
            raise _no_such(text)
        return had[text.strip()]
    meant = [mix for mix in had.values() if mix.place in joined_by(job)]
    if not meant:
        raise _no_such(job.id)
    if len(meant) > 1:
        names = ", ".join(f"{mix_name(mix.place)} ({mix.part_a} + {mix.part_b})" for mix in meant)
        raise InputError([Finding(where=WHERE, what=f"two may be meant: {names}", mend="Say which one is bad.")])
    return meant[0]


def _no_such(text: str) -> InputError:
    mend = "`clubwright mixes` lists every mix that stands, with its joints."
    return InputError([Finding(where=WHERE, what=f'"{text}" names no mix of the record', mend=mend)])
