"""The last steps: bend to loft and lie, inspect, tag."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.notation import render
from clubwright.planning.bending.advice import bend_advice, bend_plan_of
from clubwright.planning.bending.lie_lines import lie_lines
from clubwright.planning.bending.plan import BendPlan
from clubwright.planning.guard_factors import GUARD_FACTORS
from clubwright.planning.said.advice import advice_phrases
from clubwright.planning.said.phrases import Amount, phrase
from clubwright.planning.steps.inputs import Bench, Numbers, counted, present
from clubwright.planning.steps.order import bends_first_because
from clubwright.planning.steps.types import Expected, Step

_REPEATS = range(2, 11)
"""More readings of one club than ten are taken by nobody."""


def loft_and_lie(bench: Bench) -> Step:
    """Bend to the ordered angles, or see that nothing is to be bent."""
    club_state = bench.club_state
    first = bends_first_because(club_state)
    glued = not first and club_state.ticket.job in ("build", "reshaft")
    plan = bend_plan_of(club_state)
    what = [f"Why now: {reason}." for reason in first]
    if bench.is_wood:
        what.append("A wood is set by its sleeve where it has one, and bent only where the head's maker allows it.")
    if club_state.ticket.kind == "putter":
        what.append("Check that neck and insert allow a bend before the first pull.")
    if plan is None:
        what.append("No bend is planned: measure loft, lie and bounce of the head first.")
    else:
        what += [finding.sentence() for finding in plan.findings]
        what += plan.steps or ("Nothing is bent.",)
        if plan.bends:
            what.append("Order: loft first, lie second, then the loft again; small pulls, and measure after each.")
    return Step(
        key="loft and lie",
        title="Bend to loft and lie",
        what=tuple(what),
        numbers=(
            *bench.goal_numbers(ANGLES),
            *_measured(bench),
            *lie_lines(club_state),
            *(() if plan is None else _bend_numbers(bench, plan)),
        ),
        instrument="loft and lie gauge, bending bar",
        expected=_expected_angles(bench, bench.angles()),
        done_when="Loft, lie and bounce were measured after the last pull and are on the record.",
        cautions=bench.cautions("bend") if plan is None else plan.cautions,
        gate="release" if glued else None,
    )


def _measured(bench: Bench) -> Numbers:
    """Say where each angle stands now."""
    head, row = bench.club_state.club.head, bench.club_state.ticket.club.head
    stands = {"loft": head.loft_rad, "lie": head.lie_rad, "bounce": head.bounce_rad}
    return tuple(
        (f"{QUANTITIES[key].name} as it stands", render("angle", float(stands[key])))
        for key in ANGLES
        if row.entry(key) is not None
    )


def _bend_numbers(bench: Bench, plan: BendPlan) -> Numbers:
    """Say what is bent, how far and which way, what the metal bears, and what else moves."""
    bends = tuple(
        (f"bend the {bend.angle}", f"{bend.words}, {counted(len(bend.pulls_rad), 'pull')}") for bend in plan.bends
    )
    limit = plan.limit
    most = f"loft {render('angle', limit.loft_limit_rad)}, lie {render('angle', limit.lie_limit_rad)}"
    if limit.loft_limit_rad == limit.lie_limit_rad == 0.0:
        most = "no bend is advised"
    usual = f"{most} ({limit.name}, {limit.standing})"
    action = bend_advice(bench.club_state)
    advised: Numbers = ()
    if action is not None:
        do, why = advice_phrases(action)
        chance = Amount("number", action.chance, form="percent")
        advised = ((do, phrase("why and chance", why=why, chance=chance)),)
    return (*bends, ("routine limit of this metal", usual), *advised)


def _expected_angles(bench: Bench, keys: Sequence[str]) -> tuple[Expected, ...]:
    """Say what the gauges should show of the angles after the planned bends; as they stand where none is planned."""
    action = bend_advice(bench.club_state)
    after = {} if action is None else action.finished
    found = []
    for key in ANGLES:
        if key in keys and key in after:
            found.append(bench.expect_value(key, FINISHED, *after[key]))
        elif key in keys:
            found += bench.expect_all((key,), FINISHED)
    return tuple(found)


def inspect(bench: Bench) -> Step:
    """Read every target on the finished club."""
    club_state = bench.club_state
    keys = tuple(goal.key for goal in club_state.goals)
    bad = [sentence for key in keys if (sentence := cannot_prove(bench, key))]
    what = ["Read every target on the finished club, with the weights that are on it."]
    if club_state.ticket.job in ("build", "reshaft"):
        what.append("Then twist the head by hand against the witness marks and tap for a rattle.")
    return Step(
        key="inspect",
        title="Inspect the finished club",
        what=(*what, *bad),
        numbers=(*bench.goal_numbers(keys), *lie_lines(club_state)),
        instrument=", ".join(dict.fromkeys(QUANTITIES[key].read_by for key in keys)) or None,
        expected=(
            *bench.expect_all([key for key in keys if key not in ANGLES], FINISHED, bench.chosen),
            *_expected_angles(bench, keys),
        ),
        done_when="Every target has a reading, and every verdict is within or was accepted by name.",
        gate="release" if club_state.ticket.job in ("build", "reshaft") else None,
    )


def cannot_prove(bench: Bench, key: str) -> str | None:
    """Say that one reading of this gauge can never prove this tolerance, or nothing when it can.

    The guard band is the rule's factor times the gauge's standard uncertainty, as the verdict takes it; when it is wider
    than the half-width, not even a reading at the very middle proves the tolerance.
    Derivation: docs/theory/plan.md.
    """
    goal = bench.club_state.goal(key)
    factor = GUARD_FACTORS[bench.club_state.ticket.rule]
    if goal is None:
        return None
    gauge = bench.club_state.gauge(key)
    guard = factor * gauge.uncertainty()
    if guard <= goal.half_width:
        return None
    quantity = QUANTITIES[key]
    enough = next((n for n in _REPEATS if factor * gauge.uncertainty(n) <= goal.half_width), None)
    mend = "No number of repeats will: check the gauge against a master, or use a finer one."
    if enough is not None:
        mend = f"The mean of {enough} can."
    return (
        f"One reading of the {quantity.read_by} cannot prove {quantity.name} ± {goal.tolerance_typed}: "
        f"its guard band is {render(quantity.tolerance_kind, guard)}. {mend}"
    )


def tag(bench: Bench) -> Step:
    """Label the club and close the ticket."""
    ticket = bench.club_state.ticket
    order = ticket.order
    joined = ticket.job in ("build", "reshaft")
    return Step(
        key="tag",
        title="Tag the club and close the ticket",
        what=(
            "Write ticket, player, hand and finals on the tag; fix it where it cannot fall off.",
            *(("While the joint cures, the tag says from when the club may be swung.",) if joined else ()),
        ),
        numbers=present(
            ("ticket", ticket.id),
            ("player", order.player.name),
            ("club", order.label),
            ("hand", ticket.hand),
            ("promised", order.promised),
            ("weights on it", bench.names(bench.fitted)),
        ),
        done_when="The tag is on and the ticket is closed in the record.",
        cautions=bench.cautions("tag") if joined else (),
        gate="release" if joined else None,
    )
