"""What the JSON interface takes and gives. Values stay the text a person would type: `35 1/4 in`, `D3.8`, `297.6 g`."""

from __future__ import annotations

from typing import Annotated, Any

from clubwright.services.told.answer import Answer, FindingAnswer
from clubwright.services.told.base import Told, says
from clubwright.services.told.job import ClosingAnswer, StepAnswer, UnknownAnswer
from clubwright.web.api import structs

JOB = r"^[^/\x00-\x1f\x7f]{1,80}$"
KEY = r"^[A-Za-z0-9._:-]{1,100}$"


class WorkIn(structs.Taken, frozen=True, kw_only=True):
    """A ticket to be worked and not kept."""

    document: Annotated[dict[str, Any], says("The tables of a ticket file; `clubwright schema ticket` describes them.")]


class Refused(Told, frozen=True, kw_only=True):
    """Why a request was not done; nothing of it was kept."""

    error: Annotated[str, says("All of it in one text.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is wrong, where, and how to mend it, all at once.")]


class JobRow(Told, frozen=True, kw_only=True):
    """One job of the list."""

    id: Annotated[str, says("Name that it goes by.")]
    label: Annotated[str, says("What the club is called.")]
    player: Annotated[str, says("Whose it is.")]
    promised: Annotated[str, says("When it was promised for, as typed.")]
    finished: Annotated[bool, says("Whether it is closed.")]


class BrokenRow(Told, frozen=True, kw_only=True):
    """One job whose state is not known, and why."""

    id: Annotated[str, says("Name that it goes by.")]
    label: Annotated[str, says("What the club is called.")]
    player: Annotated[str, says("Whose it is.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("Why.")]


class JobsOut(Told, frozen=True, kw_only=True):
    """The jobs in the order their tickets came in, those whose state is not known, and what else is damaged."""

    jobs: Annotated[tuple[JobRow, ...], says("The jobs, in the order their tickets came in.")]
    broken: Annotated[tuple[BrokenRow, ...], says("Jobs whose state is not known.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What else of the record is damaged.")]


class PlanOut(Told, frozen=True, kw_only=True):
    """The plan of a job."""

    steps: Annotated[tuple[StepAnswer, ...], says("Each step, in order.")]


class JobOut(Told, frozen=True, kw_only=True):
    """One job as it stands."""

    id: Annotated[str, says("Name that it goes by.")]
    finished: Annotated[bool, says("Whether it is closed.")]
    steps_done: Annotated[tuple[str, ...], says("Keys of the steps that are done.")]
    next_step: Annotated[StepAnswer | None, says("The first step that is not done.")]
    belief: Annotated[tuple[UnknownAnswer, ...], says("What is believed of every part and every gauge.")]
    answer: Annotated[Answer, says("What follows from its ticket.")]
    closing: Annotated[tuple[ClosingAnswer, ...], says("Every target with what stands between it and the end.")]
