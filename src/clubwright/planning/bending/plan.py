"""Bends: from the angles as measured to the angles ordered, within what the metal bears.

Loft first, then lie, then loft again: a pull for loft hardly touches the lie, but a lie bend with the bar a little round
the shaft leaks into the loft (`clubwright.club.bending`). Theory and sources: docs/theory/bending.md; checked in
tests/published/test_published_bending.py and tests/unit/planning/bending/test_bends.py.
"""

from __future__ import annotations

from math import ceil

import msgspec

from clubwright.club.bending import square_pull_for_loft_rad
from clubwright.club.bounce import bounce_after_loft_bend_rad
from clubwright.club.head_cg import cg_from_ground_after_lie_bend_m, cg_toward_butt_m
from clubwright.club.length import DEFAULT_SOLE, length_change_from_lie_m, plane_length_change_from_lie_m
from clubwright.errors import Finding
from clubwright.planning.bending.checks import bounce_findings, check_request, limit_findings
from clubwright.planning.bending.metals import MetalLimit, limit_for
from clubwright.planning.bending.request import Angles, BendRequest
from clubwright.planning.bending.words import Angle
from clubwright.planning.cautions import cautions
from clubwright.planning.said.bends import bend_amount, push
from clubwright.planning.said.phrases import Amount, Phrase, phrase, quantity
from clubwright.units import DEGREE_RAD

PULL_RAD = 1 * DEGREE_RAD
"""The most that one pull goes before it is measured (common practice, no source)."""

LEAST_BEND_RAD = DEGREE_RAD / 8
"""Below this nothing is bent: half of the finest step a bench gauge is commonly read to (estimate of ours)."""

_USUAL = (
    phrase("bend.support"),
    phrase("bend.at most"),
    phrase("bend.too far"),
    phrase("bend.offset"),
)


class Bend(msgspec.Struct, frozen=True, kw_only=True):
    """One bend at the bench.

    Attributes:
        angle: Which angle it changes.
        amount_rad: By how much; weak and upright are positive.
        pulls_rad: The pulls it is made in, each to be followed by a measurement.
        bar_rad: How far the shaft itself swings in the vise: for loft less than the amount, by ``sin lie``.
        amount: How much and which way, to be said with the signed figure beside it.
        push: Which way the grip end goes, with left and right for the hand.
    """

    angle: Angle
    amount_rad: float
    pulls_rad: tuple[float, ...]
    bar_rad: float
    amount: Phrase
    push: Phrase


class BendPlan(msgspec.Struct, frozen=True, kw_only=True):
    """What to bend, in order, and what comes of it.

    Attributes:
        bends: Loft first, then lie; empty when nothing needs a bend or the plan is refused.
        steps: The work in order, a phrase for each step.
        result: Loft, lie and bounce after the bends; as they are now when the plan is refused.
        axis_length_change_m: Change of the axis-to-ground length of a shaft that is not cut again.
        plane_length_change_m: The same for the 60 degree plane.
        cg_from_ground_change_m: Change of the head's centre of gravity along the axis from its ground point; None when
            the head's centre of gravity is not known.
        cg_from_cap_change_m: The same, from the butt of a shaft that is not cut again; this is what moves swing weight.
        limit: The metal's limit that was used.
        findings: Errors refuse the plan; warnings and notes are to be read before the first pull.
        cautions: What to mind at the vise.
    """

    bends: tuple[Bend, ...]
    steps: tuple[Phrase, ...]
    result: Angles
    axis_length_change_m: float
    plane_length_change_m: float
    cg_from_ground_change_m: float | None
    cg_from_cap_change_m: float | None
    limit: MetalLimit
    findings: tuple[Finding, ...]
    cautions: tuple[Phrase, ...]

    @property
    def refused(self) -> bool:
        """True when the bends asked for are not advised."""
        return any(finding.severity == "error" for finding in self.findings)

    @property
    def total_rad(self) -> float:
        """All bends of the plan added up, sign apart."""
        return sum(abs(bend.amount_rad) for bend in self.bends)


def plan_bends(request: BendRequest) -> BendPlan:
    """Plan the bends of one head.

    Returns:
        The plan. A bend beyond the metal's limit refuses the whole plan, and its findings say what to do instead.

    Raises:
        InputError: A number of the request is missing or cannot be one; nothing is planned.
    """
    check_request(request)
    limit = limit_for(request.metal, request.kind)
    loft_change = _change(request.now.loft_rad, request.target.loft_rad)
    lie_change = _change(request.now.lie_rad, request.target.lie_rad)
    wanted: list[tuple[Angle, float]] = [("loft", loft_change), ("lie", lie_change)]
    wanted = [(angle, amount) for angle, amount in wanted if amount]
    findings = (*limit_findings(request, limit, wanted), *bounce_findings(request, loft_change))
    if any(finding.severity == "error" for finding in findings):
        wanted, loft_change, lie_change = [], 0.0, 0.0
    result = _result(request.now, loft_change, lie_change)
    bends = tuple(_bend(angle, amount, request) for angle, amount in wanted)
    lie = request.now.lie_rad
    axis_change = plane_change = 0.0
    if lie is not None and lie_change:
        sole = DEFAULT_SOLE[request.kind]
        camber = sole.camber_m if request.sole_camber_m is None else request.sole_camber_m
        contact = sole.contact_m if request.sole_contact_m is None else request.sole_contact_m
        axis_change = float(length_change_from_lie_m(lie_change, lie))
        plane_change = float(plane_length_change_from_lie_m(lie_change, lie, camber, contact))
    from_ground, from_cap = _cg_changes(request, lie_change)
    return BendPlan(
        bends=bends,
        steps=_steps(bends, result),
        result=result,
        axis_length_change_m=axis_change,
        plane_length_change_m=plane_change,
        cg_from_ground_change_m=from_ground,
        cg_from_cap_change_m=from_cap,
        limit=limit,
        findings=findings,
        cautions=(*_USUAL, *limit.cautions, *cautions("bend", head_metal=_metal_for_cautions(request, limit))),
    )


def _change(now: float | None, target: float | None) -> float:
    if now is None or target is None or abs(target - now) < LEAST_BEND_RAD:
        return 0.0
    return target - now


def _result(now: Angles, loft_change: float, lie_change: float) -> Angles:
    bounce = now.bounce_rad
    return Angles(
        loft_rad=None if now.loft_rad is None else now.loft_rad + loft_change,
        lie_rad=None if now.lie_rad is None else now.lie_rad + lie_change,
        bounce_rad=None if bounce is None else float(bounce_after_loft_bend_rad(bounce, loft_change)),
    )


def _bend(angle: Angle, amount: float, request: BendRequest) -> Bend:
    bar, lie = amount, request.now.lie_rad
    if angle == "loft" and lie is not None:
        bar = float(square_pull_for_loft_rad(amount, lie))
    return Bend(
        angle=angle,
        amount_rad=amount,
        pulls_rad=pulls(amount),
        bar_rad=bar,
        amount=bend_amount(angle, amount),
        push=push(angle, amount, request.hand),
    )


def pulls(amount_rad: float) -> tuple[float, ...]:
    """Split a bend into pulls of at most a degree: whole ones first, the rest last."""
    count = max(1, ceil(abs(amount_rad) / PULL_RAD - 1e-9))
    whole = PULL_RAD if amount_rad > 0 else -PULL_RAD
    return (*(whole,) * (count - 1), amount_rad - whole * (count - 1))


def _cg_changes(request: BendRequest, lie_change: float) -> tuple[float | None, float | None]:
    place, across, lie = request.cg_from_ground_m, request.cg_off_axis_m, request.now.lie_rad
    if not lie_change:
        return 0.0, 0.0
    if place is None or across is None or lie is None:
        return None, None
    from_ground = float(cg_from_ground_after_lie_bend_m(place, across, lie, lie_change)) - place
    return from_ground, -float(cg_toward_butt_m(place, across, lie_change))


def _steps(bends: tuple[Bend, ...], result: Angles) -> tuple[Phrase, ...]:
    ends = {"loft": result.loft_rad, "lie": result.lie_rad}
    steps = []
    for bend in bends:
        how = phrase("bend.pulls", count=len(bend.pulls_rad))
        angle, end = quantity(bend.angle), _degrees(ends[bend.angle] or 0.0)
        steps.append(phrase("bend.step", angle=angle, amount=bend.amount, end=end, push=bend.push, how=how))
    if any(bend.angle == "lie" for bend in bends) and result.loft_rad is not None:
        steps.append(phrase("bend.loft again", loft=_degrees(result.loft_rad)))
    if bends and result.bounce_rad is not None:
        steps.append(phrase("bend.bounce", bounce=_degrees(result.bounce_rad)))
    return tuple(steps)


def _degrees(angle_rad: float) -> Amount:
    return Amount("angle", angle_rad, form="degrees")


def _metal_for_cautions(request: BendRequest, limit: MetalLimit) -> str | None:
    """An unknown metal is cautioned for as all of them."""
    return limit.name if request.metal is None else request.metal
