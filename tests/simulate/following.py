"""The next thing that a good hand would do on a job: without it, hands that act by chance would never glue anything."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from clock import TrueTime

from clubwright.journal.job import Job
from clubwright.planning.cut import CUT_JOBS
from clubwright.services.actions import bench as actions
from clubwright.services.checks.as_it_came import stage_now
from clubwright.services.jobs.closing import open_points
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.mixed_batch import missing_mix

Move = tuple[str, Callable[..., object], tuple[Any, ...], dict[str, Any]]
"""What it is, the bench action, and its arguments."""

M_PER_IN = 0.0254
OVERNIGHT_MIN = 16 * 60
HURRIED = 0.2
VALUES = {
    "length": "37 in",
    "loft": "34 deg",
    "lie": "62 deg",
    "swing_weight": "D4",
    "grip_diameter_2in": "0.915 in",
}
SKIPPED = (
    "as it came",
    "tape",
    "dry reading",
    "choose weight",
    "tip prep",
    "ferrule",
    "dry fit",
    "ferrule finish",
    "strip grip",
    "inspect",
)


def following(job: Job, worked: JobAnswer, chance: random.Random, true: TrueTime, *, patient: bool = False) -> Move:
    """Return the next move on a job; to cure, a night passes.

    Args:
        job: The job as it stands.
        worked: It, worked.
        chance: For what a hand may do in one way or another.
        true: The time.
        patient: Never says that a step is done which is passed over.
    """
    step = next((step.key for step in worked.steps if not step.done), "tag")
    if step == "cure":
        true.wait(OVERNIGHT_MIN)
    move = _MOVES.get(step)
    found = None if move is None else move(job, worked, _Patient() if patient else chance)
    if found is not None:
        return found
    if step in SKIPPED and (patient or chance.random() < 0.5):
        return f"skip {step}", actions.do_step, (step,), {"skipped": "no time"}
    return f"do {step}", actions.do_step, (step,), {}


class _Patient(random.Random):
    """Chance for a hand that is in no hurry."""

    def __init__(self) -> None:
        super().__init__("patient")

    def random(self) -> float:
        return 0.5


def _pull(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    if "hand" in job.document.get("head", {}):
        return None
    return "look at the hand", actions.change_part, ("head", {"hand": "right"}), {}


def _weigh(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    ticket = worked.club_state.ticket
    if ticket.job in CUT_JOBS or ticket.readings:
        return None
    stage = stage_now(job)
    return (
        f"read swing_weight D3 {stage}",
        actions.note_reading,
        ("swing_weight", "D3"),
        {"stage": stage, "weights": []},
    )


def _signed(job: Job, gate: str, chance: random.Random) -> Move | None:
    """Sign first; but a hurried hand forgets to."""
    forgotten = chance.random() < HURRIED
    return None if gate in job.gates_signed or forgotten else (f"sign {gate}", actions.sign_gate, (gate,), {})


def _cut(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    length_m = 0.9 if worked.cut is None else worked.cut.shaft_length_m
    return _signed(job, "cut", chance) or ("cut", actions.cut_shaft, (f"{length_m / M_PER_IN:.3f} in",), {})


def _mix(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    return "mix", actions.mix_adhesive, ("4.0 g", "2.0 g", "22 C", "lot 7"), {}


def _glue(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    checks = [check for gate in worked.gates if gate.step == "glue" for check in gate.checks]
    if missing_mix(job) or any(check.key == "mix" and not check.met for check in checks):
        return _mix(job, worked, chance)
    return _signed(job, "glue", chance) or ("glue", actions.glue, ("22 C",), {})


def _grip(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    return "grip", actions.slide_grip, (), {}


def _bend(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    if job.angles_bent:
        return None
    return "bend", actions.bend_head, (), {"loft": "34 deg", "lie": "62 deg"}


def _settle(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    left = open_points(job, worked)
    if not left:
        return None
    point = chance.choice(left)
    if point.verdict == "not read" and point.key in VALUES and chance.random() < 0.7:
        return f"read {point.key}", actions.note_reading, (point.key, VALUES[point.key]), {}
    more = {"name": "R. Ashdown", "reason": "plays it as it is"}
    return f"accept {point.key}", actions.accept, (point.key,), more


def _end(job: Job, worked: JobAnswer, chance: random.Random) -> Move | None:
    settle = _settle(job, worked, chance)
    if settle is not None:
        return settle
    sign = _signed(job, "release", chance) if any(gate.step == "release" for gate in worked.gates) else None
    return sign or ("finish", actions.finish, (), {})


_MOVES: dict[str, Callable[[Job, JobAnswer, random.Random], Move | None]] = {
    "pull": _pull,
    "weigh": _weigh,
    "mark and cut": _cut,
    "mix": _mix,
    "glue": _glue,
    "grip": _grip,
    "loft and lie": _bend,
    "inspect": _settle,
    "tag": _end,
}
