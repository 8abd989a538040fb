"""A step of the plan in words."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from clubwright.notation import UnitsShown
from clubwright.planning.said.phrases import Amount, Value, phrase
from clubwright.planning.steps.types import Expected, Figures, Step, StepKey
from clubwright.words.say import say


class ExpectedWords(msgspec.Struct, frozen=True, kw_only=True):
    """What a gauge should show, in words; the figures beside are in SI.

    Attributes:
        text: The most likely reading, and between which it lies in 95 of 100 cases.
        figure: Only the most likely reading.
    """

    quantity: str
    stage: str
    mean: float
    sd: float
    low: float
    high: float
    text: str
    figure: str


def say_expected(item: Expected, style: UnitsShown | None) -> ExpectedWords:
    """Say what a gauge should show."""
    figure = Amount(item.kind, item.mean, item.sd)
    ends = phrase("expected", figure=figure, low=Amount(item.kind, item.low), high=Amount(item.kind, item.high))
    return ExpectedWords(
        quantity=item.quantity,
        stage=item.stage,
        mean=item.mean,
        sd=item.sd,
        low=item.low,
        high=item.high,
        text=say(ends, style),
        figure=say(figure, style),
    )


class StepWords(msgspec.Struct, frozen=True, kw_only=True):
    """One step as it is said; its attributes are those of `Step`, in words.

    Attributes:
        waits: Why it has to wait, a sentence each, while its gate is closed.
    """

    key: StepKey
    number: int
    title: str
    waits: tuple[str, ...]
    what: tuple[str, ...]
    act_on: tuple[tuple[str, str], ...]
    numbers: tuple[tuple[str, str], ...]
    instrument: str | None
    expected: tuple[ExpectedWords, ...]
    done_when: str
    cautions: tuple[str, ...]
    gate: str | None
    done: bool

    @property
    def sentences(self) -> tuple[str, ...]:
        """Why it waits, then how it is done."""
        return (*self.waits, *self.what)


def say_step(step: Step, style: UnitsShown | None) -> StepWords:
    """Say one step."""

    def all_of(things: Iterable[Value]) -> tuple[str, ...]:
        return tuple(say(thing, style) for thing in things)

    def figures(pairs: Figures) -> tuple[tuple[str, str], ...]:
        return tuple((say(label, style), say(figure, style)) for label, figure in pairs)

    return StepWords(
        key=step.key,
        number=step.number,
        title=say(step.title, style),
        waits=all_of(phrase("step waits", why=why) for why in step.waits),
        what=all_of(step.what),
        act_on=figures(step.act_on),
        numbers=figures(step.numbers),
        instrument=None if step.instrument is None else say(step.instrument, style),
        expected=tuple(say_expected(item, style) for item in step.expected),
        done_when=say(step.done_when, style),
        cautions=all_of(step.cautions),
        gate=step.gate,
        done=step.done,
    )


def say_steps(steps: Iterable[Step], style: UnitsShown | None) -> tuple[StepWords, ...]:
    """Say steps of a plan."""
    return tuple(say_step(step, style) for step in steps)
