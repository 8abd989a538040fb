"""Find what stands behind a number of a worked job, by its key."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import numpy as np

from clubwright.belief.gaussian import Vector
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED, STAGES
from clubwright.errors import Finding, InputError
from clubwright.journal.job import Job
from clubwright.notation import render, units_shown
from clubwright.services.answer.answer import rounded
from clubwright.services.answer.belief_table import told
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.minutes import JobTimes
from clubwright.services.why.bends import bend_keys, why_bend
from clubwright.services.why.budgets import budget_rows, reading_rows
from clubwright.services.why.cards import why_gate, why_minutes, why_shaft, why_step
from clubwright.services.why.cut import why_cut, why_drawing
from clubwright.services.why.expected import expected_key, why_expected
from clubwright.services.why.formulas.formulas import BOX, CHANCE, LEARNT, RANK, quantity_formula, shown
from clubwright.services.why.key import first_of, last_of
from clubwright.services.why.told import Why, WhyFigure
from clubwright.services.why.verdict import why_verdict
from clubwright.words import spoken
from clubwright.words.advice import say_advice
from clubwright.words.say import percent

Finder = Callable[[JobAnswer, Job | None, str], Why | None]
"""From a worked job and the rest of a key to what stands behind it; None where there is no such number."""


def why_of(worked: JobAnswer, key: str, job: Job | None = None, times: JobTimes | None = None) -> Why:
    """Return what stands behind a number.

    Args:
        worked: The ticket, worked, with its plan.
        key: The number's key; that of something inside it leads to it (``finished/loft/sd``).
        job: What the record knows of the job, for who read what; None for a ticket file.
        times: How long it takes, by its shop's settings; None takes the usual minutes.

    Raises:
        InputError: when there is no such number on this job.
    """
    if first_of(key)[0] == "minutes":
        return why_minutes(worked, times)
    found = _found(worked, key, job) or _found(worked, last_of(key)[0], job)
    if found is None:
        listed = ", ".join(why_keys(worked)[:6])
        mend = f"Take one of those that `clubwright why {worked.club_state.ticket.id}` lists, such as {listed}."
        raise InputError([Finding(where="why", what=f'no number of this job is called "{key}"', mend=mend)])
    return found


def _found(worked: JobAnswer, key: str, job: Job | None) -> Why | None:
    kind, rest = first_of(key)
    if kind in QUANTITIES and not rest:
        kind, rest = "finished", kind
    finder = FINDERS.get(kind)
    return None if finder is None else finder(worked, job, rest)


def why_keys(worked: JobAnswer) -> tuple[str, ...]:
    """Return the key of every number that is shown of a job, in the order of the answer, then the cards and the parts."""
    answer = worked.answer()
    keys = [f"finished/{key}" for key in answer.finished]
    keys += [] if worked.cut is None else ["cut"]
    keys += [f"advice/{item.id}" for item in worked.advice]
    keys += [f"verdicts/{key}" for key in worked.inspected]
    keys += [f"gates/{gate.step}" for gate in worked.gates]
    keys += [*bend_keys(worked), "minutes", "drawing", "shaft"]
    keys += [f"stages/{stage}/{key}" for stage, figures in answer.stages.items() for key in figures]
    keys += [f"steps/{step.key}" for step in worked.steps if step.numbers or step.act_on]
    keys += dict.fromkeys(expected_key(step, item) for step in worked.steps for item in step.expected)
    return (*keys, *(f"belief/{name}" for name in worked.club_state.belief.names))


def _of_quantity(worked: JobAnswer, job: Job | None, stage: str, key: str) -> Why | None:
    club_state = worked.club_state
    at = STAGES.get(stage)
    if key not in QUANTITIES or at is None or not club_state.can_predict(key, at):
        return None
    if at.old_parts and club_state.ticket.job == "build":
        return None
    quantity, prediction = QUANTITIES[key], club_state.predict([key], at)
    mean, sd, slope = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]), prediction.slope[0, 0]
    return _believed(
        worked,
        job,
        Why(
            key=f"stages/{stage}/{key}",
            name=f"{quantity.name}, {stage}",
            text=render(quantity.kind, mean, sd),
            mean=rounded(mean),
            sd=rounded(sd),
            formulas=(shown(quantity_formula(key)), shown(LEARNT)),
            note=""
            if at is FINISHED
            else "Of the club as it stands at that stage, with the weights that are fitted now.",
        ),
        quantity.kind,
        mean,
        slope,
    )


def _believed(worked: JobAnswer, job: Job | None, told_so_far: Why, kind: str, mean: float, slope: Vector) -> Why:
    """Add the budget and the readings of a number that follows from the belief."""
    return msgspec.structs.replace(
        told_so_far,
        rows=budget_rows(worked.club_state, kind, worked.club_state.belief, slope),
        readings=reading_rows(worked, job, kind, mean, slope),
    )


def _stage(worked: JobAnswer, job: Job | None, rest: str) -> Why | None:
    stage, key = last_of(rest)
    return _of_quantity(worked, job, stage, key)


def _finished(worked: JobAnswer, job: Job | None, key: str) -> Why | None:
    found = _of_quantity(worked, job, FINISHED.name, key)
    if found is None:
        return None
    found = msgspec.structs.replace(found, key=f"finished/{key}", name=f"{QUANTITIES[key].name} of the finished club")
    goal, inspected = worked.club_state.goal(key), worked.inspected.get(key)
    if goal is None:
        return found
    assert found.mean is not None and found.sd is not None  # a quantity has both
    figures = [
        WhyFigure(name="ordered", text=f"{goal.typed} ± {goal.tolerance_typed}"),
        WhyFigure(name="chance of ending in spec", text=percent(goal.chance(found.mean, found.sd))),
    ]
    if inspected is not None:
        figures.append(
            WhyFigure(name="what its readings prove", text=spoken("verdict", inspected.verdict), key=f"verdicts/{key}")
        )
    own, learnt = found.formulas
    return msgspec.structs.replace(found, figures=tuple(figures), formulas=(own, shown(CHANCE), learnt))


def _advice(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """The chance of one action; what it leaves is told quantity by quantity, each with its own chance."""
    item = next((item for item in worked.advice if item.id == rest), None)
    if item is None:
        return None
    figures = []
    for key, (mean, sd) in item.finished.items():
        goal = worked.club_state.goal(key)
        text = render(QUANTITIES[key].kind, mean, sd)
        if goal is not None:
            text += f"; ordered {goal.typed} ± {goal.tolerance_typed}; by itself {percent(goal.chance(mean, sd))}"
        figures.append(WhyFigure(name=QUANTITIES[key].name, text=text, key=f"finished/{key}"))
    return Why(
        key=f"advice/{item.id}",
        name=say_advice(item, units_shown()).do,
        text=percent(item.chance),
        mean=rounded(item.chance),
        formulas=(shown(BOX), shown(RANK)),
        figures=tuple(figures),
        readings=reading_rows(worked, None, "number"),
        note="The finished club after this action. Targets hang together, so the chance of all is not a product.",
    )


def _unknown(worked: JobAnswer, job: Job | None, name: str) -> Why | None:
    belief = worked.club_state.belief
    if name not in belief.names:
        return None
    kind, what = told(worked.club_state, name)
    mean, sd = belief.mean_of(name), belief.sd_of(name)
    slope = np.zeros(len(belief.names))
    slope[belief.index(name)] = 1.0
    return Why(
        key=f"belief/{name}",
        name=what,
        text=render(kind, mean, sd),
        mean=rounded(mean),
        sd=rounded(sd),
        formulas=(shown(LEARNT),),
        readings=reading_rows(worked, job, kind, mean, slope),
        figures=(WhyFigure(name="before any reading", text=_before(worked, kind, name)),),
    )


def _before(worked: JobAnswer, kind: str, name: str) -> str:
    prior = worked.club_state.prior.belief
    if name in prior.names:
        return render(kind, prior.mean_of(name), prior.sd_of(name))
    return "as the ticket says of its gauge"


FINDERS: dict[str, Finder] = {
    "finished": _finished,
    "stages": _stage,
    "advice": _advice,
    "verdicts": why_verdict,
    "cut": why_cut,
    "gates": why_gate,
    "shaft": why_shaft,
    "steps": why_step,
    "bends": why_bend,
    "drawing": why_drawing,
    "expected": why_expected,
    "belief": _unknown,
}
"""By the first part of a key."""
