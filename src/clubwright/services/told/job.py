"""The answers about a job, typed: its plan, what is believed of its club, what stands between it and its end."""

from __future__ import annotations

from typing import Annotated, Literal

from clubwright.services.told.answer import Answer, Estimate, FindingAnswer
from clubwright.services.told.base import Told, says

Standing = Literal["within", "outside", "cannot tell", "not used", "not read"]
"""How a target stands at the end of a job; not used: read, and nothing on the ticket to hold it against."""


class UnknownAnswer(Estimate, frozen=True, kw_only=True):
    """What is believed of one number of a part or of a gauge."""

    name: Annotated[str, says("Its path, such as shaft.length_m.")]
    what: Annotated[str, says("What it is, in words.")]


class FigureAnswer(Told, frozen=True, kw_only=True):
    """A figure with its name."""

    name: Annotated[str, says("What it is of.")]
    text: Annotated[str, says("It in trade notation.")]


class ExpectedAnswer(Estimate, frozen=True, kw_only=True):
    """What a gauge should show, before it is read; SI, and trade notation beside it."""

    quantity: Annotated[str, says("Key of a quantity, or of a figure of a part, such as head.mass.")]
    stage: Annotated[str, says("Stage of the build it is read at; part for a part by itself.")]
    low: Annotated[float, says("The reading is above it in 39 of 40 cases.")]
    high: Annotated[float, says("The reading is below it in 39 of 40 cases.")]


class StepAnswer(Told, frozen=True, kw_only=True):
    """One step of the plan."""

    key: Annotated[str, says("Its name in the record.")]
    number: Annotated[int, says("Its place in the plan, from 1.")]
    title: Annotated[str, says("What to do.")]
    what: Annotated[tuple[str, ...], says("How; first of all why it has to wait, when its gate is closed.")]
    act_on: Annotated[tuple[FigureAnswer, ...], says("The figures to act on: one or two, or none.")]
    numbers: Annotated[tuple[FigureAnswer, ...], says("Its figures.")]
    instrument: Annotated[str | None, says("What it is measured with.")]
    expected: Annotated[tuple[ExpectedAnswer, ...], says("What that should show.")]
    done_when: Annotated[str, says("How to see that it is done.")]
    cautions: Annotated[tuple[str, ...], says("What can hurt here.")]
    gate: Annotated[str | None, says("The gate that must be open first.")]
    done: Annotated[bool, says("Whether the record says that it is done.")]


class ClosingAnswer(Told, frozen=True, kw_only=True):
    """One ordered target as the end of the job sees it; the job is closed once none is open."""

    quantity: Annotated[str, says("Key of the quantity.")]
    ordered: Annotated[str, says("The target with its tolerance, as typed.")]
    read: Annotated[tuple[str, ...], says("What was read on the finished club, as typed, oldest first.")]
    verdict: Annotated[
        Standing,
        says("not used: read, and nothing on the ticket to hold it against."),
    ]
    open: Annotated[bool, says("Whether it keeps the job from being closed.")]
    mend: Annotated[str, says("The next thing to do about it; empty when it is within.")]
    accepted_by: Annotated[str, says("Who accepted by name how it stands; empty where nobody did.")]
    reason: Annotated[str, says("Why.")]
    lapsed: Annotated[str, says("Who accepted how it stood before; that no longer holds.")]
    mark: Annotated[
        str,
        says("Mark of how it stands: give it as `shown` with an acceptance, and only what you saw is accepted."),
    ]


class AcceptedAnswer(Told, frozen=True, kw_only=True):
    """A target that was accepted by name as it stands."""

    quantity: Annotated[str, says("Key of the quantity.")]
    ordered: Annotated[str, says("The target with its tolerance, as typed.")]
    read: Annotated[tuple[str, ...], says("What was read on the finished club, as typed, oldest first.")]
    verdict: Annotated[str, says("How it stands.")]
    accepted_by: Annotated[str, says("Who accepted it.")]
    reason: Annotated[str, says("Why.")]
    at: Annotated[str, says("When, UTC, ISO 8601 with Z.")]


class StandingAnswer(Answer, frozen=True, kw_only=True):
    """The answer of a job of the record, and where the job stands."""

    job: Annotated[str, says("Ticket number.")]
    fact: Annotated[int | None, says("Number of the fact that was kept; null where nothing was to be.")]
    step_done: Annotated[str | None, says("The step of the plan that was ticked with the fact.")]
    step_lacks: Annotated[
        tuple[FindingAnswer, ...], says("What the step that the action completes still needs; the fact is kept.")
    ]
    next_step: Annotated[str | None, says("Key of the first step that is not done.")]
    next_command: Annotated[
        str | None, says("The next command to type, with capitals for what is to be filled in; null where it waits.")
    ]
    belief: Annotated[tuple[UnknownAnswer, ...], says("What is believed of every part and every gauge.")]
    closing: Annotated[tuple[ClosingAnswer, ...], says("Every target with what stands between it and the end.")]
