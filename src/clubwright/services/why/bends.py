"""Why an angle of the head is bent as it is: what it is believed to be, by what, and what the plan makes of it."""

from __future__ import annotations

import numpy as np

from clubwright.club.quantities import ANGLES
from clubwright.journal.job import Job
from clubwright.services.answer.answer import rounded
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.report.bend_rows import bend_rows
from clubwright.services.why.budgets import budget_rows, reading_rows
from clubwright.services.why.formulas.formulas import LEARNT, shown
from clubwright.services.why.formulas.steps import BEND, BOUNCE, LIMIT
from clubwright.services.why.inputs import inputs_of
from clubwright.services.why.told import Why, WhyFigure


def bend_keys(worked: JobAnswer) -> tuple[str, ...]:
    """Return the key of each angle that the plan speaks of before and after."""
    return tuple(f"bends/{row.angle}" for row in bend_rows(worked.club_state))


def why_bend(worked: JobAnswer, job: Job | None, angle: str) -> Why | None:
    """Return what stands behind an angle before and after its bend; its budget is that of the angle now."""
    row = next((row for row in bend_rows(worked.club_state) if row.angle == angle), None)
    if row is None or angle not in ANGLES:
        return None
    belief, name = worked.club_state.belief, f"head.{angle}_rad"
    slope = np.zeros(len(belief.names))
    slope[belief.index(name)] = 1.0
    mean = belief.mean_of(name)
    formulas = (BOUNCE, BEND) if angle == "bounce" else (BEND, LIMIT)
    return Why(
        key=f"bends/{angle}",
        name=f"{angle}, before and after its bend",
        text=row.now if row.after == row.now else f"{row.now}, then {row.after}",
        mean=rounded(mean),
        sd=rounded(belief.sd_of(name)),
        formulas=(*(shown(formula) for formula in formulas), shown(LEARNT)),
        rows=budget_rows(worked.club_state, "angle", belief, slope),
        readings=reading_rows(worked, job, "angle", mean, slope),
        inputs=inputs_of(worked.club_state.ticket, formulas),
        figures=(
            WhyFigure(name="now", text=row.now, key=f"belief/{name}", formula=LEARNT.name),
            WhyFigure(name="after", text=row.after, formula=formulas[0].name),
            *((WhyFigure(name="bend", text=row.words, formula=BEND.name),) if row.words else ()),
        ),
    )
