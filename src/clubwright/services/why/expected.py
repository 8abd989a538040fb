"""Why a gauge should show a figure: what is believed of the club, and what the gauge adds with one reading."""

from __future__ import annotations

from math import isclose

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Vector
from clubwright.belief.readings import Reading
from clubwright.belief.update import predict_readings, with_biases
from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.journal.job import Job
from clubwright.notation import render, units_shown
from clubwright.planning.advice.weights import choices
from clubwright.planning.steps.types import Expected, Step
from clubwright.services.answer.answer import rounded
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.why.budgets import NOISE, budget_rows, reading_rows
from clubwright.services.why.formulas.formulas import GAUGE, LEARNT, quantity_formula, shown
from clubwright.services.why.formulas.steps import BEND
from clubwright.services.why.told import Why, WhyFigure
from clubwright.ticket.part_readings import part_kind, part_number_path
from clubwright.words.step import say_expected

SAME = 1e-9
"""Share by which two figures differ that are one."""


def expected_key(step: Step, item: Expected) -> str:
    """Return the key of what a gauge should show at a step."""
    return f"expected/{step.key}/{item.stage}/{item.quantity}"


def why_expected(worked: JobAnswer, job: Job | None, rest: str) -> Why | None:
    """Return what stands behind what a card of the plan says that a gauge should show; None where none says it."""
    found = ((step, item) for step in worked.steps for item in step.expected)
    step, asked = next(((s, e) for s, e in found if expected_key(s, e) == f"expected/{rest}"), (None, None))
    if step is None or asked is None:
        return None
    club_state, of_part = worked.club_state, asked.quantity not in QUANTITIES
    kind = part_kind(asked.quantity) if of_part else QUANTITIES[asked.quantity].kind
    said = say_expected(asked, units_shown()).text
    told = Why(
        key=expected_key(step, asked),
        name=f"what a gauge should show: {_name(asked.quantity)}, {asked.stage}",
        text=said if kind is None else render(kind, asked.mean, asked.sd),
        mean=rounded(asked.mean),
        sd=rounded(asked.sd),
        formulas=(*(() if of_part else (shown(quantity_formula(asked.quantity)),)), shown(GAUGE), shown(LEARNT)),
        figures=(WhyFigure(name="the card says", text=said),),
    )
    if kind is None:
        return msgspec.structs.replace(told, note="The sum of several numbers, each with a page of its own.")
    predicted = _predicted(worked, asked)
    if predicted is None:
        formulas = (*told.formulas, *(() if asked.quantity not in ANGLES else (shown(BEND),)))
        return msgspec.structs.replace(told, formulas=formulas, note="Of the club after what this plan does to it.")
    belief, mean, slope = predicted
    return msgspec.structs.replace(
        told,
        rows=budget_rows(club_state, kind, belief, slope),
        readings=reading_rows(worked, job, kind, mean, slope[: len(club_state.belief.names)]),
    )


def _predicted(worked: JobAnswer, asked: Expected) -> tuple[Gaussian, float, Vector] | None:
    """Return the belief with the gauge's bias and noise among its unknowns, the reading's mean, and its slope.

    The card may speak of the weights that are on, of those that it advises, or of those that were on at that stage; None
    where it speaks of none of them, such as of an angle after its bend.
    """
    club_state = worked.club_state
    path = asked.quantity if asked.quantity in QUANTITIES else part_number_path(club_state.ticket, asked.quantity)
    gauge = club_state.gauge(asked.quantity)
    now, best = club_state.fitted_now[0], choices(club_state)[0].counts
    then = [item.reading.fitted for item in club_state.learned.judged if item.reading.stage.name == asked.stage]
    for counts in (now, best, *then, np.zeros(len(now))):
        reading = Reading(
            where="expected",
            quantity=path,
            value=0.0,
            stage=STAGES.get(asked.stage, STAGES["bare shaft"]),
            fitted=tuple(float(count) for count in counts),
            instrument=gauge,
        )
        belief = with_biases(club_state.belief, [reading])
        club, conventions = club_state.prior.club, club_state.prior.conventions
        values, slopes = predict_readings(club, conventions, belief.names, belief.mean, [reading])
        belief = belief.extended({NOISE: (0.0, gauge.noise())})
        mean, slope = float(values[0]), np.append(slopes[0], 1.0)
        sd = float(np.sqrt(slope @ belief.covariance @ slope))
        if isclose(asked.mean, mean, rel_tol=SAME, abs_tol=SAME) and isclose(asked.sd, sd, rel_tol=SAME):
            return belief, mean, slope
    return None


def _name(quantity: str) -> str:
    return QUANTITIES[quantity].name if quantity in QUANTITIES else quantity
