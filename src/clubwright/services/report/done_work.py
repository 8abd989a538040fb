"""What was done to a club at the bench, as the record has it: only what somebody recorded, never what was planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

import msgspec

from clubwright.journal.job import Job, TrailLine
from clubwright.journal.mixes import Mix, used_mix
from clubwright.notation import parse
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.record.done_at import minute
from clubwright.services.told.base import Told
from clubwright.state.particulars import in_si, whole_number

Part = Literal["shaft", "weights", "head", "tape", "adhesive", "grip"]


class DoneWork(Told, frozen=True, kw_only=True):
    """One thing that was done.

    Attributes:
        part: What it was done to.
        text: What was done, in trade notation.
        mass: What was weighed with it, as typed; of weights, of each with its name.
        step: Step of the plan that it is work of.
        by: Who wrote it down; several names where several did.
        at: When it was done last, UTC, ISO 8601 with Z; empty where the record does not say.
    """

    part: Part
    text: str
    mass: str = ""
    step: str = ""
    by: str = ""
    at: str = ""


def done_work(job: Job, worked: ClubAnswer) -> tuple[DoneWork, ...]:
    """Return what the record says was done, in the order of the bench.

    Args:
        job: The job as the record has it.
        worked: It, worked.
    """
    return tuple(
        msgspec.structs.replace(item, by=", ".join(dict.fromkeys(line.by for line in lines)), at=lines[-1].when)
        if lines
        else item
        for item, lines in _found(job, worked)
    )


Found = tuple[DoneWork, tuple[TrailLine, ...]]
"""What was done, and the lines of the trail that say so."""


def _found(job: Job, worked: ClubAnswer) -> Iterator[Found]:
    yield from _shaft(job, worked)
    if did(job, "weights fitted"):
        text, mass = ", ".join(fitted_names(worked)) or "none", ", ".join(_fitted_masses(worked))
        yield DoneWork(part="weights", text=text, mass=mass, step="choose weight"), standing(job, "weights fitted")[-1:]
    yield from _tape(job, worked)
    yield from _adhesive(job)
    if job.gripped:
        yield DoneWork(part="grip", text="put on", step="grip"), standing(job, "gripped")[-1:]
    for text in _bends(job, worked):
        yield DoneWork(part="head", text=text, step="loft and lie"), standing(job, "head bent")


def standing(job: Job, *kinds: str) -> tuple[TrailLine, ...]:
    """Return the lines of some kinds of facts that stand, in order."""
    return tuple(line for line in job.trail if line.kind in kinds and not line.undone)


def step_line(job: Job, step: str) -> tuple[TrailLine, ...]:
    """Return the line of the fact that completed a step last; nothing while it is not done."""
    return tuple(line for line in job.trail if (line.site, line.sequence) == job.steps_by.get(step))


def did(job: Job, kind: str) -> bool:
    """True when a fact of a kind, such as ``shaft cut``, stands on the job."""
    return bool(standing(job, kind))


def cut_m(job: Job, worked: ClubAnswer) -> float | None:
    """Return the length of the shaft as it was measured after its cut, in m; None when no cut was recorded."""
    return in_si(worked.club_state.ticket.club.shaft.cut_length) if did(job, "shaft cut") else None


def _shaft(job: Job, worked: ClubAnswer) -> Iterator[Found]:
    shaft = worked.club_state.ticket.club.shaft
    tip = step_line(job, "tip trim")
    if job.tip_trimmed and shaft.tip_trim is not None:
        yield DoneWork(part="shaft", text=f"tip trimmed by {shaft.tip_trim.typed}", step="tip trim"), tip
    # which line is which trim of the butt the trail does not say: whoever trimmed is named, with the last time
    butt = tuple(line for line in standing(job, "shaft trimmed") if line not in tip)
    for amount in job.butt_trims:
        yield DoneWork(part="shaft", text=f"butt trimmed by {amount}", step="mark and cut"), butt
    if did(job, "shaft cut") and shaft.cut_length is not None:
        text = f"cut to {shaft.cut_length.typed}"
        yield DoneWork(part="shaft", text=text, step="mark and cut"), standing(job, "shaft cut")[-1:]


def fitted_names(worked: ClubAnswer) -> list[str]:
    """Return the names of the weights that are on, each once."""
    ticket = worked.club_state.ticket
    return [row.name for row, count in zip(ticket.weights, ticket.fitted_now, strict=True) if count]


def _fitted_masses(worked: ClubAnswer) -> Iterator[str]:
    ticket = worked.club_state.ticket
    for row, count in zip(ticket.weights, ticket.fitted_now, strict=True):
        if count and row.mass is not None:
            yield f"{row.name} {row.mass.typed}" + (f" x {count}" if count > 1 else "")


def _tape(job: Job, worked: ClubAnswer) -> Iterator[Found]:
    """Tape counts as laid where it was weighed, or where the step that lays it was done."""
    for row in worked.club_state.ticket.tapes:
        name = row.name or "tape"
        if name in job.tapes_laid or "tape" in job.steps_done:
            text, mass = f"{name} x {whole_number(row.layers, 1)}", "" if row.mass is None else row.mass.typed
            lines = standing(job, "tape laid") or step_line(job, "tape")
            yield DoneWork(part="tape", text=text, mass=mass, step="tape"), lines


def _by_weight(mix: Mix) -> str:
    part_a, part_b = (parse("mass", text, where="adhesive").value for text in (mix.part_a, mix.part_b))
    return f" ({part_a / part_b:.2f}:1 by weight)" if part_b > 0 else ""


def _adhesive(job: Job) -> Iterator[Found]:
    mix = used_mix(job)
    if mix is not None:
        batch = f", {mix.batch}" if mix.batch else ""
        text = f"mixed {mix.part_a} + {mix.part_b}{_by_weight(mix)} at {mix.temperature}{batch}"
        lines = standing(job, "adhesive mixed", "mix taken")
        yield (
            DoneWork(part="adhesive", text=text, step="mix"),
            tuple(line for line in lines if line.when == mix.taken_at)[-1:],
        )
    if job.glued_at is not None:
        text = f"glued {minute(job.glued_at)} at {job.glued_temperature}"
        yield DoneWork(part="adhesive", text=text, step="glue"), standing(job, "glued")[-1:]
    if "cure" in job.steps_done and "cure" not in job.steps_skipped and job.glued_at is not None:
        yield DoneWork(part="adhesive", text="cured", step="cure"), step_line(job, "cure")


def _bends(job: Job, worked: ClubAnswer) -> Iterator[str]:
    head = worked.club_state.ticket.club.head
    for angle in job.angles_bent:
        was, now = job.head_was.get(angle), head.entry(angle)
        yield f"{angle} {'' if now is None else now.typed}" + (f" (was {was})" if was is not None else "")
