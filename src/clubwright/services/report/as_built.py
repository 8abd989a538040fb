"""The as-built record: every target beside what was read and what it proves, what was done, and what re-makes the club."""

from __future__ import annotations

from typing import Annotated, Literal

from clubwright.club.quantities import QUANTITIES
from clubwright.journal.job import Accepted, Job, TrailLine
from clubwright.notation import render
from clubwright.planning.goals import Goal
from clubwright.services.answer.answer import rounded_if
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.jobs.closing import closing_points, finished_readings
from clubwright.services.report.build_again import recipe
from clubwright.services.report.done_work import DoneWork, cut_m, done_work
from clubwright.services.told.base import Told, says
from clubwright.ticket.gauges import lacking


class AsBuiltRow(Told, frozen=True, kw_only=True):
    """One target of the ticket as built; texts in trade notation, as typed where a person typed them.

    Attributes:
        key: The quantity.
        quantity: Its name.
        ordered: The target as typed.
        tolerance: Its half-width.
        read: What the finished club read, as typed; empty when it was not read.
        believed: What is believed of it, all readings counted.
        verdict: within, outside or cannot tell; empty when it was not read.
        unused: What the ticket lacks so that a reading is kept and not used; empty when nothing.
        accepted_by: Who accepted by name that it stands so; empty when nobody did, or it stands otherwise since.
        accepted_because: Why.
    """

    key: str
    quantity: str
    ordered: str
    tolerance: str
    read: str
    believed: str
    verdict: str
    unused: str = ""
    accepted_by: str = ""
    accepted_because: str = ""


def as_built_rows(worked: ClubAnswer, job: Job | None = None) -> tuple[AsBuiltRow, ...]:
    """Return the as-built rows of a worked ticket, in the register's order.

    Args:
        worked: The ticket, worked.
        job: What the record knows of it, acceptances too; None for a ticket file.
    """
    accepted = {} if job is None else {point.key: point.accepted for point in closing_points(job, worked)}
    return tuple(_row(worked, goal, accepted.get(goal.key)) for goal in worked.club_state.goals)


def _row(worked: ClubAnswer, goal: Goal, accepted: Accepted | None) -> AsBuiltRow:
    club_state, quantity = worked.club_state, QUANTITIES[goal.key]
    believed = ""
    if club_state.can_predict(goal.key):
        prediction = club_state.predict([goal.key])
        believed = render(quantity.kind, float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))
    read = [entry.entry.typed for entry in finished_readings(worked, goal.key)]
    inspected = worked.inspected.get(goal.key)
    return AsBuiltRow(
        key=goal.key,
        quantity=quantity.name,
        ordered=goal.typed,
        tolerance=f"± {goal.tolerance_typed}",
        read=", ".join(read),
        believed=believed,
        verdict="" if inspected is None else inspected.verdict,
        unused=lacking(club_state.ticket, goal.key) if read else "",
        accepted_by="" if accepted is None else accepted.what.accepted_by,
        accepted_because="" if accepted is None else accepted.what.reason,
    )


class AsBuiltAnswer(Told, frozen=True, kw_only=True):
    """The as-built record of a job."""

    id: Annotated[str, says("Name that it goes by.")]
    title: Annotated[str, says("Its number, its club and its player.")]
    finished: Annotated[bool, says("Whether it is closed.")]
    cut_length_m: Annotated[float | None, says("Length of the shaft as it was cut, in m; null where nobody cut it.")]
    rows: Annotated[tuple[AsBuiltRow, ...], says("Every target beside what was read and what it proves.")]
    done: Annotated[tuple[DoneWork, ...], says("What was done, in the order of the bench.")]
    recipe: Annotated[str, says("What re-makes the club, in one line.")]
    trail: Annotated[tuple[TrailLine, ...], says("Every fact of the job.")]


def as_built_record(job: Job, worked: ClubAnswer) -> AsBuiltAnswer:
    """Return the as-built record of a job."""
    order = job.order
    length_m = cut_m(job, worked)
    title = "  ".join(text for text in (job.id, order.label, order.player) if text)
    return AsBuiltAnswer(
        cut_length_m=rounded_if(length_m),
        done=done_work(job, worked),
        finished=bool(job.finished),
        id=job.id,
        recipe=recipe(job, worked),
        rows=as_built_rows(worked, job),
        title=title,
        trail=tuple(job.trail),
    )


class DemoAction(Told, frozen=True, kw_only=True):
    """One action of the demo."""

    command: Annotated[str, says("The command a person would type.")]
    outcome: Annotated[tuple[str, ...], says("What came of it, in lines for a person.")]


class DemoAnswer(Told, frozen=True, kw_only=True):
    """What the demo did, wrote and built; all of it is invented."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    actions: Annotated[tuple[DemoAction, ...], says("Every action, in order.")]
    files: Annotated[tuple[str, ...], says("Files that were written.")]
    record: Annotated[AsBuiltAnswer, says("The club as built.")]
