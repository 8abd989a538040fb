"""What the JSON interface takes and gives. Values stay the text a person would type: `35 1/4 in`, `D3.8`, `297.6 g`."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from clubwright.web.api.base import DoneAt, Given, Note, Number, Site, Taken, Text
from clubwright.web.api.closing import ClosingOut

JOB = r"^[^/\x00-\x1f\x7f]{1,80}$"
KEY = r"^[A-Za-z0-9._:-]{1,100}$"


class WorkIn(Taken):
    """A ticket document to be worked and not kept: the tables of a ticket file (`clubwright schema ticket`)."""

    document: dict[str, Any]


class TicketIn(WorkIn):
    """A ticket document to be taken, values as text."""

    source: Annotated[str, Field(max_length=200, description="Where it came from.")] = "api"
    club: Annotated[Text | None, Field(description="An earlier job on the club that it is work on.")] = None


class ReadingIn(Taken):
    """A gauge was read."""

    quantity: Text
    value: Text
    stage: Text = "finished"
    weights: list[Text] | None = Field(default=None, max_length=20, description="Those fitted now when left out.")
    instrument: Text | None = None
    repeats: Text = "1"
    done_at: DoneAt = None


class DecisionIn(Taken):
    """A person decided about a reading that does not fit."""

    reading: Number
    keep: bool
    reason: Note
    site: Site = None


class WeightsIn(Taken):
    """The weights that are on now: the whole list."""

    weights: list[Text] = Field(max_length=20)


class PartIn(Taken):
    """A part's keys and texts; an empty text takes a key out. `another`: nothing measured of the old one is kept.

    `gauge` measured the figures; left out, the usual ones did. A figure with a gauge adds to an earlier one that has
    one; with an empty name it takes the place of what stood there.
    """

    section: Text
    values: dict[str, Annotated[str, Field(max_length=200)]] = Field(max_length=40)
    another: bool = False
    gauge: Annotated[str, Field(max_length=80)] | None = None


class StepIn(Taken):
    """A step of the plan is done, or passed over: then `skipped` says what is left out."""

    step: Text
    note: Note = ""
    skipped: Note | None = None


class GateIn(Taken):
    """A gate is signed."""

    gate: Text


class NumberIn(Taken):
    """Another number for a ticket, which no other ticket has or had."""

    number: Annotated[str, Field(min_length=1, max_length=80, examples=["T-van-0001"])]


class UndoIn(Taken):
    """A fact is reversed; the last that stands when none is named."""

    fact: Number | None = None
    reason: Note = ""
    site: Site = None


class FindingOut(Given):
    """What is wrong, where, and how to mend it."""

    where: str
    what: str
    mend: str
    severity: Literal["error", "warning", "note"]


class Refused(Given):
    """Why a request was not done; nothing of it was kept."""

    error: str
    findings: list[FindingOut]


class FactOut(Given):
    """The fact that was kept. The same request with the same key gives the same fact."""

    site: str
    number: int
    at: str
    by: str
    kind: str
    text: str
    key: str


class JobRow(Given):
    """One job of the list."""

    id: str
    label: str
    player: str
    promised: str
    finished: bool


class BrokenRow(Given):
    """One job whose state is not known, and why."""

    id: str
    label: str
    player: str
    findings: list[FindingOut]


class JobsOut(Given):
    """The jobs in the order their tickets came in, those whose state is not known, and what else is damaged."""

    jobs: list[JobRow]
    broken: list[BrokenRow]
    findings: list[FindingOut]


class ExpectedOut(Given):
    """What a gauge should show."""

    quantity: str
    stage: str
    mean: float
    sd: float
    low: float
    high: float
    text: str


class StepOut(Given):
    """One step of the plan."""

    key: str
    number: int
    title: str
    what: list[str]
    act_on: list[tuple[str, str]]
    numbers: list[tuple[str, str]]
    instrument: str | None
    expected: list[ExpectedOut]
    done_when: str
    cautions: list[str]
    gate: str | None
    done: bool


class PlanOut(Given):
    """The plan of a job."""

    steps: list[StepOut]


class UnknownOut(Given):
    """What is believed of one unknown of the club; SI."""

    name: str
    mean: float
    sd: float


class JobOut(Given):
    """One job as it stands.

    `answer` is what `clubwright schema answer` describes.
    """

    id: str
    finished: bool
    steps_done: list[str]
    next_step: StepOut | None
    belief: list[UnknownOut]
    answer: dict[str, Any]
    closing: list[ClosingOut]
