"""What was done, on the build sheet: beside each step its deeds, with grams, lot, temperatures, times and who."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.journal.job import Job, TrailLine
from clubwright.labels.sheet.data import Line, SheetStep
from clubwright.notation import units_shown
from clubwright.planning.steps.plan import Step
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.record.done_at import minute
from clubwright.services.report.done_work import DoneWork, done_work, standing, step_line
from clubwright.services.report.reading_states import reading_states
from clubwright.state.gauge import ReadingEntry
from clubwright.words import spoken
from clubwright.words.step import say_step

_STATES = {
    "counts": "",
    "counts then": "before a change",
    "kept": "",
    "left out": "left out",
    "aside": "kept aside",
    "not used": "not used",
}


def deed(item: DoneWork) -> str:
    """Say what was done with the grams that were weighed; of weights each is named with its own."""
    return ", ".join(filter(None, (item.text if item.part != "weights" or not item.mass else "", item.mass)))


def deed_lines(done: Iterable[DoneWork]) -> tuple[str, ...]:
    """Say deeds, those of one hand and one moment in one line."""
    said: dict[str, list[str]] = {}
    for item in done:
        # when a joint was closed stands in its own words already
        said.setdefault(_by(item.by, "" if item.step == "glue" else item.at), []).append(deed(item))
    return tuple(": ".join(filter(None, ("; ".join(texts), who))) for who, texts in said.items())


def cut_deeds(done: Iterable[DoneWork]) -> tuple[Line, ...]:
    """Say what was done to the shaft, a line for each hand and moment."""
    return tuple(
        Line(name=spoken("sheet", "done"), text=text)
        for text in deed_lines(item for item in done if item.part == "shaft")
    )


def sheet_steps(worked: ClubAnswer, steps: Iterable[Step], job: Job | None, signed: str) -> tuple[SheetStep, ...]:
    """Return the steps of the plan, each with what was done of it.

    Args:
        worked: The ticket, worked.
        steps: Its plan.
        job: What the record knows of it; None for a ticket file.
        signed: The marks of the cut as they were signed, which its step shows once it is done; else empty.
    """
    done = () if job is None else done_work(job, worked)
    return tuple(_step(step, job, tuple(item for item in done if item.step == step.key), signed) for step in steps)


def _step(step: Step, job: Job | None, deeds: tuple[DoneWork, ...], signed: str) -> SheetStep:
    said = say_step(step, units_shown())
    numbers = "; ".join(f"{name}: {text}" for name, text in said.numbers[:2])
    return SheetStep(
        number=str(step.number),
        title=said.title,
        numbers=signed if signed and step.done and step.key == "mark and cut" else numbers,
        done=_done(step, job, deeds) if step.done else "",
        deeds=deed_lines(deeds),
        cautions=said.cautions[:1],
    )


def _done(step: Step, job: Job | None, deeds: tuple[DoneWork, ...]) -> str:
    """Say that a step is done, and who said so where no deed says it."""
    if job is None:
        return spoken("sheet", "done")
    who = "".join(_by(line.by, line.when) for line in step_line(job, step.key))
    if step.key in job.steps_skipped:
        return f"{spoken('sheet', 'passed over')}: {job.steps_skipped[step.key]}" + (f"; {who}" if who else "")
    done = spoken("sheet", "done")
    return f"{done}: {who}" if who and not deeds else done


def _by(by: str, at: str) -> str:
    return ", ".join(filter(None, (by, minute(at) if at else "")))


def reading_lines(worked: ClubAnswer, job: Job | None) -> tuple[str, ...]:
    """Say every reading, newest first, with who took it and when, and what became of it."""
    states = reading_states(worked)
    taken = () if job is None else standing(job, "reading taken")
    lines = []
    for entry in worked.club_state.ticket.readings:
        state = spoken("sheet", _STATES[states[entry.where].state])
        said = f"{spoken('read', entry.quantity)} {entry.entry.typed}, {spoken('stage', entry.stage)}"
        said += f" ({state})" if state else ""
        who = "".join(f"; {_by(line.by, line.when)}" for line in _line_of(entry, taken))
        lines.append(f"{said}{who}")
    return tuple(reversed(lines))


def _line_of(entry: ReadingEntry, taken: tuple[TrailLine, ...]) -> tuple[TrailLine, ...]:
    """Return the line of a reading of this job; nothing where two benches wrote one of the same number and words."""
    found = tuple(
        line
        for line in taken
        if not entry.job and line.sequence == entry.fact and line.read == (entry.quantity, entry.entry.typed)
    )
    return found if len(found) == 1 else ()
