"""The one door to the bench actions: page, command line, `/api` and Python come in here, and leave the same behind."""

from __future__ import annotations

from collections.abc import Callable
from pkgutil import resolve_name
from typing import Any

import msgspec

from clubwright.errors import Finding, InputError, RecordError
from clubwright.journal.facts import Fact, StepDone, kind_of
from clubwright.journal.reducers.fold import Job
from clubwright.services.actions.forgetting import Forgotten
from clubwright.services.actions.forgetting_part import forgotten_part
from clubwright.services.actions.making.gauge_units import in_gauge_units
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.facets import action_of
from clubwright.services.actions.signing import do_step
from clubwright.services.answer.answer import findings_part
from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.services.record.looking_up import name_of
from clubwright.services.record.session import Session
from clubwright.services.recording.ticking import not_planned, still_lacking, with_step
from clubwright.services.told.base import Told
from clubwright.services.told.erased import ForgottenAnswer
from clubwright.services.told.kept import KeptAnswer
from clubwright.state.ticket import Ticket


class Kept(msgspec.Struct, frozen=True, kw_only=True):
    """What an action left in the record.

    Attributes:
        facts: What it wrote on its job, at least one.
        step: The step of the plan that was ticked with it; None where none was.
        lacks: What that step still needs, where it was not: the facts are kept all the same.
        forgotten: What was erased, where the action erases.
    """

    facts: tuple[Fact, ...]
    step: str | None = None
    lacks: tuple[Finding, ...] = ()
    forgotten: Forgotten | None = None

    @property
    def fact(self) -> Fact:
        """The first of them."""
        return self.facts[0]


def act(session: Session, action: str, payload: msgspec.Struct, key: str | None = None) -> Kept:
    """Do a bench action.

    Args:
        session: Who and where.
        action: Its key in the register.
        payload: What is given, as the register's struct for it.
        key: Idempotency key: the same action sent again with it is kept once.

    Raises:
        ClubwrightError: of any kind, from the action; nothing is kept then.
        StepNotReady: when nothing was to be kept but a step that needs something still.
    """
    entry = action_of(action)
    if type(payload) is not entry.payload:
        raise TypeError(f"{action} takes {entry.payload.__name__}, not {type(payload).__name__}")
    payload = in_gauge_units(payload, lambda: _ticket_of(session, getattr(payload, "job", "")))
    given = msgspec.structs.asdict(payload)
    step = given.pop("step") or "" if entry.names_step else entry.completes
    chosen = key or session.new_key()
    once = _named(entry.once) if entry.once else _always
    at = with_step(session, step, named=entry.names_step, once=once) if step else session
    try:
        done = function_of(entry)(at, **given, key=chosen)
    except InputError as refused:
        wrong = not_planned(session, session.job(given["job"]), step) if step and entry.names_step else ()
        raise InputError(tuple(dict.fromkeys((*wrong, *refused.findings)))) from refused
    if isinstance(done, Forgotten):
        return Kept(facts=done.written, forgotten=done)
    facts = (done,) if isinstance(done, Fact) else tuple(done)
    if facts and not step:
        return Kept(facts=facts)
    if facts:
        return _kept_with_step(session, given["job"], step, facts, chosen, once)
    if step:
        return Kept(facts=(do_step(session, given["job"], step, key=chosen),), step=step)
    mend = "Name a part and what was measured of it."
    raise InputError([Finding(where=action, what="nothing to change", mend=mend)])


def answer_to(session: Session, action: Action, kept: Kept) -> Told:
    """Return what a program is answered after an action: the struct that the register says."""
    return _ANSWERS[answer_of(action)](session, kept)


def answer_of(action: Action) -> type[Told]:
    """Return the struct that a program is answered with after an action."""
    found: type[Told] = resolve_name(action.answers)
    return found


def _forgotten_part(_session: Session, kept: Kept) -> ForgottenAnswer:
    if kept.forgotten is None:
        raise TypeError("only of an action that erases")
    return forgotten_part(kept.forgotten)


def _ticket_of(session: Session, job: str) -> Ticket | None:
    try:
        return ticket_or_none(session.job(job))
    except RecordError:
        return None  # the action itself says so


def kept_part(session: Session, kept: Kept) -> KeptAnswer:
    """Return what an action left; its job by the name that it goes by now, or by its number where it is gone."""
    fact = kept.fact
    try:
        job = session.job(name_of(fact)).id
    except RecordError:
        job = fact.what.job
    return KeptAnswer(
        job=job,
        site=fact.site,
        number=fact.sequence,
        at=fact.at,
        by=fact.by,
        kind=kind_of(fact.what),
        text=fact.typed,
        key=fact.key,
        step=kept.step,
        lacks=findings_part(kept.lacks),
    )


_ANSWERS: dict[type[Told], Callable[[Session, Kept], Told]] = {
    KeptAnswer: kept_part,
    ForgottenAnswer: _forgotten_part,
}
"""Who makes each of the answers that the register names."""


def cautions_of(session: Session, action: Action, job: str) -> tuple[str, ...]:
    """Return what can hurt at an action and is not said by a step of the plan; nothing where the step says it."""
    return tuple(_named(action.cautions)(session.job(job))) if action.cautions else ()


def function_of(action: Action) -> Callable[..., Any]:
    """Return the service function that does an action."""
    return _named(action.function)


def _named(place: str) -> Callable[..., Any]:
    found: Callable[..., Any] = resolve_name(place)
    return found


def _kept_with_step(
    session: Session, job: str, step: str, facts: tuple[Fact, ...], key: str, once: Callable[[Job], bool]
) -> Kept:
    """Say whether the step was ticked with the facts, or what it still needs."""
    ticked = [fact for fact in session.ledger.action(key) if isinstance(fact.what, StepDone)]
    if ticked:
        return Kept(facts=(*facts, *ticked), step=step)
    state = session.job(job)
    return Kept(facts=facts, lacks=still_lacking(session, state, step) if once(state) else ())


def _always(_job: Job) -> bool:
    return True
