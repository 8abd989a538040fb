"""Why a verdict is what it is: the reading, its uncertainty by what it is made of, the rule, and the risk."""

from __future__ import annotations

import math

import msgspec
import numpy as np

from clubwright.belief.instruments import Instrument
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.journal.job import Job
from clubwright.notation import render
from clubwright.services.answer.answer import rounded
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.why.budgets import WhyRow, reading_rows
from clubwright.services.why.formulas.formulas import GAUGE, RISK, VERDICT, shown
from clubwright.services.why.small import small_text
from clubwright.services.why.told import Why, WhyFigure
from clubwright.words import spoken


def why_verdict(worked: JobAnswer, job: Job | None, key: str) -> Why | None:
    """Return what stands behind a verdict: a gauge's uncertainty comes from the gauge alone, never from the belief."""
    found, goal = worked.inspected.get(key), worked.club_state.goal(key)
    if found is None or goal is None:
        return None
    quantity, ticket = QUANTITIES[key], worked.club_state.ticket
    figures = [
        WhyFigure(name="ordered", text=f"{goal.typed} ± {goal.tolerance_typed}"),
        WhyFigure(name="decision rule", text=f"{ticket.rule}. {found.rule}"),
    ]
    if found.settle:
        figures.append(WhyFigure(name="what would settle it", text=found.settle))
    told = Why(
        key=f"verdicts/{key}",
        name=f"verdict: {quantity.name}",
        text=spoken("verdict", found.verdict),
        formulas=(shown(VERDICT), shown(GAUGE), *(() if found.risk is None else (shown(RISK),))),
        readings=tuple(
            row
            for row in reading_rows(worked, job, quantity.kind)
            if row.quantity == quantity.name and _last(row.stage)
        ),
        figures=tuple(figures),
    )
    if found.measured is None or found.u is None:
        return told
    gauge, repeats = _judged(worked, key, found.u)
    return msgspec.structs.replace(
        told,
        text=f"{spoken('verdict', found.verdict)}: {render(quantity.kind, found.measured, found.u)}",
        mean=rounded(found.measured),
        sd=rounded(found.u),
        rows=gauge_rows(gauge, repeats, quantity.tolerance_kind),
    )


def _last(stage: str) -> bool:
    return stage == FINISHED.name


def _judged(worked: JobAnswer, key: str, u: float) -> tuple[Instrument, int]:
    """Return the gauge that was judged and how many readings: those of it whose mean has that uncertainty."""
    read = [
        item.reading
        for item in worked.club_state.present
        if item.taken and item.reading.quantity == key and _last(item.reading.stage.name)
    ]
    gauge = read[-1].instrument
    same = [item for item in read if item.instrument == gauge and item.fitted == read[-1].fitted]
    repeats = sum(item.repeats for item in same)
    assert math.isclose(gauge.uncertainty(repeats), u, rel_tol=1e-9)  # the same readings as the inspection took
    return gauge, repeats


def gauge_rows(gauge: Instrument, repeats: int, kind: str) -> tuple[WhyRow, ...]:
    """Return the budget of the mean of n readings of one gauge; its parts are independent, so shares are squares."""
    parts = (
        ("bias", f"{gauge.name}: constant error", gauge.bias),
        ("stated", "uncertainty typed behind the value", gauge.stated),
        ("shared", "rounding that the readings share", math.sqrt(max(gauge.shared_variance - gauge.stated**2, 0.0))),
        ("own", f"scatter and rounding, mean of {repeats}", math.sqrt(gauge.own_variance / repeats)),
    )
    variance = float(np.sum([sd**2 for _, _, sd in parts]))
    rows = [
        WhyRow(
            unknown=name,
            what=what,
            believed="",
            slope=1.0,
            slope_text="1",
            sd=rounded(sd),
            sd_text=small_text(kind, sd),
            contribution=rounded(sd),
            contribution_text=small_text(kind, sd, signed=True),
            share=rounded(sd**2 / variance),
        )
        for name, what, sd in parts
        if sd > 0
    ]
    return tuple(sorted(rows, key=lambda row: -row.share))
