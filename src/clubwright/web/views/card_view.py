"""The card of the next step: one verb, one big number, its reason, its cautions, its form and one button."""

from __future__ import annotations

import msgspec

from clubwright.journal.job import Job
from clubwright.planning.steps import Step
from clubwright.planning.tray import names_of
from clubwright.services.job_work import WorkedJob
from clubwright.web.views.card_forms import Form, form_of


def percent(chance: float) -> str:
    """Write a chance for a person: never 100 % for what is not certain."""
    if chance > NEARLY:
        return "over 99 %"
    if chance < 1 - NEARLY:
        return "under 1 %"
    return f"{chance:.0%}".replace("%", " %")


NEARLY = 0.995


class Offer(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the advice, as a choice."""

    line: int
    do: str
    why: str
    chance: str
    weights: tuple[str, ...]
    fits: bool
    considered: bool


class Card(msgspec.Struct, frozen=True, kw_only=True):
    """One step as the card shows it.

    Attributes:
        step: Key of the step; empty when all is done.
        number, of: Its place among all steps.
        title: Verb first.
        big: The number that is read from two metres.
        big_name: What it is.
        reason: One line.
        what: How, in short sentences.
        numbers: Further figures.
        expected: What gauges should show.
        cautions: What can hurt.
        closed: Why its gate is closed, if it is.
        form: What is typed or tapped.
        offers: The advice, where the step chooses.
        key: Idempotency key of the next action.
    """

    step: str
    number: int
    of: int
    title: str
    big: str
    big_name: str
    reason: str
    what: tuple[str, ...]
    numbers: tuple[tuple[str, str], ...]
    expected: tuple[str, ...]
    cautions: tuple[str, ...]
    closed: str
    form: Form
    offers: tuple[Offer, ...]
    key: str


def card_of(
    worked: WorkedJob, job: Job, *, key: str, now: str, consider: int | None = None, step: str | None = None
) -> Card:
    """Make the card of a step: the one asked for, else the next that is not done."""
    chosen = next((item for item in worked.steps if item.key == step), None)
    if chosen is None:
        chosen = next((item for item in worked.steps if not item.done), None)
    if chosen is None:
        return _all_done(worked, job, key)
    gate = next((gate for gate in worked.gates if gate.step == chosen.gate), None)
    closed = gate.why if gate is not None and not gate.open else ""
    big_name, big = _big(chosen, worked)
    return Card(
        step=chosen.key,
        number=chosen.number,
        of=len(worked.steps),
        title=chosen.title,
        big=big,
        big_name=big_name,
        reason=chosen.what[0] if chosen.what else "",
        what=chosen.what[1:],
        numbers=chosen.numbers,
        expected=tuple(item.text for item in chosen.expected),
        cautions=chosen.cautions,
        closed=closed,
        form=form_of(chosen, worked, job, now=now, closed=bool(closed)),
        offers=_offers(worked, consider) if chosen.key == "choose weight" else (),
        key=key,
    )


def _all_done(worked: WorkedJob, job: Job, key: str) -> Card:
    form = Form(kind="closed" if job.finished is not None else "finish", action="finish", button="Close the job")
    return Card(
        step="",
        number=len(worked.steps),
        of=len(worked.steps),
        title="Every step is done",
        big="",
        big_name="",
        reason="The job is closed." if job.finished is not None else "Close the job to store what it read.",
        what=(),
        numbers=(),
        expected=(),
        cautions=(),
        closed="",
        form=form,
        offers=(),
        key=key,
    )


_BIG = {
    "mark and cut": "mark, from the tip",
    "tip trim": "trim",
    "choose weight": "best",
    "cure": "release after",
    "bore to ground": "bore to ground on the ticket",
}


def _big(step: Step, worked: WorkedJob) -> tuple[str, str]:
    """Pick the number to be read from two metres: the cut's fraction, the weight's name, else the first figure."""
    if step.key == "choose weight" and worked.advice:
        return "best", worked.advice[0].do
    wanted = _BIG.get(step.key, "")
    for name, text in step.numbers:
        if wanted and name.startswith(wanted):
            return name, text.split(" (")[0]
    if step.key in ("dry reading", "inspect") and step.expected:
        return "expected", step.expected[0].text.split(";")[0]
    return "", ""


def _offers(worked: WorkedJob, consider: int | None) -> tuple[Offer, ...]:
    now = tuple(_fitted(worked))
    return tuple(
        Offer(
            line=line,
            do=item.do,
            why=item.why,
            chance=percent(item.chance),
            weights=item.weights,
            fits=item.weights != now or item.do == "leave as it is",
            considered=line == consider,
        )
        for line, item in enumerate(worked.advice)
        if not item.do.startswith(("bend", "lay", "leave the tape", "leave loft", "do not bend"))
    )


def _fitted(worked: WorkedJob) -> list[str]:
    return names_of(worked.situation.ticket, worked.situation.fitted_now[0])
