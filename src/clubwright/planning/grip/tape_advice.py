"""Layers of tape as advice: which build-up brings the grip to its ordered diameters."""

from __future__ import annotations

import math

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.planning.club_state import ClubState
from clubwright.planning.grip.build_up import BuildUpPlan, plan_build_up
from clubwright.planning.grip.forecast import GripPlace, PlaceForecast
from clubwright.planning.said.actions import Action, Tape, TapeForecast
from clubwright.state.particulars import in_si, whole_number

LAYER = "0.005 in"
"""One layer of build-up tape, when the ticket gives no thickness: a published grip-sizing note."""


def build_up_of(club_state: ClubState) -> BuildUpPlan | None:
    """Plan the layers for the ordered diameters; None when none is ordered or the parts are not measured."""
    at_2in = _place(club_state, "grip_diameter_2in")
    at_6in = _place(club_state, "grip_diameter_6in")
    if at_2in is None or (at_2in.target_m is None and (at_6in is None or at_6in.target_m is None)):
        return None
    blend = in_si(club_state.ticket.club.grip.build_up_blend)
    try:
        return plan_build_up(
            at_2in,
            at_6in,
            layer_m=layer_thickness_m(club_state),
            blend=blend,
            blend_sd=club_state.belief.sd_of("grip.build_up_blend") if blend is not None else 0.0,
        )
    except InputError:
        return None


def layer_thickness_m(club_state: ClubState) -> float:
    """Return the thickness of one layer of the ticket's build-up tape, else the published one."""
    for row in club_state.ticket.tapes:
        thickness = in_si(row.thickness)
        if thickness is not None:
            return thickness
    return parse("length", LAYER, where="defaults").value


def tape_advice(club_state: ClubState) -> Action | None:
    """Return the build-up as one action, which is to leave the tape where it already is that build-up."""
    plan = build_up_of(club_state)
    if plan is None:
        return None
    laid, laid_lower = _laid(club_state, lower=False), _laid(club_state, lower=True)
    found: dict[str, tuple[float, float]] = {}
    chance = 1.0
    forecasts = []
    for key, forecast in (("grip_diameter_2in", plan.at_2in), ("grip_diameter_6in", plan.at_6in)):
        goal = club_state.goal(key)
        if forecast is None or goal is None:
            continue
        sd = _spread(club_state, key, forecast)
        found[key] = (forecast.diameter_m, sd)
        chance *= goal.chance(forecast.diameter_m, sd)
        forecasts.append(
            TapeForecast(
                diameter_m=forecast.diameter_m,
                additive_m=forecast.additive_m,
                constant_volume_m=forecast.constant_volume_m,
            )
        )
    data = Tape(
        full_layers=plan.full_layers,
        lower_hand_layers=plan.lower_hand_layers,
        is_laid=(laid, laid_lower) == (plan.full_layers, plan.lower_hand_layers),
        forecasts=tuple(forecasts),
    )
    return Action(kind="tape", data=data, chance=chance, finished=found)


def _laid(club_state: ClubState, *, lower: bool) -> int:
    """Count the layers of build-up tape on the ticket: under the lower hand only, or the others."""
    return sum(
        whole_number(row.layers, 1)
        for row in club_state.ticket.tapes
        if row.thickness is not None and (row.covers == "lower") is lower
    )


def _place(club_state: ClubState, key: str) -> GripPlace | None:
    if not club_state.can_predict(key):
        return None
    at_2in = key == "grip_diameter_2in"
    grip, shaft, goal = club_state.club.grip, club_state.club.shaft, club_state.goal(key)
    core = grip.core_m if at_2in else grip.core_m - grip.core_taper_m
    nominal = grip.nominal_2in_m if at_2in else grip.nominal_6in_m
    butt = shaft.butt_diameter_m if at_2in else shaft.lower_diameter_m
    return GripPlace(
        core_m=float(core),
        nominal_m=float(nominal),
        butt_m=float(butt),
        target_m=None if goal is None else goal.target,
        tolerance_m=0.0002 if goal is None else goal.half_width,
    )


def _spread(club_state: ClubState, key: str, forecast: PlaceForecast) -> float:
    """Uncertainty of the forecast: that of the parts and the blend, as the belief has it at the present tape."""
    believed = float(club_state.predict([key]).sd()[0, 0])
    between_models = (forecast.high_m - forecast.low_m) / 4
    return math.hypot(believed, between_models)
