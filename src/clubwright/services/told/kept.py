"""What an action left in the record, and what a merge brought into it, told to a program."""

from __future__ import annotations

from typing import Annotated, Literal

from clubwright.services.told.answer import FindingAnswer
from clubwright.services.told.base import Told, says


class KeptAnswer(Told, frozen=True, kw_only=True):
    """The fact that was kept. The same action with the same key gives the same fact."""

    job: Annotated[str, says("The name that its job goes by.")]
    site: Annotated[str, says("The bench that wrote it.")]
    number: Annotated[int, says("Its number there, from 1.")]
    at: Annotated[str, says("When, UTC, ISO 8601 with Z.")]
    by: Annotated[str, says("Who.")]
    kind: Annotated[str, says("Kind of fact.")]
    text: Annotated[str, says("It as the trail shows it.")]
    key: Annotated[str, says("Idempotency key.")]
    step: Annotated[str | None, says("The step of the plan that was ticked with it.")]
    lacks: Annotated[
        tuple[FindingAnswer, ...],
        says("What the step that the action completes still needs; the fact is kept all the same."),
    ]


class MergedAnswer(Told, frozen=True, kw_only=True):
    """What a merge of another bench's record brought, and what both together leave to be decided."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    facts: Annotated[int, says("How many facts the record holds now.")]
    new: Annotated[int, says("How many of them were new.")]
    sites: Annotated[tuple[str, ...], says("Benches that wrote in the other record.")]
    findings: Annotated[
        tuple[FindingAnswer, ...],
        says("What is broken now, numbers that were given away twice, what was read differently, with how to mend it."),
    ]


class SentToPrinter(Told, frozen=True, kw_only=True):
    """A paper that was handed to the workshop's printer; nothing of it is kept in the record."""

    job: Annotated[str, says("The name that its job goes by.")]
    paper: Annotated[Literal["sheet", "tag", "cards"], says("Which paper.")]
    said: Annotated[str, says("What the printer's command said, in short; empty where it said nothing.")]
