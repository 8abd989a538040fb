"""What comes next on a job, as an action of the register: the plan's next step, and what is done for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from clubwright.club.quantities import ANGLES
from clubwright.journal.job import Job
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.steps.types import Step, StepKey
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import gate_of, steps_of
from clubwright.services.answer.misfit_to_decide import misfits_to_decide
from clubwright.services.jobs.closing import NOT_READ, open_points
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.mixed_batch import mix_lacks
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.services.jobs.step_needs import lacking

NOTHING: Mapping[str, Any] = {}


class Following(msgspec.Struct, frozen=True, kw_only=True):
    """An action that comes next.

    Attributes:
        action: Its key in the register.
        given: What is known of its fields; an empty text in a table is for a person to fill in.
        asked: Fields beside those it needs that a person fills in.
    """

    action: str
    given: Mapping[str, Any] = msgspec.field(default_factory=dict)
    asked: tuple[str, ...] = ()


MEASURED_AT: dict[StepKey, tuple[tuple[str, str], ...]] = {
    "strip grip": (("old_grip", "mass_with_tape"), ("grip", "mass")),
    "pull head": (("old_shaft", "mass"), ("old_shaft", "length"), ("old_shaft", "balance_from_tip")),
    "weigh": (("head", "mass"), ("shaft", "mass"), ("shaft", "raw_length"), ("grip", "mass")),
    "head check": (*(("head", angle) for angle in ANGLES), ("head", "bore_depth"), ("head", "bore_diameter")),
    "bore to ground": (("head", "bore_to_ground"), ("grip", "cap")),
    "dry fit": (("shaft", "tip_diameter"), ("head", "bore_diameter"), ("head", "hosel")),
}
"""Figures of parts that a step measures, where the ticket has none yet."""

READ_AT: tuple[StepKey, ...] = ("as it came", "dry reading", "inspect")
"""Steps at which the club is read."""


def next_action(worked: JobAnswer, job: Job) -> Following | None:
    """Return what comes next on a job; None when it is closed, or its next step waits for something else.

    Args:
        worked: The job, worked.
        job: It, as the record has it.
    """
    if job.finished is not None:
        return None
    waits = misfits_to_decide(worked)
    if waits:
        return Following(action="decide", given={"reading": waits[0].fact})
    step = next((item for item in worked.steps if not item.done), None)
    if step is None:
        return Following(action="finish")
    action = next((entry for entry in ACTIONS.values() if step.key in steps_of(entry)), None)
    gate = "" if action is None else gate_of(action)
    if gate and any(item.step == gate for item in worked.gates) and signature_reasons(job, worked, gate):
        if any(item.step == gate and not item.open for item in worked.gates):
            return None
        return _unsettled(worked, job) if gate == "release" and open_points(job, worked) else _signature(gate)
    maker = _MAKERS.get(step.key)
    if maker is not None:
        return maker(step, worked, job) or _done(step)
    if step.key in READ_AT:
        return _reading(step, worked) or _done(step)
    if step.key in MEASURED_AT:
        return _measuring(step, worked, job) or _done(step)
    return _done(step) if action is None else Following(action=action.key)


def _done(step: Step) -> Following:
    return Following(action="done", given={"step": step.key})


def _signature(gate: str) -> Following:
    return Following(action="sign", given={"gate": gate})


def _unsettled(worked: JobAnswer, job: Job) -> Following:
    """Read what was not read; what is outside or open is mended, or accepted by name: a person chooses."""
    point = open_points(job, worked)[0]
    if point.verdict == NOT_READ:
        return Following(action="read", given={"quantity": point.key})
    return Following(action="accept", given={"quantity": point.key})


def _reading(step: Step, worked: JobAnswer) -> Following | None:
    """Read the first of what the step expects and nobody has read at any of its stages."""
    wanted = [(item.quantity, item.stage) for item in step.expected if item.stage != "part"]
    if step.key == "inspect":
        wanted = [(goal.key, "finished") for goal in worked.club_state.goals if goal.key not in worked.inspected]
    stages = {stage for _, stage in wanted}
    read = {entry.quantity for entry in worked.club_state.ticket.readings if entry.stage in stages}
    found = next((place for place in wanted if place[0] not in read), None)
    if found is None:
        return None
    quantity, stage = found
    given = {"quantity": quantity} | ({} if stage == "finished" else {"stage": stage})
    return Following(action="read", given=given)


def _measuring(step: Step, worked: JobAnswer, job: Job) -> Following | None:
    """Measure what the ticket has not yet of a step's figures; nothing when all that the step needs is there."""
    if not lacking(step.key, worked, job):
        return None
    ticket = worked.club_state.ticket
    unordered = {angle for angle in ANGLES if worked.club_state.goal(angle) is None}
    wanted = [
        f"{section}.{name}"
        for section, name in MEASURED_AT[step.key]
        if not ticket.text(section, name) and name not in unordered
    ]
    values = {"values": dict.fromkeys(wanted, ""), "step": step.key}
    return Following(action="figures", given=values) if wanted else None


def _weigh(step: Step, worked: JobAnswer, job: Job) -> Following | None:
    """Weigh the parts; work that keeps the joint reads the club."""
    if worked.club_state.ticket.job in CUT_JOBS:
        return _measuring(step, worked, job)
    read = {entry.quantity for entry in worked.club_state.ticket.readings}
    left = [quantity for quantity in ("total_weight", "swing_weight") if quantity not in read]
    return Following(action="read", given={"quantity": left[0], "stage": "as it came"}) if left else None


def _pull(step: Step, worked: JobAnswer, job: Job) -> Following | None:
    return Following(action="pull") if lacking(step.key, worked, job) else None


def _trim(_step: Step, _worked: JobAnswer, _job: Job) -> Following:
    return Following(action="trim", given={"end": "tip"})


def _bend(step: Step, worked: JobAnswer, job: Job) -> Following | None:
    """Record the ordered angles after the bend, where one is planned or an angle is not measured."""
    ordered = tuple(angle for angle in ANGLES if worked.club_state.goal(angle) is not None)
    return Following(action="bend", asked=ordered) if lacking(step.key, worked, job) and ordered else None


def _tape(_step: Step, worked: JobAnswer, job: Job) -> Following | None:
    rows = (row for row in worked.club_state.ticket.tapes if (row.name or "tape") not in job.tapes_laid)
    row = next(rows, None)
    return None if row is None else Following(action="tape", given={"name": row.name or ""})


def _weight(step: Step, worked: JobAnswer, job: Job) -> Following | None:
    """Fit the weights of the best advice, where none is on by the record and one is advised."""
    if not lacking(step.key, worked, job) or not worked.advice:
        return None
    return Following(action="fit", given={"weights": list(worked.advice[0].weights)})


def _mix(_step: Step, worked: JobAnswer, _job: Job) -> Following | None:
    lacks = mix_lacks(worked.club_state.ticket.club.adhesive)
    return Following(action="measure", given={"section": "adhesive"}) if lacks else Following(action="mix")


_MAKERS: dict[StepKey, Callable[[Step, JobAnswer, Job], Following | None]] = {
    "pull": _pull,
    "weigh": _weigh,
    "tip trim": _trim,
    "loft and lie": _bend,
    "tape": _tape,
    "choose weight": _weight,
    "mix": _mix,
}
"""Steps whose action is chosen by what the ticket has already."""
