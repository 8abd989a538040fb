"""The answer to a ticket made: cut, finished club, stages, advice, gates, verdicts and findings.

SI inside, trade text beside it. Numbers are rounded to nine significant digits, since linear algebra may differ in the
last ones from one processor to another and the same ticket shall give the same bytes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from clubwright.club.quantities import ALWAYS_SHOWN, ANGLES, QUANTITIES
from clubwright.club.stages import STAGES, Stage
from clubwright.errors import Finding
from clubwright.notation import render, units_shown
from clubwright.planning.advice.advice import Advice, shown_keys
from clubwright.planning.advice.unreached import Unreached
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import Cut
from clubwright.planning.gates.gates import Gate
from clubwright.services.answer.inspection import Inspected
from clubwright.services.told.answer import (
    SCHEMA,
    AdviceAnswer,
    Answer,
    CheckAnswer,
    CutAnswer,
    Estimate,
    FindingAnswer,
    FinishedEstimate,
    GateAnswer,
    LiftedAnswer,
    UnitEstimate,
    UnreachedAnswer,
    VerdictAnswer,
)
from clubwright.words.advice import say_advice, say_unreached
from clubwright.words.say import say

DIGITS = 9

Plain = dict[str, Any]


def rounded(value: float) -> float:
    """Round to nine significant digits; negative zero becomes zero.

    Raises:
        ValueError: for what is no finite number, which JSON has no way to write.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} is no figure for an answer")
    return float(f"{value:.{DIGITS}g}") + 0.0


def plain_data(thing: object) -> Any:
    """Return data as plain values, its numbers rounded."""
    return _rounded(msgspec.to_builtins(thing))


def _rounded(thing: Any) -> Any:
    match thing:
        case float():
            return rounded(thing)
        case dict():
            return {key: _rounded(value) for key, value in thing.items()}
        case list() | tuple():
            return [_rounded(value) for value in thing]
        case _:
            return thing


def rounded_if(value: float | None) -> float | None:
    """Round a figure, where there is one."""
    return None if value is None else rounded(value)


def estimate(key: str, mean: float, sd: float) -> Estimate:
    """Return what is believed of a quantity: mean, uncertainty and text."""
    return Estimate(mean=rounded(mean), sd=rounded(sd), text=render(QUANTITIES[key].kind, mean, sd))


def figure(key: str, mean: float, sd: float) -> UnitEstimate:
    """Return what is believed of a quantity, with its unit."""
    quantity = QUANTITIES[key]
    text = render(quantity.kind, mean, sd)
    return UnitEstimate(mean=rounded(mean), sd=rounded(sd), text=text, unit=quantity.unit)


def cut_part(cut: Cut | None) -> CutAnswer | None:
    """Return the cut."""
    if cut is None:
        return None
    return CutAnswer(
        butt_cut_m=rounded_if(cut.butt_cut_m),
        kerf_m=rounded(cut.kerf_m),
        lifted=tuple(
            LiftedAnswer(shaft_length_m=rounded(item.shaft_length_m), text=item.text, weight=item.weight)
            for item in cut.lifted
        ),
        mark_from_ground_m=rounded(cut.mark_from_ground_m),
        mark_from_tip_m=rounded(cut.mark_from_tip_m),
        shaft_length_m=rounded(cut.shaft_length_m),
        short_by_m=rounded(cut.short_by_m),
        text=cut.text,
        tip_trim_m=rounded(cut.tip_trim_m),
    )


def finished_part(club_state: ClubState) -> dict[str, FinishedEstimate]:
    """Return the finished club with the weights fitted now, each target with its chance."""
    shown = shown_keys(club_state)
    keys = shown + tuple(
        key for key in ANGLES if key not in shown and club_state.ticket.club.head.entry(key) is not None
    )
    prediction = club_state.predict(keys)
    spread = prediction.sd()[0]
    return {
        key: _finished(club_state, key, float(prediction.mean[0, place]), float(spread[place]))
        for place, key in enumerate(keys)
    }


def _finished(club_state: ClubState, key: str, mean: float, sd: float) -> FinishedEstimate:
    quantity, goal = QUANTITIES[key], club_state.goal(key)
    return FinishedEstimate(
        mean=rounded(mean),
        sd=rounded(sd),
        text=render(quantity.kind, mean, sd),
        unit=quantity.unit,
        target=None if goal is None else rounded(goal.target),
        tolerance=None if goal is None else rounded(goal.half_width),
        chance=None if goal is None else rounded(goal.chance(mean, sd)),
    )


def stages_part(club_state: ClubState) -> dict[str, dict[str, UnitEstimate]]:
    """Return what the club reads at every stage with the weights fitted now; as it came where it came in."""
    came_in = club_state.ticket.job != "build"
    return {stage.name: _stage(club_state, stage) for stage in STAGES.values() if came_in or not stage.old_parts}


def _stage(club_state: ClubState, stage: Stage) -> dict[str, UnitEstimate]:
    wanted = {*ALWAYS_SHOWN, *(goal.key for goal in club_state.goals if QUANTITIES[goal.key].weights_move_it)}
    keys = club_state.shown(wanted, stage)
    prediction = club_state.predict(keys, stage)
    spread = prediction.sd()[0]
    return {key: figure(key, float(prediction.mean[0, place]), float(spread[place])) for place, key in enumerate(keys)}


def unreached_part(unreached: Unreached | None) -> UnreachedAnswer | None:
    """Return what no set of weights reaches."""
    if unreached is None:
        return None
    return UnreachedAnswer(
        targets=unreached.targets,
        chance=rounded(unreached.chance),
        best_now=rounded(unreached.best_now),
        each={key: rounded(chance) for key, chance in unreached.each.items()},
        ends={key: estimate(key, *figure) for key, figure in unreached.ends.items()},
        text=say_unreached(unreached, units_shown()),
    )


def advice_part(advice: Iterable[Advice]) -> tuple[AdviceAnswer, ...]:
    """Return the advice."""
    said = [(item, say_advice(item, units_shown())) for item in advice]
    return tuple(
        AdviceAnswer(
            chance=rounded(item.chance),
            data=plain_data(item.data),
            do=words.do,
            finished={key: estimate(key, mean, sd) for key, (mean, sd) in item.finished.items()},
            id=item.id,
            irreversible=item.irreversible,
            kind=item.kind,
            weights=item.weights,
            why=words.why,
        )
        for item, words in said
    )


def gates_part(gates: Iterable[Gate]) -> tuple[GateAnswer, ...]:
    """Return the gates, with every check that was made."""
    return tuple(
        GateAnswer(
            checks=tuple(
                CheckAnswer(
                    figures=say(check.said, units_shown()),
                    key=check.key,
                    met=check.met,
                    mend=say(check.mend, units_shown()),
                    what=say(check.what, units_shown()),
                )
                for check in gate.checks
            ),
            open=gate.open,
            step=gate.step,
            why=say(gate.why, units_shown()),
        )
        for gate in gates
    )


def verdicts_part(inspected: Mapping[str, Inspected]) -> dict[str, VerdictAnswer]:
    """Return the verdicts."""
    return {
        key: VerdictAnswer(
            rule=item.rule, named=item.named, figures=item.figures, settle=item.settle, verdict=item.verdict
        )
        for key, item in inspected.items()
    }


def findings_part(findings: Iterable[Finding]) -> tuple[FindingAnswer, ...]:
    """Return the findings."""
    return tuple(
        FindingAnswer(mend=item.mend, severity=item.severity, what=item.what, where=str(item.where))
        for item in findings
    )


def empty_answer(findings: Iterable[Finding]) -> Answer:
    """Return the answer to a ticket that cannot be taken: its findings and nothing else."""
    return Answer(
        schema=SCHEMA,
        advice=(),
        cut=None,
        findings=findings_part(findings),
        finished={},
        gates=(),
        stages={},
        unreached=None,
        verdicts={},
    )
