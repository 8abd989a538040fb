"""Work a job of the record: its document as folded, with what the journal knows of its progress.

A page asks for the same job several times before it is drawn. What follows from the ticket alone is therefore worked once
and kept for a while; what the time and the record add (cup, cure, gates) is worked each time.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from functools import lru_cache

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.reducers.fold import Job
from clubwright.notation import UnitsShown, parse, units_shown
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.gates.gates import Gate, Progress, gates_of
from clubwright.planning.steps.plan import Joint, Step, plan_of
from clubwright.services.answer.club_answer import ClubAnswer, hosel_findings, work_ticket
from clubwright.services.checks.job_ticket import read_job
from clubwright.services.jobs.clocks import joint_of
from clubwright.services.jobs.gates import club_findings, gates_with_record
from clubwright.services.jobs.mixed_batch import cup_findings, joint_findings
from clubwright.services.jobs.signatures import void_findings
from clubwright.services.record.session import Local, in_utc, moment_of
from clubwright.state.key import StateKey
from clubwright.state.ticket import Ticket

TIP_TRIM = "tip trim"
"""Key of the step of the plan."""

AsRead = tuple[Ticket, tuple[Finding, ...]]
"""A ticket, and what was found when it was read."""

KEPT = 32
"""So many jobs are kept worked: those on the tablets of one workshop, each before and after its last action."""


class JobAnswer(ClubAnswer, frozen=True, kw_only=True):
    """A worked ticket with its plan, some of whose steps are done."""

    steps: tuple[Step, ...]
    order_moved: frozenset[str] = frozenset()
    """Gates that were signed for another order than the one of now, with which what they check is not the same."""


def answer_job(job: Job, now: datetime, local: Local = in_utc) -> JobAnswer:
    """Work a job as it stands at a moment.

    Args:
        job: The job.
        now: The moment.
        local: Puts a moment into the bench's own time of day, where the plan gives one.

    Raises:
        InputError: when its document no longer can be taken.
    """
    read = _as_read(job)
    worked, best = _worked(read, units_shown())
    club_state = worked.club_state
    cup = cup_findings(job, club_state.ticket, now)
    gates = _gates(job, worked, best, now)
    cracked = hosel_findings(club_state.ticket)
    alarms = (*joint_findings(job), *cup, *(msgspec.structs.replace(finding, severity="error") for finding in cracked))
    others = tuple(finding for finding in worked.findings if finding not in cracked)
    joint = joint_of(job, club_state.ticket, local)
    worked = msgspec.structs.replace(worked, findings=(*club_findings(job), *alarms, *others), gates=gates)
    steps = _plan(read, gates, frozenset(job.steps_done), joint, job.edition, units_shown())
    done = _joined(worked, steps)
    done = msgspec.structs.replace(done, order_moved=_order_moved(job, gates, now))
    return msgspec.structs.replace(done, findings=(*void_findings(job, done), *done.findings))


def _gates(job: Job, worked: ClubAnswer, best: Choice, now: datetime) -> tuple[Gate, ...]:
    by_ticket = gates_of(worked.club_state, worked.cut, best, progress_of(job, now))
    return gates_with_record(by_ticket, job, worked.club_state.ticket, worked.cut, now)


def _order_moved(job: Job, gates: Iterable[Gate], now: datetime) -> frozenset[str]:
    """Return the signed gates whose checks say something else than they would with the order that was signed for.

    The club is the one of now in both: only what the order makes different counts. The cut is known by its length.
    """
    return frozenset(
        gate.step for gate in gates if gate.step in job.signed_for and gate.step != "cut" and _moved(job, gate, now)
    )


def _moved(job: Job, gate: Gate, now: datetime) -> bool:
    try:
        worked, best = _worked(_as_read(job.as_signed(gate.step)), units_shown())
    except InputError:
        return True  # nobody can say any more what was signed
    before = next((item for item in _gates(job, worked, best, now) if item.step == gate.step), None)
    return before is None or before.checks != gate.checks


def _as_read(job: Job) -> StateKey[AsRead]:
    ticket, findings = read_job(job)
    return StateKey((_with_trim(job, ticket), findings))


def _with_trim(job: Job, ticket: Ticket) -> Ticket:
    """Return a job's ticket with what the record knows and the ticket does not say: whether the tip is trimmed."""
    shaft = ticket.club.shaft
    if not shaft.given or shaft.tip_trimmed is not None:
        return ticket
    shaft = msgspec.structs.replace(shaft, tip_trimmed="yes" if TIP_TRIM in job.steps_done else "no")
    return msgspec.structs.replace(ticket, club=msgspec.structs.replace(ticket.club, shaft=shaft))


@lru_cache(maxsize=KEPT)
def _worked(read: StateKey[AsRead], _units: UnitsShown | None) -> tuple[ClubAnswer, Choice]:
    """Work a ticket by itself, and say which weights are best; what it says is in the units that come first."""
    worked = work_ticket(*read.state)
    return worked, choices(worked.club_state)[0]


@lru_cache(maxsize=KEPT)
def _plan(
    read: StateKey[AsRead],
    gates: tuple[Gate, ...],
    done: frozenset[str],
    joint: Joint | None,
    edition: int,
    units: UnitsShown | None,
) -> tuple[Step, ...]:
    worked, best = _worked(read, units)
    return plan_of(worked.club_state, worked.cut, best, gates, done, joint, edition)


def with_plan(worked: ClubAnswer, done: frozenset[str] = frozenset()) -> JobAnswer:
    """Add the plan to a worked ticket."""
    best = choices(worked.club_state)[0]
    return _joined(worked, plan_of(worked.club_state, worked.cut, best, worked.gates, done))


def _joined(worked: ClubAnswer, steps: tuple[Step, ...]) -> JobAnswer:
    fields = {name: getattr(worked, name) for name in ClubAnswer.__struct_fields__}
    return JobAnswer(steps=steps, **fields)


def progress_of(job: Job, now: datetime) -> Progress:
    """Say what the journal knows: glued or not, and how long the joint has been at which temperature."""
    if job.glued_at is None or job.glued_temperature is None:
        return Progress()
    kelvin = parse("temperature", job.glued_temperature, where="glued").value
    seconds = max((now - moment_of(job.glued_at)).total_seconds(), 0.0)
    return Progress(glued=True, cure=((seconds, kelvin),))
