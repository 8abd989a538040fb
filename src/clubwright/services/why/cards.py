"""Why the figures of a card, a gate, the page of the shaft and the minutes are what they are: equations, what they take."""

from __future__ import annotations

from clubwright.journal.job import Job
from clubwright.notation import render, units_shown
from clubwright.planning.said.phrases import Word
from clubwright.planning.steps.types import Figures
from clubwright.services.answer.belief_table import told
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.minutes import JobTimes, job_times, step_time_text, times_text
from clubwright.services.why.expected import expected_key
from clubwright.services.why.formulas.formulas import Formula, shown
from clubwright.services.why.formulas.joint import RELEASE
from clubwright.services.why.formulas.labels import formula_for
from clubwright.services.why.formulas.steps import GATES, MINUTES, SHAFT, STEPS
from clubwright.services.why.inputs import inputs_of
from clubwright.services.why.told import Why, WhyFigure
from clubwright.ticket.shop.settings import ShopSettings
from clubwright.words.say import say
from clubwright.words.step import say_step


def why_gate(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """Return what stands behind a gate: what was checked, and how."""
    gate = next((gate for gate in worked.gates if gate.step == rest), None)
    if gate is None:
        return None
    formulas = GATES[gate.step]
    return Why(
        key=f"gates/{gate.step}",
        name=f"gate: {gate.step}",
        text="open" if gate.open else "closed",
        formulas=tuple(shown(formula) for formula in formulas),
        inputs=inputs_of(worked.club_state.ticket, formulas),
        figures=tuple(
            WhyFigure(
                name=say(Word("check", check.key), units_shown()),
                text=say(check.said if check.met else check.reason, units_shown()),
            )
            for check in gate.checks
        ),
    )


def why_step(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """Return what stands behind the figures of a card; what gauges should show has keys of its own."""
    step = next((step for step in worked.steps if step.key == rest), None)
    if step is None or not (step.numbers or step.act_on):
        return None
    formulas: tuple[Formula, ...] = STEPS.get(step.key, ())
    said = say_step(step, units_shown())
    own = _figures(step.numbers, said.numbers)
    acted = tuple(item for item in _figures(step.act_on, said.act_on) if item not in own)
    expected = tuple(
        WhyFigure(name="expect", text=words.text, key=expected_key(step, item))
        for item, words in zip(step.expected, said.expected, strict=True)
    )
    return Why(
        key=f"steps/{step.key}",
        name=said.title,
        formulas=tuple(shown(formula) for formula in formulas),
        inputs=inputs_of(worked.club_state.ticket, formulas),
        figures=(*acted, *own, *expected),
        note="" if formulas else "These figures are those of the ticket and of what was measured, as typed.",
    )


def _figures(pairs: Figures, said: tuple[tuple[str, str], ...]) -> tuple[WhyFigure, ...]:
    """Return the figures of a card, each with the equation that gives it."""
    found = ((formula_for(label), words) for (label, _), words in zip(pairs, said, strict=True))
    return tuple(
        WhyFigure(name=name, text=text, formula="" if formula is None else formula.name)
        for formula, (name, text) in found
    )


def why_shaft(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """Return what stands behind the page of the shaft, trims, the set, the family."""
    if rest:
        return None
    known = ("shaft.stiffness_factor", "shaft.mass_kg", "shaft.balance_from_tip_m")
    names = [name for name in known if name in worked.club_state.belief.names]
    figures = []
    for name in names:
        kind, what = told(worked.club_state, name)
        text = render(kind, worked.club_state.belief.mean_of(name), worked.club_state.belief.sd_of(name))
        figures.append(WhyFigure(name=what, text=text, key=f"belief/{name}"))
    return Why(
        key="shaft",
        name="the page of the shaft",
        formulas=tuple(shown(formula) for formula in SHAFT),
        figures=tuple(figures),
        note="What a trim would leave is predicted as the finished club is, with the trim in place of the ticket's own.",
    )


def why_minutes(worked: JobAnswer, times: JobTimes | None) -> Why:
    """Return what stands behind the minutes of a job and what of them is left.

    Args:
        worked: The job, worked.
        times: Its times, by the settings of its shop and the moment; None takes the minutes that are usual.
    """
    found = job_times(worked, ShopSettings()) if times is None else times
    return Why(
        key="minutes",
        name="what is left of the work",
        text=times_text(found.left),
        mean=found.left.hands_on_s,
        formulas=(shown(MINUTES), shown(RELEASE)),
        inputs=inputs_of(worked.club_state.ticket, [RELEASE]),
        figures=(
            WhyFigure(name="whole job", text=times_text(found.whole), formula=MINUTES.name),
            *(
                WhyFigure(
                    name=f"{item.title}{', done' if item.done else ''}",
                    text=step_time_text(item),
                    formula=RELEASE.name if item.waits else "",
                )
                for item in found.steps
            ),
        ),
        note="Minutes of each step are the shop's, as its settings say, else the usual ones (estimates of ours, no source). "
        "They plan the day; nothing is released by them.",
    )
