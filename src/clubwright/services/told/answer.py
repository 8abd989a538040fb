"""The answer to a ticket, typed: figures in SI with trade text beside them.

JSON, JSON Schema, the models of `/api` and what `clubwright.work` returns are made of these structs, and of nothing else.
What may change under one number of the schema is said in `CHANGELOG.md`; `docs/schema/answer-1.json` is compared.
"""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.conformity.outcome import Outcome
from clubwright.errors import Severity
from clubwright.services.told.base import Told, says

SCHEMA: Final = 1
"""Number of the answer's schema; the next one as soon as a program that reads this one could stumble."""

Quantities: dict[str, Any] = {"propertyNames": {"examples": list(QUANTITIES)}}
Stages: dict[str, Any] = {"propertyNames": {"examples": list(STAGES)}}


class Estimate(Told, frozen=True, kw_only=True):
    """What is believed of one quantity."""

    mean: Annotated[
        float, says("Most likely value, in the SI unit of the quantity; a swing weight in points above A0.")
    ]
    sd: Annotated[float, says("Its standard uncertainty, in the same unit.")]
    text: Annotated[str, says("Both in trade notation.")]


class UnitEstimate(Estimate, frozen=True, kw_only=True):
    """What is believed of one quantity, with its unit."""

    unit: Annotated[str, says("Unit of the figures: m, kg, kg m2, rad, Hz, or points above A0.")]


class FinishedEstimate(UnitEstimate, frozen=True, kw_only=True):
    """What the finished club reads with the weights fitted now, beside what the ticket orders."""

    target: Annotated[float | None, says("What is ordered, in the unit; null where nothing is.")]
    tolerance: Annotated[float | None, says("Half-width about the target, in the unit.")]
    chance: Annotated[float | None, says("Chance of ending within the tolerance, from 0 to 1; null without a target.")]


class LiftedAnswer(Told, frozen=True, kw_only=True):
    """The cut if a weight that lifts the shaft goes under the tip."""

    weight: Annotated[str, says("Name of the weight.")]
    shaft_length_m: Annotated[float, says("Length of the cut shaft, tip end to butt end, in m.")]
    text: Annotated[str, says("The same in trade notation.")]


class CutAnswer(Told, frozen=True, kw_only=True):
    """Where to cut the shaft."""

    shaft_length_m: Annotated[float, says("Length of the cut shaft, tip end to butt end after trims, in m.")]
    butt_cut_m: Annotated[
        float | None,
        says(
            "What comes off the butt, in m; null when the raw length is not known, negative when the shaft is too short."
        ),
    ]
    mark_from_tip_m: Annotated[float, says("The mark, from the tip end after the tip trim, in m.")]
    mark_from_ground_m: Annotated[
        float, says("The mark on the dry-fitted club, along the shaft from its ground point, in m.")
    ]
    tip_trim_m: Annotated[float, says("What comes off the tip first, in m.")]
    kerf_m: Annotated[float, says("Width of the saw cut, which lies wholly on the waste side, in m.")]
    short_by_m: Annotated[float, says("By how much the raw shaft is too short, in m; 0 when it is long enough.")]
    lifted: Annotated[
        tuple[LiftedAnswer, ...],
        says("The cut with each weight of the tray that holds the shaft off the bottom, when none is fitted."),
    ]
    text: Annotated[str, says("All of it for the bench, with the waste side.")]


class UnreachedAnswer(Told, frozen=True, kw_only=True):
    """What no set of weights reaches: one target by itself, or two that are in conflict."""

    targets: Annotated[tuple[str, ...], says("One target, or the two in conflict.")]
    chance: Annotated[
        float, says("The best chance of those together, over all sets, from 0 to 1.", minimum=0, maximum=1)
    ]
    best_now: Annotated[float, says("The best chance of all targets together.", minimum=0, maximum=1)]
    each: Annotated[dict[str, float], says("The best chance of each of those by itself.", **Quantities)]
    ends: Annotated[
        dict[str, Estimate],
        says(
            "Where each ends with the set that suits the other best; one alone, with the set that comes closest.",
            **Quantities,
        ),
    ]
    text: Annotated[str, says("The same in one sentence.")]


class AdviceAnswer(Told, frozen=True, kw_only=True):
    """One action that can be taken."""

    kind: Annotated[
        str,
        says(
            "What it is.", examples=["fit", "leave", "read", "pull", "head", "trim", "bend", "tape", "grip", "length"]
        ),
    ]
    id: Annotated[str, says("Names it among the actions of this club, as long as the tray stays as it is.")]
    data: Annotated[dict[str, Any], says("What it is about, by its `type`: plain figures in SI.")]
    do: Annotated[str, says("The action in a few words.")]
    weights: Annotated[tuple[str, ...], says("Names of the weights on the club after it, a name for each piece.")]
    why: Annotated[str, says("Its reason, in one line.")]
    chance: Annotated[
        float, says("Chance that the targets it moves end within tolerance, from 0 to 1.", minimum=0, maximum=1)
    ]
    irreversible: Annotated[bool, says("Whether it cannot be taken back.")]
    finished: Annotated[
        dict[str, Estimate], says("What the finished club would read, quantity by quantity.", **Quantities)
    ]

    def __str__(self) -> str:
        return f"{self.do}; {self.why}"


class CheckAnswer(Told, frozen=True, kw_only=True):
    """One check of a gate."""

    key: Annotated[str, says("Which check.")]
    met: Annotated[bool, says("Whether what it asks for is so.")]
    figures: Annotated[str, says("What was looked at, in trade notation.")]
    what: Annotated[str, says("What is wrong, where it is not met; else empty.")]
    mend: Annotated[str, says("How to mend it; empty where there is nothing to say.")]


class GateAnswer(Told, frozen=True, kw_only=True):
    """A gate: what must be so before a step that cannot be undone."""

    step: Annotated[str, says("Which gate: cut, glue or release.")]
    open: Annotated[bool, says("Whether every check is met.")]
    why: Annotated[str, says("Why it is open, or closed.")]
    checks: Annotated[tuple[CheckAnswer, ...], says("Every check that was made.")]


class VerdictAnswer(Told, frozen=True, kw_only=True):
    """What the readings of the finished club prove about one target."""

    verdict: Annotated[Outcome, says("The verdict.")]
    rule: Annotated[str, says("The decision rule with its figures; for within also the risk.")]
    named: Annotated[str, says("Of the rule only its name and meaning; empty where none was applied.")]
    figures: Annotated[str, says("Of the rule only its figures, and the risk; else why none was applied.")]
    settle: Annotated[str, says("What would settle a verdict that is open; else empty.")]


class FindingAnswer(Told, frozen=True, kw_only=True):
    """What is wrong or worth knowing, where, and how to mend it."""

    where: Annotated[str, says("Place in the ticket or the record.")]
    what: Annotated[str, says("What is wrong, with the value as typed.")]
    mend: Annotated[str, says("The next thing to do.")]
    severity: Annotated[
        Severity, says("error: the ticket was not worked; warning: it needs a look; note: for information.")
    ]


class Answer(Told, frozen=True, kw_only=True):
    """What follows from one ticket. SI: m, kg, kg m2, rad, Hz; swing weight in points above A0. Text beside it."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    unreached: Annotated[
        UnreachedAnswer | None,
        says("What no set of weights reaches; null where one reaches all, or too little is known."),
    ]
    cut: Annotated[CutAnswer | None, says("Where to cut; null for other work, and for a ticket that cannot be taken.")]
    finished: Annotated[
        dict[str, FinishedEstimate],
        says("Each quantity of the finished club with the weights fitted now.", **Quantities),
    ]
    stages: Annotated[
        dict[str, dict[str, UnitEstimate]],
        says("What a gauge should read at each stage of the build, quantity by quantity.", **Stages),
    ]
    advice: Annotated[tuple[AdviceAnswer, ...], says("What can be done, best first.")]
    gates: Annotated[tuple[GateAnswer, ...], says("The gates of the steps that cannot be undone.")]
    verdicts: Annotated[
        dict[str, VerdictAnswer], says("The verdict on each target that was read on the finished club.", **Quantities)
    ]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is wrong or worth knowing, all at once.")]
