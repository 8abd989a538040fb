"""The one door to the bench actions: page, command line, `/api` and Python come in here, and leave the same behind."""

from __future__ import annotations

from collections.abc import Callable
from pkgutil import resolve_name
from typing import Any

import msgspec

from clubwright.errors import Finding, InputError, RecordError, StepNotReady
from clubwright.journal.facts import Fact, kind_of
from clubwright.services.actions.forgetting import Forgotten
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.facets import action_of
from clubwright.services.actions.signing import do_step
from clubwright.services.answer.answer import findings_part
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.looking_up import name_of
from clubwright.services.record.session import Session
from clubwright.services.told.kept import KeptAnswer

STEP_KEY = "-step"
"""Behind an action's idempotency key: that of the step which is ticked with it."""


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
    given = msgspec.structs.asdict(payload)
    step = given.pop("step") or "" if entry.names_step else entry.completes
    if entry.names_step and step:
        _require_planned(session, given["job"], step)
    chosen = key or session.new_key()
    done = function_of(entry)(session, **given, key=chosen)
    if isinstance(done, Forgotten):
        return Kept(facts=done.written, forgotten=done)
    facts = (done,) if isinstance(done, Fact) else tuple(done)
    if not step:
        if not facts:
            mend = "Name a part and what was measured of it."
            raise InputError([Finding(where=action, what="nothing to change", mend=mend)])
        return Kept(facts=facts)
    if entry.once and not resolve_name(entry.once)(session.job(given["job"])):
        return Kept(facts=facts)
    return _ticked(session, given["job"], step, facts, chosen)


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


def cautions_of(session: Session, action: Action, job: str) -> tuple[str, ...]:
    """Return what can hurt at an action and is not said by a step of the plan; nothing where the step says it."""
    return tuple(_named(action.cautions)(session.job(job))) if action.cautions else ()


def function_of(action: Action) -> Callable[..., Any]:
    """Return the service function that does an action."""
    return _named(action.function)


def _named(place: str) -> Callable[..., Any]:
    found: Callable[..., Any] = resolve_name(place)
    return found


def _ticked(session: Session, job: str, step: str, facts: tuple[Fact, ...], key: str) -> Kept:
    """Tick the step that an action completes, unless it is done, or its plan has none such."""
    state, mine = session.job(job), f"{key}{STEP_KEY}"
    sent_before = any(fact.key == mine for fact in session.facts_of(job))
    if facts and not sent_before:
        planned = any(item.key == step for item in answer_job(state, session.now()).steps)
        if not planned or step in state.steps_done:
            return Kept(facts=facts)
    try:
        fact = do_step(session, job, step, key=mine)
    except StepNotReady as refused:
        if not facts:
            raise
        return Kept(facts=facts, lacks=refused.findings)
    return Kept(facts=(*facts, fact), step=step)


def _require_planned(session: Session, job: str, step: str) -> None:
    """Refuse a step that the job has not, before anything is kept."""
    keys = [item.key for item in answer_job(session.job(job), session.now()).steps]
    if step not in keys:
        mend = "Steps of this job: " + ", ".join(sorted(keys)) + "."
        raise InputError([Finding(where="step", what=f'no step is called "{step}"', mend=mend)])
