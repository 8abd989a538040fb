"""The bench page of one job: the club, the strips, the next step, the trail."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import urlencode

import msgspec

from clubwright.journal.job import Job
from clubwright.journal.seen import seen_of, seen_text
from clubwright.labels.pictures.strip import strip_svg
from clubwright.labels.sheet.drawing import draw_club
from clubwright.labels.sheet.drawing_from_work import drawing_of
from clubwright.notation import units_shown
from clubwright.planning.advice.advice import Advice
from clubwright.planning.steps.plan import Step
from clubwright.services.answer.misfit_to_decide import MisfitToDecide, misfits_to_decide
from clubwright.services.answer.strips import Strip, strips_of
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.minutes import JobTimes, StepTime, step_time_text, times_text
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.session import Local, in_utc
from clubwright.services.shaft.curves import has_shaft_page
from clubwright.services.told.club import MixRow
from clubwright.web.views.card_view import Card, card_of
from clubwright.web.views.mixes_here import MixesHere, mixes_here
from clubwright.web.views.trail_rows import TrailRow, just_undone, trail_rows
from clubwright.words import on_page, spoken
from clubwright.words.advice import say_advice
from clubwright.words.gate import said_at
from clubwright.words.say import percent, say

WIDE_MM, NARROW_MM = 240.0, 144.0
"""Widths the club is drawn for: a tablet lying and a tablet standing; on both its smallest text stays readable."""


class StripRow(msgspec.Struct, frozen=True, kw_only=True):
    """One belief strip with its words."""

    key: str
    name: str
    target: str
    tolerance: str
    picture: str
    left: str
    right: str
    value: str
    spread: str
    chance: str
    considered: bool
    read: str
    verdict: str
    measured: bool


class StepRow(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the plan in the list of all steps."""

    key: str
    number: int
    title: str
    done: bool
    now: bool
    time: str


class BenchView(msgspec.Struct, frozen=True, kw_only=True):
    """All that the bench page shows; texts and pictures ready.

    Attributes:
        here: Address of this very view, for a page that loads itself anew.
        facts: How many facts the record holds, so that a page knows when it is old.
        seen: The last fact of each bench on the job that this page shows, so that a clash with another tablet is found.
        now: The moment, UTC ISO 8601, by the workshop's clock; a tablet's own may be wrong.
        stop: Why nothing may go on (a wrong part in the hand); empty when all is well.
        aside: A reading that does not fit and waits for a decision.
        undone: What was undone just now.
        last: The last line that stands, which one tap undoes.
        shaft: True when this club has a page of its shaft.
        left: How long the work takes that is left.
    """

    job: str
    title: str
    player: str
    hand: str
    invented: bool
    finished: bool
    here: str
    facts: int
    seen: str
    now: str
    drawing: str
    strips: tuple[StripRow, ...]
    card: Card
    steps: tuple[StepRow, ...]
    trail: tuple[TrailRow, ...]
    last: TrailRow | None
    undone: str
    stop: str
    alarms: tuple[str, ...]
    mixes: MixesHere
    aside: MisfitToDecide | None
    considering: str
    shaft: bool
    left: str


def bench_view(
    worked: JobAnswer,
    job: Job,
    *,
    facts: int,
    key: str,
    now: str,
    times: JobTimes,
    consider: str | None = None,
    step: str | None = None,
    local: Local = in_utc,
    at_hand: Sequence[MixRow] = (),
) -> BenchView:
    """Make the bench page.

    Args:
        worked: The job, worked.
        job: The job as the record has it.
        facts: How many facts the record holds.
        key: Idempotency key for the next action of this page.
        now: The moment, UTC ISO 8601.
        times: How long its steps take.
        consider: Id of the advice that is being considered.
        step: A step to show instead of the next one.
        local: Puts a moment into the bench's own time of day.
        at_hand: Mixes of other jobs that this joint may be glued from.
    """
    said = worked.club_state.ticket.order
    advice = next((item for item in worked.advice if item.id == consider), None)
    strips = strips_of(worked, None if advice is None else advice.finished)
    card = card_of(worked, job, key=key, consider=consider, step=step, local=local)
    void = {item.place: item.why for item in void_signatures(job, worked)}
    club, trail = drawing_of(worked, job), trail_rows(job, void)
    return BenchView(
        job=job.id,
        title=said.label or worked.club_state.ticket.kind,
        player=said.player.name or "",
        hand=worked.club_state.ticket.hand,
        invented=worked.club_state.ticket.invented,
        finished=job.finished is not None,
        here=_address(job.id, step=step, consider=None if advice is None else consider),
        facts=facts,
        seen=seen_text(seen_of((line.site, line.sequence) for line in job.trail)),
        now=now,
        drawing=draw_club(club, width_mm=NARROW_MM),
        strips=tuple(_strip_row(strip) for strip in strips),
        card=card,
        steps=tuple(_step_row(*each, card.step) for each in zip(worked.steps, times.steps, strict=True)),
        trail=trail,
        last=next((row for row in trail if row.undo and not row.back), None),
        undone=just_undone(job),
        stop=_stop(worked),
        alarms=tuple(said_at(finding) for finding in worked.findings if finding.severity == "error"),
        mixes=mixes_here(job, at_hand, local),
        aside=next(iter(misfits_to_decide(worked)), None) if job.finished is None and step is None else None,
        considering=_considering(advice),
        shaft=has_shaft_page(worked.club_state),
        left="" if job.finished is not None else times_text(times.left),
    )


def _address(job: str, **asked: str | None) -> str:
    query = urlencode({name: value for name, value in asked.items() if value})
    return f"/bench/{job}" + (f"?{query}" if query else "")


def _considering(advice: Advice | None) -> str:
    return "" if advice is None else say_advice(advice, units_shown()).do


def _strip_row(strip: Strip) -> StripRow:
    # what the action does not move is drawn as it was
    strip = strip if _moves(strip) else msgspec.structs.replace(strip, considered=None)
    shown = strip.considered or strip.belief
    return StripRow(
        key=strip.key,
        name=spoken("quantity", strip.key),
        target=strip.target,
        tolerance=strip.tolerance,
        picture=strip_svg(strip),
        left=strip.ends[0],
        right=strip.ends[1],
        value=shown.text,
        spread=shown.spread,
        chance=percent(shown.chance),
        considered=strip.considered is not None,
        read="" if strip.tick is None else strip.tick.text,
        verdict=strip.verdict,
        measured=strip.measured,
    )


def _moves(strip: Strip) -> bool:
    now, then = strip.belief, strip.considered
    return then is not None and (then.text, then.spread) != (now.text, now.spread)


def _step_row(step: Step, time: StepTime, current: str) -> StepRow:
    return StepRow(
        key=step.key,
        number=step.number,
        title=say(step.title, units_shown()),
        done=step.done,
        now=step.key == current,
        time=step_time_text(time),
    )


def _stop(worked: JobAnswer) -> str:
    ticket = worked.club_state.ticket
    said = ticket.club.head.hand
    if said is None or said == ticket.hand:
        return ""
    return on_page("stop hand", ordered=spoken("side", ticket.hand), found=spoken("side", said))
