"""The plan of a job for programs."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.notation import UnitsShown
from clubwright.planning.steps.types import Step
from clubwright.services.told.job import ExpectedAnswer, FigureAnswer, StepAnswer
from clubwright.words.step import ExpectedWords, say_step


def plan_part(steps: Iterable[Step], style: UnitsShown | None = None) -> tuple[StepAnswer, ...]:
    """Return the steps of a plan, in the canonical words or in those of a style."""
    return tuple(step_part(step, style) for step in steps)


def step_part(found: Step, style: UnitsShown | None = None) -> StepAnswer:
    """Return one step of a plan."""
    step = say_step(found, style)
    return StepAnswer(
        act_on=_figures(step.act_on),
        cautions=step.cautions,
        done=step.done,
        done_when=step.done_when,
        expected=tuple(_expected(item) for item in step.expected),
        gate=step.gate,
        instrument=step.instrument,
        key=step.key,
        number=step.number,
        numbers=_figures(step.numbers),
        title=step.title,
        what=step.sentences,
    )


def _figures(figures: Iterable[tuple[str, str]]) -> tuple[FigureAnswer, ...]:
    return tuple(FigureAnswer(name=name, text=text) for name, text in figures)


def _expected(item: ExpectedWords) -> ExpectedAnswer:
    return ExpectedAnswer(
        quantity=item.quantity,
        stage=item.stage,
        mean=item.mean,
        sd=item.sd,
        low=item.low,
        high=item.high,
        text=item.text,
    )
