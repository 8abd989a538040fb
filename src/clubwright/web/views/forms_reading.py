"""Forms of what is read: the dry club, the weights, the finished club."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import QUANTITIES, offered_at
from clubwright.club.stages import AS_IT_CAME, DRY_GRIPPED, FINISHED
from clubwright.journal.job import Job
from clubwright.notation import render, units_shown
from clubwright.planning.steps.types import Expected, Step
from clubwright.services.checks.as_it_came import stage_now, stages_of
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.step_needs import lacking
from clubwright.services.jobs.targets import TargetLine, target_lines
from clubwright.services.why.expected import expected_key
from clubwright.web.views.forms import Form, ReadView
from clubwright.words import on_page, spoken
from clubwright.words.step import say_expected

UNREAD = "nothing was read"
"""What is left out where a step that reads is passed over without a reading."""

CAME = offered_at("as it came")
DRY = offered_at("dry")


def dry(worked: JobAnswer, job: Job) -> Form:
    """Readings before anything is glued; what is expected stands beside each."""
    step = next(step for step in worked.steps if step.key == "dry reading")
    expected = {item.quantity: item for item in reversed(step.expected) if item.stage == DRY_GRIPPED.name}
    reads = tuple(_expecting(key, step, expected.get(key)) for key in DRY)
    taken = not lacking("dry reading", worked, job)
    return _reading(
        worked, reads, DRY_GRIPPED.name, left_out="" if taken else UNREAD, short=on_page("skip nothing read")
    )


def as_it_came(worked: JobAnswer, _job: Job) -> Form:
    """Readings before anything comes off the club; what is expected stands beside each."""
    step = next(step for step in worked.steps if step.key in ("as it came", "weigh"))
    expected = {item.quantity: item for item in step.expected}
    read = {entry.quantity for entry in worked.club_state.ticket.readings if entry.stage == AS_IT_CAME.name}
    keys = (*(key for key in CAME if key not in read), *(key for key in CAME if key in read))
    reads = tuple(
        _read(key, on_page("read note")) if key in read else _expecting(key, step, expected.get(key)) for key in keys
    )
    return _reading(worked, reads, AS_IT_CAME.name, left_out="" if read else UNREAD, short=on_page("skip nothing read"))


def _expecting(key: str, step: Step, item: Expected | None) -> ReadView:
    """Return a quantity with what is expected of it, which leads to why."""
    if item is None:
        return _read(key)
    return _read(key, expectation(item), why=expected_key(step, item))


def expectation(item: Expected) -> str:
    """Say the figure of an expectation, without what it is of, which the page says already."""
    return on_page("expect", figure=say_expected(item, units_shown()).figure)


def inspect(worked: JobAnswer, job: Job) -> Form:
    """Readings of the finished club: what is still to be read first, each with its verdict so far."""
    lines = target_lines(worked)
    reads = tuple(_read(line.key, _standing(line), line.verdict, why=_why_key(worked, line)) for line in lines)
    unsettled = [line for line in lines if line.verdict and line.settle]
    unread = [line for line in lines if not line.verdict]
    if not lines:
        reads = tuple(_read(key) for key in DRY)
    left_out = f"{len(unread)} not read" if unread else ""
    short = on_page("skip not read", count=len(unread))
    form = _reading(worked, reads, stage_now(job), left_out=left_out, short=short)
    return msgspec.structs.replace(
        form,
        open_points=tuple(f"{spoken('quantity', line.key)}: {line.settle}" for line in unsettled),
        open_why=tuple(f"verdicts/{line.key}" for line in unsettled),
    )


def _standing(line: TargetLine) -> str:
    return ", ".join(line.read) or on_page("still to read")


def _why_key(worked: JobAnswer, line: TargetLine) -> str:
    """Return the key of the verdict, else of what is believed; empty where neither is there."""
    if line.verdict:
        return f"verdicts/{line.key}"
    return f"finished/{line.key}" if worked.club_state.can_predict(line.key, FINISHED) else ""


def _read(key: str, note: str = "", verdict: str = "", why: str = "") -> ReadView:
    quantity = QUANTITIES[key]
    return ReadView(key=key, name=spoken("quantity", key), kind=quantity.kind, note=note, verdict=verdict, why=why)


def _reading(
    worked: JobAnswer,
    reads: tuple[ReadView, ...],
    stage: str,
    *,
    left_out: str,
    short: str,
) -> Form:
    club_state = worked.club_state
    sprung = club_state.can_predict("frequency") and any(read.key == "frequency" for read in reads)
    return Form(
        kind="reading",
        action="read",
        button=on_page("button reading"),
        reads=reads,
        stages=stages_of(club_state.ticket),
        stage=stage,
        gauges=tuple(club_state.ticket.gauges),
        clamp=render("length", club_state.prior.conventions.meter.clamp_length_m) if sprung else "",
        done=on_page("skip", what=short) if left_out else on_page("heard said"),
        skips=left_out,
        goes_on=on_page("kept go on"),
    )


def weights(worked: JobAnswer, job: Job) -> Form:
    """The weight that is considered is the weight that the button fits."""
    fitted = not lacking("choose weight", worked, job)
    return Form(
        kind="weights",
        action="fit",
        button=on_page("button fitted"),
        goes_on=on_page("fitted go on"),
        done=on_page("heard said") if fitted else on_page("go on without weight"),
        skips="" if fitted else "no weight is fitted",
    )
