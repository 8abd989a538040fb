"""The last steps: bend to loft and lie, inspect, tag."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.planning.bending.advice import bend_advice, bend_plan_of
from clubwright.planning.bending.lie_lines import lie_lines
from clubwright.planning.bending.metals import stays_as_it_is
from clubwright.planning.bending.plan import BendPlan
from clubwright.planning.goals import GUARD_FACTORS
from clubwright.planning.said.advice import advice_phrases
from clubwright.planning.said.bends import in_quarters
from clubwright.planning.said.findings import sentence_of
from clubwright.planning.said.phrases import Value, Word, figure, percent, phrase, quantity, tools
from clubwright.planning.steps.inputs import Bench, Numbers, present
from clubwright.planning.steps.order import bends_first_because
from clubwright.planning.steps.types import Expected, Step

_REPEATS = range(2, 11)
"""More readings of one club than ten are taken by nobody."""


def loft_and_lie(bench: Bench) -> Step:
    """Bend to the ordered angles, or see that nothing is to be bent; a head that is never bent is set, or only measured."""
    club_state = bench.club_state
    if stays_as_it_is(club_state.ticket.club.head.metal, club_state.ticket.kind):
        return _set_or_measured(bench)
    first = bends_first_because(club_state)
    glued = not first and club_state.ticket.job in ("build", "reshaft")
    plan = bend_plan_of(club_state)
    what: list[Value] = [phrase("loft and lie.why now", reason=reason) for reason in first]
    if bench.is_wood:
        what.append(phrase("loft and lie.wood"))
    if club_state.ticket.kind == "putter":
        what.append(phrase("loft and lie.putter"))
    if plan is None:
        what.append(phrase("loft and lie.no plan"))
    else:
        what += [sentence_of(finding) for finding in plan.findings]
        what += plan.steps or (phrase("loft and lie.nothing"),)
        if plan.bends:
            what.append(phrase("loft and lie.order"))
    return Step(
        key="loft and lie",
        title=phrase("title.loft and lie"),
        what=tuple(what),
        act_on=() if plan is None else _headlines(plan),
        numbers=(
            *bench.goal_numbers(ANGLES),
            *_measured(bench),
            *lie_lines(club_state),
            *(() if plan is None else _bend_numbers(bench, plan)),
        ),
        instrument=tools("loft and lie gauge", "bending bar"),
        expected=_expected_angles(bench, bench.angles()),
        done_when=phrase("done.loft and lie"),
        cautions=bench.cautions("bend") if plan is None else plan.cautions,
        gate="release" if glued else None,
    )


def _headlines(plan: BendPlan) -> Numbers:
    return tuple((quantity(bend.angle), in_quarters(bend.angle, bend.amount_rad)) for bend in plan.bends)


def _set_or_measured(bench: Bench) -> Step:
    """Turn the sleeve to its setting where there is one, and measure: the angles are what they then are."""
    club_state = bench.club_state
    adapter = club_state.ticket.club.adapter
    plan = bend_plan_of(club_state)
    refused = () if plan is None else plan.findings
    what = [sentence_of(finding) for finding in refused]
    if bench.has_sleeve:
        what = [phrase("set.sleeve"), phrase("set.torque"), *what]
    return Step(
        key="loft and lie",
        title=phrase("title.set sleeve" if bench.has_sleeve else "title.measure angles"),
        what=(*what, phrase("set.sole"), *(() if refused else (phrase("loft and lie.nothing"),))),
        numbers=(
            *present((phrase("label.setting"), adapter.setting), (phrase("label.torque"), adapter.torque)),
            *bench.goal_numbers(ANGLES),
            *_measured(bench),
            *lie_lines(club_state),
            *(() if plan is None or bench.has_sleeve else _bend_numbers(bench, plan)),
        ),
        instrument=tools("loft and lie gauge"),
        expected=_expected_angles(bench, bench.angles()),
        done_when=phrase("done.set sleeve" if bench.has_sleeve else "done.measure angles"),
        cautions=bench.cautions("set sleeve") if bench.has_sleeve else (),
        gate="release" if bench.has_sleeve and club_state.ticket.job in ("build", "reshaft") else None,
    )


def _measured(bench: Bench) -> Numbers:
    """Say where each angle stands now."""
    head, row = bench.club_state.club.head, bench.club_state.ticket.club.head
    stands = {"loft": head.loft_rad, "lie": head.lie_rad, "bounce": head.bounce_rad}
    return tuple(
        (phrase("label.as it stands", what=quantity(key)), figure("angle", float(stands[key])))
        for key in ANGLES
        if row.entry(key) is not None
    )


def _bend_numbers(bench: Bench, plan: BendPlan) -> Numbers:
    """Say what is bent, how far and which way, what the metal bears, and what else moves."""
    bends = tuple(
        (
            phrase("label.bend the", angle=quantity(bend.angle)),
            phrase("figure.bend", amount=bend.amount, pulls=phrase("count.pulls", count=len(bend.pulls_rad))),
        )
        for bend in plan.bends
    )
    limit = plan.limit
    loft, lie = figure("angle", limit.loft_limit_rad), figure("angle", limit.lie_limit_rad)
    most = phrase("figure.limit angles", loft=loft, lie=lie)
    if limit.loft_limit_rad == limit.lie_limit_rad == 0.0:
        most = phrase("figure.no bend advised")
    usual = phrase(
        "figure.limit", most=most, metal=Word("metal", limit.name), standing=Word("standing", limit.standing)
    )
    action = bend_advice(bench.club_state)
    advised: Numbers = ()
    if action is not None:
        do, why = advice_phrases(action)
        chance = percent(action.chance)
        advised = ((do, phrase("why and chance", why=why, chance=chance)),)
    return (*bends, (phrase("label.limit"), usual), *advised)


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
    what = [phrase("inspect.read")]
    if club_state.ticket.job in ("build", "reshaft"):
        what.append(phrase("inspect.twist"))
    return Step(
        key="inspect",
        title=phrase("title.inspect"),
        what=(*what, *bad),
        numbers=(*bench.goal_numbers(keys), *lie_lines(club_state)),
        instrument=tools(*dict.fromkeys(QUANTITIES[key].read_by for key in keys)) if keys else None,
        expected=(
            *bench.expect_all([key for key in keys if key not in ANGLES], FINISHED, bench.chosen),
            *_expected_angles(bench, keys),
        ),
        done_when=phrase("done.inspect"),
        gate="release" if club_state.ticket.job in ("build", "reshaft") else None,
    )


def cannot_prove(bench: Bench, key: str) -> Value | None:
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
    enough = next((n for n in _REPEATS if factor * gauge.uncertainty(n) <= goal.half_width), None)
    return phrase(
        "inspect.cannot prove",
        gauge=Word("tool", QUANTITIES[key].read_by),
        what=quantity(key),
        tolerance=goal.tolerance_typed,
        guard=figure(QUANTITIES[key].tolerance_kind, guard),
        mend=phrase("inspect.no repeats") if enough is None else phrase("inspect.mean of", count=enough),
    )


def tag(bench: Bench) -> Step:
    """Label the club and close the ticket."""
    ticket = bench.club_state.ticket
    order = ticket.order
    joined = ticket.job in ("build", "reshaft")
    return Step(
        key="tag",
        title=phrase("title.tag"),
        what=(
            phrase("tag.write"),
            *((phrase("tag.cures"),) if joined else ()),
        ),
        numbers=present(
            (phrase("label.ticket"), ticket.id),
            (phrase("label.player"), order.player.name),
            (phrase("label.club"), order.label),
            (phrase("label.hand"), Word("side", ticket.hand)),
            (phrase("label.promised"), order.promised),
            (phrase("label.weights on it"), bench.weights(bench.fitted)),
        ),
        done_when=phrase("done.tag"),
        cautions=bench.cautions("tag") if joined else (),
        gate="release" if joined else None,
    )
