"""Who signed what, on the build sheet: gates as they were signed, the joint, the end, and what was accepted by name."""

from __future__ import annotations

from typing import Any

from clubwright.journal.job import Job, Signed
from clubwright.labels.sheet.data import GateLine, Line
from clubwright.notation import length_in_full, units_shown
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.done_at import minute
from clubwright.services.report.as_built import as_built_rows
from clubwright.state.steps import USED_UP_BY
from clubwright.words import spoken
from clubwright.words.say import say


def signed_lines(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    """Return every signature of a job, then every acceptance."""
    return (*_signatures(job, worked), *_acceptances(job, worked))


def gate_lines(worked: JobAnswer, job: Job | None) -> tuple[GateLine, ...]:
    """Return every gate as it stands; one whose signature has served, as it was signed, whatever has changed since."""
    return tuple(
        GateLine(
            step=gate.step,
            open=gate.open,
            why=say(gate.why, units_shown()) if signed is None else _why_then(gate.step, signed),
            signed="" if signed is None else f"{signed.by}, {minute(signed.at)}",
        )
        for gate in worked.gates
        for signed in (None if job is None else _served(job, gate.step),)
    )


def _served(job: Job, gate: str) -> Signed | None:
    served = job.finished is not None or USED_UP_BY.get(gate) in job.steps_done
    return job.gates_signed.get(gate) if served else None


def _why_then(gate: str, signed: Signed) -> str:
    """Return what the gate had checked when it was signed, as it was shown; empty where the record does not have it."""
    shown = [item for item in _answer(signed).get("gates", ()) if item.get("step") == gate]
    return str(shown[0].get("why", "")) if shown else ""


def _answer(signed: Signed) -> dict[str, Any]:
    """Return the answer that a signature was shown."""
    found = signed.shown.get("answer")
    return found if isinstance(found, dict) else {}


def signed_marks(job: Job) -> tuple[Line, ...]:
    """Return the marks of the cut as they were signed, once the shaft is cut; what came later moved them no more."""
    signed = _served(job, "cut")
    cut = {} if signed is None else _answer(signed).get("cut") or {}
    named = (("signed mark from tip", "mark_from_tip_m"), ("signed mark from ground", "mark_from_ground_m"))
    return tuple(
        Line(name=spoken("sheet", name), text=length_in_full(float(cut[key]))) for name, key in named if key in cut
    )


def _signatures(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    void = void_signatures(job, worked)
    gone = {item.gate for item in void}
    signed = [
        (f"{spoken('sheet', 'gate')} {spoken('sheet', step)}", mark)
        for step, mark in job.gates_signed.items()
        if step not in gone
    ]
    signed += [(f"{spoken('sheet', 'void: gate')} {spoken('sheet', item.gate)}", item.signed) for item in void]
    if job.glued is not None:
        signed.append((spoken("sheet", "joint glued"), job.glued))
    if job.finished is not None:
        signed.append((spoken("sheet", "finished"), job.finished))
    return tuple(f"{what}: {mark.by}, {minute(mark.at)}" for what, mark in signed)


def _acceptances(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    return tuple(
        f"{spoken('quantity', row.key)} {spoken('sheet', 'accepted')}: {row.accepted_by}, {row.accepted_because}"
        for row in as_built_rows(worked, job)
        if row.accepted_by
    )
