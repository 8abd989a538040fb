"""What was done to a club at the bench, as the record has it: only what somebody recorded, never what was planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from clubwright.journal.job import Job
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
    """

    part: Part
    text: str


def done_work(job: Job, worked: ClubAnswer) -> tuple[DoneWork, ...]:
    """Return what the record says was done, in the order of the bench.

    Args:
        job: The job as the record has it.
        worked: It, worked.
    """
    found: list[tuple[Part, str]] = [
        *(("shaft", text) for text in _shaft(job, worked)),
        *(("weights", text) for text in _weights(job, worked)),
        *(("tape", text) for text in _tape(job, worked)),
        *(("adhesive", text) for text in _adhesive(job)),
        *(("grip", text) for text in (("put on",) if job.gripped else ())),
        *(("head", text) for text in _bends(job, worked)),
    ]
    return tuple(DoneWork(part=part, text=text) for part, text in found)


def did(job: Job, kind: str) -> bool:
    """True when a fact of a kind, such as ``shaft cut``, stands on the job."""
    return any(line.kind == kind and not line.undone for line in job.trail)


def cut_m(job: Job, worked: ClubAnswer) -> float | None:
    """Return the length of the shaft as it was measured after its cut, in m; None when no cut was recorded."""
    return in_si(worked.club_state.ticket.club.shaft.cut_length) if did(job, "shaft cut") else None


def _shaft(job: Job, worked: ClubAnswer) -> Iterator[str]:
    shaft = worked.club_state.ticket.club.shaft
    if job.tip_trimmed and shaft.tip_trim is not None:
        yield f"tip trimmed by {shaft.tip_trim.typed}"
    yield from (f"butt trimmed by {amount}" for amount in job.butt_trims)
    if did(job, "shaft cut") and shaft.cut_length is not None:
        yield f"cut to {shaft.cut_length.typed}"


def _weights(job: Job, worked: ClubAnswer) -> Iterator[str]:
    if did(job, "weights fitted"):
        yield ", ".join(fitted_names(worked)) or "none"


def fitted_names(worked: ClubAnswer) -> list[str]:
    """Return the names of the weights that are on, each once."""
    ticket = worked.club_state.ticket
    return [row.name for row, count in zip(ticket.weights, ticket.fitted_now, strict=True) if count]


def _tape(job: Job, worked: ClubAnswer) -> Iterator[str]:
    """Tape counts as laid where it was weighed, or where the step that lays it was done."""
    for row in worked.club_state.ticket.tapes:
        name = row.name or "tape"
        if name in job.tapes_laid or "tape" in job.steps_done:
            yield f"{name} x {whole_number(row.layers, 1)}"


def _by_weight(mix: Mix) -> str:
    part_a, part_b = (parse("mass", text, where="adhesive").value for text in (mix.part_a, mix.part_b))
    return f" ({part_a / part_b:.2f}:1 by weight)" if part_b > 0 else ""


def _adhesive(job: Job) -> Iterator[str]:
    mix = used_mix(job)
    if mix is not None:
        batch = f", {mix.batch}" if mix.batch else ""
        yield f"mixed {mix.part_a} + {mix.part_b}{_by_weight(mix)} at {mix.temperature}{batch}"
    if job.glued_at is not None:
        yield f"glued {minute(job.glued_at)} at {job.glued_temperature}"
    if "cure" in job.steps_done and job.glued_at is not None:
        yield "cured"


def _bends(job: Job, worked: ClubAnswer) -> Iterator[str]:
    head = worked.club_state.ticket.club.head
    for angle in job.angles_bent:
        was, now = job.head_was.get(angle), head.entry(angle)
        yield f"{angle} {'' if now is None else now.typed}" + (f" (was {was})" if was is not None else "")
