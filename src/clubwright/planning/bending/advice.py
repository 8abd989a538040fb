"""Bends as advice: what to bend, how likely the angles then end within tolerance, and what else it moves."""

from __future__ import annotations

import math

from clubwright.club.quantities import ANGLES
from clubwright.club.swing_weight import points_from_moment
from clubwright.planning.bending.plan import BendPlan, plan_bends
from clubwright.planning.bending.request import Angles, BendRequest, BentSoFar
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.actions import Action, Bends
from clubwright.state.particulars import in_si
from clubwright.units import DEGREE_RAD

BEND_SD_RAD = 0.1 * DEGREE_RAD
"""How true a bend comes out, measured after each pull (estimate of ours)."""

HALF_DEGREE_RAD = DEGREE_RAD / 2


def bend_plan_of(club_state: ClubState) -> BendPlan | None:
    """Plan the bends the targets ask for; None when no angle is ordered or those ordered are not measured."""
    ticket, belief = club_state.ticket, club_state.belief
    head = ticket.club.head
    measured = {key: belief.mean_of(f"head.{key}_rad") for key in ANGLES if head.entry(key) is not None}
    wanted = {goal.key: goal.target for goal in club_state.goals if goal.key in measured}
    if not wanted:
        return None
    bounce = club_state.goal("bounce")
    club = club_state.club.head
    request = BendRequest(
        kind=ticket.kind,
        hand=ticket.hand,
        now=_angles(measured),
        target=_angles(wanted),
        metal=head.metal,
        bent_so_far=BentSoFar(loft_rad=in_si(head.bent_loft) or 0.0, lie_rad=in_si(head.bent_lie) or 0.0),
        sleeve=ticket.club.adapter.given,
        bounce_tolerance_rad=HALF_DEGREE_RAD if bounce is None else bounce.half_width,
        cg_from_ground_m=float(club.cg_from_ground_m),
        cg_off_axis_m=float(club.cg_off_axis_m),
        sole_camber_m=float(club.sole_camber_m),
        sole_contact_m=float(club.sole_contact_m),
    )
    return plan_bends(request)


def bend_advice(club_state: ClubState) -> Action | None:
    """Return the bends as one action; a plan that the metal does not bear bends nothing and says what to do instead."""
    plan = bend_plan_of(club_state)
    if plan is None:
        return None
    finished = _finished(club_state, plan)
    chance = math.prod(_chance(club_state, key, *finished[key]) for key in ANGLES if key in finished)
    length, points = _changes(club_state, plan)
    data = Bends(
        bends=tuple((bend.angle, bend.amount_rad) for bend in plan.bends),
        refused=tuple(finding for finding in plan.findings if finding.severity == "error"),
        angles=tuple(key for key in ANGLES if key in finished),
        length_change_m=length,
        points_change=points,
    )
    return Action(kind="bend", data=data, chance=chance, finished=finished, irreversible=bool(plan.bends))


def _angles(values: dict[str, float]) -> Angles:
    return Angles(loft_rad=values.get("loft"), lie_rad=values.get("lie"), bounce_rad=values.get("bounce"))


def _finished(club_state: ClubState, plan: BendPlan) -> dict[str, tuple[float, float]]:
    """What the club would read: the angles, and what a lie bend does to length and swing weight."""
    bent = {bend.angle for bend in plan.bends}
    result = {"loft": plan.result.loft_rad, "lie": plan.result.lie_rad, "bounce": plan.result.bounce_rad}
    found: dict[str, tuple[float, float]] = {}
    for key, value in result.items():
        if value is not None:
            sd = club_state.belief.sd_of(f"head.{key}_rad")
            touched = key in bent or (key == "bounce" and "loft" in bent)
            found[key] = (value, math.hypot(sd, BEND_SD_RAD) if touched else sd)
    prediction = club_state.predict(["length", "swing_weight"])
    spread = prediction.sd()[0]
    length_change, points_change = _changes(club_state, plan)
    found["length"] = (float(prediction.mean[0, 0]) + length_change, float(spread[0]))
    found["swing_weight"] = (float(prediction.mean[0, 1]) + points_change, float(spread[1]))
    return found


def _changes(club_state: ClubState, plan: BendPlan) -> tuple[float, float]:
    """Return what the bends do to length (m) and to swing weight (points) of a shaft that is not cut again."""
    on_plane = club_state.prior.conventions.length_method == "60 degree plane"
    length = plan.plane_length_change_m if on_plane else plan.axis_length_change_m
    scale = club_state.prior.conventions.scale
    moved = plan.cg_from_cap_change_m or 0.0
    moment = float(club_state.club.head.mass_kg) * moved
    points = float(points_from_moment(scale.zero_kg_m + moment, scale))
    return length, points


def _chance(club_state: ClubState, key: str, mean: float, sd: float) -> float:
    goal = club_state.goal(key)
    return 1.0 if goal is None else goal.chance(mean, sd)
