"""The card of the next step: one verb, one big number, its reason, its cautions, its form and one button."""

from __future__ import annotations

import msgspec

from clubwright.journal.job import Job
from clubwright.notation import render_moment, units_shown
from clubwright.planning.said.actions import AdviceKind
from clubwright.planning.said.phrases import Amount, Phrase, Value, phrase
from clubwright.planning.steps.types import Step
from clubwright.services.jobs.closing import ClosingPoint, closing_points
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.jobs.targets import TargetLine, target_lines
from clubwright.services.record.session import Local, in_utc, moment_of
from clubwright.services.why.expected import expected_key
from clubwright.state.steps import SETTLING
from clubwright.web.views.card_forms import form_of
from clubwright.web.views.forms import Form
from clubwright.words import on_page
from clubwright.words.advice import say_offer, say_unreached
from clubwright.words.say import percent, say
from clubwright.words.step import say_step

OF_OTHER_STEPS: tuple[AdviceKind, ...] = ("bend", "tape")
"""Kinds of advice that have steps of their own."""


class Offer(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the advice, as a choice.

    Attributes:
        id: Of the advice; the choice is named by it.
        do: The action in a few words.
        why: One line.
        chance: Chance that what it moves ends within tolerance.
        weights: Names of the weights on the club after it.
        kind: ``fit``, ``leave``, ``read`` (read again first), or one that is not a matter of this card.
        considered: Whether it is being considered.
    """

    id: str
    do: str
    why: str
    chance: str
    weights: tuple[str, ...]
    kind: str
    considered: bool


class Card(msgspec.Struct, frozen=True, kw_only=True):
    """One step as the card shows it.

    Attributes:
        step: Key of the step; empty when all is done.
        number, of: Its place among all steps.
        title: Verb first.
        act_on: The figures that are read from two metres, each with what it is.
        reason: One line.
        what: How, in short sentences.
        numbers: Further figures.
        expected: What gauges should show.
        expected_why: Keys of what stands behind each of them.
        cautions: What can hurt.
        closed: Why its gate is closed, if it is.
        gate: That gate.
        reason_why, what_why: Keys of what stands behind a figure in these sentences; empty where one has none.
        void: Signatures that no longer hold, and why.
        form: What is typed or tapped.
        unreached: What no set of weights reaches, where the step chooses; else empty.
        offers: The advice, where the step chooses.
        chosen: The offer that the button takes.
        targets: Every target with its verdict, once the job is closed.
        closing: Targets that are outside, open or unread, or accepted by name, where the end of the job is in sight.
        key: Idempotency key of the next action.
    """

    step: str
    number: int
    of: int
    title: str
    form: Form
    key: str
    act_on: tuple[tuple[str, str], ...] = ()
    reason: str = ""
    what: tuple[str, ...] = ()
    numbers: tuple[tuple[str, str], ...] = ()
    expected: tuple[str, ...] = ()
    expected_why: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    closed: str = ""
    gate: str = ""
    reason_why: str = ""
    what_why: tuple[str, ...] = ()
    void: tuple[str, ...] = ()
    unreached: str = ""
    offers: tuple[Offer, ...] = ()
    chosen: Offer | None = None
    targets: tuple[TargetLine, ...] = ()
    closing: tuple[ClosingPoint, ...] = ()


def card_of(
    worked: JobAnswer,
    job: Job,
    *,
    key: str,
    consider: str | None = None,
    step: str | None = None,
    local: Local = in_utc,
) -> Card:
    """Make the card of a step: the one asked for, else the next that is not done.

    Args:
        worked: The job, worked.
        job: The job as the record has it.
        key: Idempotency key for its action.
        consider: Id of the advice that is being considered.
        step: Key of the step asked for.
        local: Puts a moment into the bench's own time of day.
    """
    chosen = None if job.finished is not None else next((item for item in worked.steps if item.key == step), None)
    if chosen is None:
        chosen = next((item for item in worked.steps if not item.done), None)
    if chosen is None or job.finished is not None:
        return _all_done(worked, job, key)
    closing = _closing(worked, job) if chosen.key in SETTLING else ()
    said = say_step(chosen, units_shown())
    gate = next((gate for gate in worked.gates if gate.step == chosen.gate), None)
    closed = say(phrase("gate.not open", why=gate.why), units_shown()) if gate is not None and not gate.open else ""
    whys = tuple(_why_of(chosen, value) for value in chosen.what)
    offers = _offers(worked, consider) if chosen.key == "choose weight" else ()
    return Card(
        step=chosen.key,
        number=chosen.number,
        of=len(worked.steps),
        title=said.title,
        act_on=said.act_on,
        reason=next(iter(said.what), ""),
        what=said.what[1:],
        numbers=said.numbers,
        expected=tuple(item.text for item in said.expected),
        expected_why=tuple(expected_key(chosen, item) for item in chosen.expected),
        cautions=said.cautions,
        closed=closed,
        gate="" if gate is None else gate.step,
        reason_why=next(iter(whys), ""),
        what_why=whys[1:],
        void=tuple(item.in_short for item in void_signatures(job, worked)),
        form=_with_time(
            form_of(chosen, worked, job, closed=bool(closed) or (chosen.key == "tag" and unsettled(closing))), local
        ),
        unreached=_unreached(worked) if chosen.key == "choose weight" else "",
        offers=offers,
        chosen=next((offer for offer in offers if offer.considered), offers[0] if offers else None),
        closing=closing,
        key=key,
    )


def _why_of(step: Step, value: Value) -> str:
    """Return the key of what stands behind the figures of a sentence; empty where it has none, or the step none."""
    figures = isinstance(value, Phrase) and any(isinstance(item, Amount | Phrase) for _, item in value.data)
    has_page = bool(step.numbers or step.act_on)
    return f"steps/{step.key}" if has_page and (figures or isinstance(value, str)) else ""


def _closing(worked: JobAnswer, job: Job) -> tuple[ClosingPoint, ...]:
    """Return what has to be answered for; what is within needs no word, unless somebody had accepted it otherwise."""
    return tuple(point for point in closing_points(job, worked) if point.open or point.accepted or point.lapsed)


def unsettled(points: tuple[ClosingPoint, ...]) -> bool:
    """True while a target keeps the job from its end."""
    return any(point.open for point in points)


def _with_time(form: Form, local: Local) -> Form:
    if form.clock is None:
        return form
    at = local(moment_of(form.clock.until))
    return msgspec.structs.replace(form, clock_at=f"{render_moment(at)} {at.tzname()}")


def _all_done(worked: JobAnswer, job: Job, key: str) -> Card:
    finished, closing = job.finished is not None, _closing(worked, job)
    return Card(
        step="",
        number=len(worked.steps),
        of=len(worked.steps),
        title=on_page("job closed") if finished else on_page("every step done"),
        reason=on_page("nothing changes") if finished else on_page("close to store"),
        form=Form(
            kind="closed" if finished else "finish",
            action="finish",
            button=on_page("button closed"),
            hold=not finished,
            blocked=not finished and unsettled(closing),
        ),
        targets=target_lines(worked) if finished else (),
        closing=closing,
        key=key,
    )


def _unreached(worked: JobAnswer) -> str:
    return "" if worked.unreached is None else say_unreached(worked.unreached, units_shown())


def _offers(worked: JobAnswer, consider: str | None) -> tuple[Offer, ...]:
    """Return what could be fitted, best first; bends and tape have steps of their own."""
    said = ((item, say_offer(item, units_shown())) for item in worked.advice if item.kind not in OF_OTHER_STEPS)
    return tuple(
        Offer(
            id=item.id,
            do=words.do,
            why=words.why,
            chance=percent(item.chance),
            weights=item.weights,
            kind=item.kind,
            considered=item.id == consider,
        )
        for item, words in said
    )
