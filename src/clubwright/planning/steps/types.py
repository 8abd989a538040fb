"""A step of the plan: what to do, to which numbers, what the gauge should show, and when it is done."""

from __future__ import annotations

import msgspec

from clubwright.planning.said.phrases import Value

StepKey = str
"""Key in the register of steps (`clubwright.state.steps`)."""


class Expected(msgspec.Struct, frozen=True, kw_only=True):
    """What a gauge should show, before it is read.

    Attributes:
        quantity: Key in the register of quantities, or a number of a part such as ``head.mass``.
        stage: Stage of the build it is read at; ``part`` for a part by itself.
        mean: Most likely reading, in SI.
        sd: Standard uncertainty of the reading: what is believed of the club, and the gauge's own.
        low, high: The reading lies between them in 95 of 100 cases.
        kind: Kind of notation.
    """

    quantity: str
    stage: str
    mean: float
    sd: float
    low: float
    high: float
    kind: str


Figures = tuple[tuple[Value, Value], ...]
"""Label and figure of each, as data."""


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the plan for one club, as data; `clubwright.words.step` says it.

    Attributes:
        key: Its name in the record.
        number: Its place in this plan, from 1.
        title: What to do, starting with a verb.
        waits: Why its gate is closed; nothing while it is open.
        what: How, a phrase for each short sentence.
        act_on: The figures to act on, label and figure: what is read from two metres; one or two, or none.
        numbers: Label and figure.
        instrument: What it is measured with.
        expected: What that should show.
        done_when: How to see that it is done.
        cautions: What can hurt here.
        gate: The gate that must be open first.
        done: Whether the record says that it is done.
    """

    key: StepKey
    number: int = 0
    title: Value
    waits: tuple[Value, ...] = ()
    what: tuple[Value, ...] = ()
    act_on: Figures = ()
    numbers: Figures = ()
    instrument: Value | None = None
    expected: tuple[Expected, ...] = ()
    done_when: Value
    cautions: tuple[Value, ...] = ()
    gate: str | None = None
    done: bool = False
