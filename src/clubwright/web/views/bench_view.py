"""The bench page of one job: the club, the strips, the next step, the trail."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from clubwright.journal.job import Job
from clubwright.labels.drawing import draw_club
from clubwright.labels.drawing_from_work import drawing_of
from clubwright.planning.advice import Advice
from clubwright.planning.steps import Step
from clubwright.services.job_work import WorkedJob
from clubwright.services.strips import Strip, strips_of
from clubwright.web.views.card_view import Card, card_of, percent
from clubwright.web.views.strip_svg import strip_svg


class StripRow(msgspec.Struct, frozen=True, kw_only=True):
    """One belief strip with its words."""

    key: str
    name: str
    target: str
    tolerance: str
    picture: str
    left: str
    right: str
    text: str
    chance: str
    considered: str
    considered_chance: str
    read: str
    verdict: str


class TrailRow(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the trail."""

    number: int
    at: str
    by: str
    text: str
    undone: bool
    can_undo: bool


class StepRow(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the plan in the list of all steps."""

    key: str
    number: int
    title: str
    done: bool
    now: bool


class Alarm(msgspec.Struct, frozen=True, kw_only=True):
    """Something that has to be looked at: ``stop`` (wrong part), ``decide`` (a reading that does not fit), ``look``."""

    kind: str
    text: str
    reading: int = 0


class BenchView(msgspec.Struct, frozen=True, kw_only=True):
    """All that the bench page shows; texts and pictures ready."""

    job: str
    title: str
    player: str
    hand: str
    invented: bool
    finished: bool
    facts: int
    seen: int
    drawing: str
    strips: tuple[StripRow, ...]
    card: Card
    steps: tuple[StepRow, ...]
    trail: tuple[TrailRow, ...]
    alarms: tuple[Alarm, ...]
    considering: str


def bench_view(
    worked: WorkedJob, job: Job, *, facts: int, key: str, now: str, consider: int | None = None, step: str | None = None
) -> BenchView:
    """Make the bench page.

    Args:
        worked: The job, worked.
        job: The job as the record has it.
        facts: How many facts the record holds, so that a page knows when it is old.
        key: Idempotency key for the next action of this page.
        now: The moment, UTC ISO 8601, for running clocks.
        consider: Which line of the advice is being considered.
        step: A step to show instead of the next one.
    """
    said = worked.situation.ticket.row("ticket").words
    advice = _considered(worked, consider)
    strips = strips_of(worked, None if advice is None else advice.finished)
    card = card_of(worked, job, key=key, now=now, consider=consider, step=step)
    return BenchView(
        job=job.id,
        title=said.get("label", worked.situation.ticket.kind),
        player=said.get("player", ""),
        hand=worked.situation.ticket.hand,
        invented="invented" in said.get("note", "").lower(),
        finished=job.finished is not None,
        facts=facts,
        seen=max((line.sequence for line in job.trail), default=0),
        drawing=draw_club(drawing_of(worked, job), width_mm=300.0),
        strips=tuple(_strip_row(strip) for strip in strips),
        card=card,
        steps=tuple(_step_row(item, card.step) for item in worked.steps),
        trail=_trail(job),
        alarms=_alarms(worked),
        considering="" if advice is None else advice.do,
    )


def _considered(worked: WorkedJob, consider: int | None) -> Advice | None:
    if consider is None or not 0 <= consider < len(worked.advice):
        return None
    return worked.advice[consider]


def _strip_row(strip: Strip) -> StripRow:
    return StripRow(
        key=strip.key,
        name=strip.name,
        target=strip.target,
        tolerance=strip.tolerance,
        picture=strip_svg(strip),
        left=strip.ends[0],
        right=strip.ends[1],
        text=strip.belief.text,
        chance=percent(strip.belief.chance),
        considered="" if strip.considered is None else strip.considered.text,
        considered_chance="" if strip.considered is None else percent(strip.considered.chance),
        read="" if strip.tick is None else strip.tick.text,
        verdict=strip.verdict,
    )


def _step_row(step: Step, current: str) -> StepRow:
    return StepRow(key=step.key, number=step.number, title=step.title, done=step.done, now=step.key == current)


def _trail(job: Job) -> tuple[TrailRow, ...]:
    return tuple(
        TrailRow(
            number=line.sequence,
            at=line.at[:16].replace("T", " "),
            by=line.by,
            text=line.text,
            undone=line.undone,
            can_undo=not line.undone and line.kind not in ("ticket taken", "undone"),
        )
        for line in reversed(job.trail)
    )


def _alarms(worked: WorkedJob) -> tuple[Alarm, ...]:
    ticket = worked.situation.ticket
    found = []
    said = ticket.row("head").words.get("hand")
    if said is not None and said != ticket.hand:
        found.append(
            Alarm(kind="stop", text=f"STOP: wrong part. The ticket is for the {ticket.hand} hand, this head is {said}.")
        )
    undecided: Mapping[str, int] = {
        entry.where: entry.fact for entry in ticket.readings if entry.fact is not None and entry.keep is None
    }
    for finding in worked.findings:
        if "kept aside" in finding.what and finding.where in undecided:
            found.append(Alarm(kind="decide", text=f"{finding.what}.", reading=undecided[finding.where]))
        elif finding.severity == "error":
            found.append(Alarm(kind="stop", text=finding.sentence()))
    return tuple(found)
