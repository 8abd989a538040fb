"""The as-built record: every target beside what was read and what it proves, and the recipe that re-makes the club."""

from __future__ import annotations

from typing import Any

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.journal.fold import Job
from clubwright.notation import render
from clubwright.planning.goals import Goal
from clubwright.services.again import recipe
from clubwright.services.answer import Plain, rounded
from clubwright.services.work import Worked


class BuiltRow(msgspec.Struct, frozen=True, kw_only=True):
    """One target of the ticket as built; texts in trade notation, as typed where a person typed them.

    Attributes:
        key: The quantity.
        quantity: Its name.
        ordered: The target as typed.
        tolerance: Its half-width.
        read: What the finished club read, as typed; empty when it was not read.
        believed: What is believed of it, all readings counted.
        verdict: within, outside or cannot tell; empty when it was not read.
    """

    key: str
    quantity: str
    ordered: str
    tolerance: str
    read: str
    believed: str
    verdict: str


def built_rows(worked: Worked) -> tuple[BuiltRow, ...]:
    """Return the as-built rows of a worked ticket, in the register's order."""
    return tuple(_row(worked, goal) for goal in worked.situation.goals)


def _row(worked: Worked, goal: Goal) -> BuiltRow:
    situation, quantity = worked.situation, QUANTITIES[goal.key]
    believed = ""
    if situation.can_predict(goal.key):
        prediction = situation.predict([goal.key])
        believed = render(quantity.kind, float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))
    read = [
        entry.entry.typed
        for entry in situation.ticket.readings
        if entry.quantity == goal.key and entry.stage == FINISHED.name and entry.keep is not False
    ]
    inspected = worked.inspected.get(goal.key)
    return BuiltRow(
        key=goal.key,
        quantity=quantity.name,
        ordered=goal.typed,
        tolerance=f"± {goal.tolerance_typed}",
        read=", ".join(read),
        believed=believed,
        verdict="" if inspected is None else inspected.verdict,
    )


def as_built_record(job: Job, worked: Worked) -> Plain:
    """Return the as-built record of a job as plain data."""
    said: dict[str, Any] = job.document["ticket"]
    title = "  ".join(text for text in (job.id, said.get("label", ""), said.get("player", "")) if text)
    return {
        "cut_length_m": rounded(worked.situation.belief.mean_of("shaft.length_m"))
        if "shaft.length_m" in worked.situation.belief.names
        else None,
        "finished": bool(job.finished),
        "id": job.id,
        "recipe": recipe(job, worked),
        "rows": [msgspec.to_builtins(row) for row in built_rows(worked)],
        "title": title,
        "trail": [msgspec.to_builtins(line) for line in job.trail],
    }
