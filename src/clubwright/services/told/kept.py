"""What an action left in the record, told to a program."""

from __future__ import annotations

from typing import Annotated

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
