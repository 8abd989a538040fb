"""Layers of tape under a grip for a wanted diameter at 2 in and at 6 in below the cap.

Full-length layers count at both places, lower-hand layers at 6 in only. Both models of the rubber are shown side by side,
with the shop's calibration between them: two published rules differ by half, so no rule is taken for the truth.
Derivation and sources: docs/theory/grip-size.md; checked in tests/published/test_published_grip_size.py.
"""

from __future__ import annotations

from itertools import product

import msgspec

from clubwright.club.grip_size import under_diameter_m
from clubwright.errors import Finding
from clubwright.planning.grip.forecast import GripPlace, PlaceForecast, TapeOnGrip, forecast
from clubwright.planning.number_checks import not_negative, positive, refuse

MOST_LAYERS = 12
"""More layers than this under one hand are not looked at: a bench limit of ours, no source."""
UNCALIBRATED_BLEND = 0.5
"""Midway between the models, until the shop has measured finished grips of its own."""


class BuildUpPlan(msgspec.Struct, frozen=True, kw_only=True):
    """The layers to lay and what they give.

    Attributes:
        full_layers: Layers over the whole length of the grip.
        lower_hand_layers: Further layers under the lower hand only.
        at_2in: Forecast 2 in below the cap.
        at_6in: Forecast 6 in below the cap; None when nothing is known there.
        calibrated: The shop's own blend was used.
        findings: What to know before the grip goes on.
    """

    full_layers: int
    lower_hand_layers: int
    at_2in: PlaceForecast
    at_6in: PlaceForecast | None
    calibrated: bool
    findings: tuple[Finding, ...]


def plan_build_up(
    at_2in: GripPlace,
    at_6in: GripPlace | None = None,
    *,
    layer_m: float,
    base_m: float = 0.0,
    blend: float | None = None,
    blend_sd: float = 0.0,
    stretch: float = 0.0,
    most_layers: int = MOST_LAYERS,
) -> BuildUpPlan:
    """Choose the layers that come closest to the targets, each miss measured in its own tolerance.

    Of two plans equally close, the one with fewer layers is taken.

    Args:
        at_2in: The grip 2 in below the cap.
        at_6in: The grip 6 in below the cap.
        layer_m: Measured thickness of one layer of build-up tape as it lies on the shaft.
        base_m: Thickness of the double-sided base tape; 0 when the nominal size was measured over one.
        blend: The shop's calibrated ``build_up_blend``; None while there is none.
        blend_sd: Its standard deviation.
        stretch: Share by which the grip is pulled longer than its free length.
        most_layers: Most layers under either hand.

    Raises:
        InputError: A diameter, a thickness or a tolerance cannot be one, or no target is given.
    """
    places = {"2 in": at_2in} if at_6in is None else {"2 in": at_2in, "6 in": at_6in}
    _check(places, layer_m, base_m, blend_sd, stretch)
    tape = TapeOnGrip(
        layer_m=layer_m,
        base_m=base_m,
        blend=UNCALIBRATED_BLEND if blend is None else blend,
        low_blend=0.0 if blend is None else blend - 2 * blend_sd,
        high_blend=1.0 if blend is None else blend + 2 * blend_sd,
        stretch=stretch,
    )
    full, lower = _choose(at_2in, at_6in, tape, most_layers)
    forecast_2in = forecast(at_2in, tape, full)
    forecast_6in = None if at_6in is None else forecast(at_6in, tape, full + lower)
    layers_at = {"2 in": full, "6 in": full + lower}
    forecasts = {"2 in": forecast_2in} if forecast_6in is None else {"2 in": forecast_2in, "6 in": forecast_6in}
    findings: list[Finding] = []
    for name, place in places.items():
        findings += _about_place(name, place, forecasts[name], tape, layers_at[name])
    findings += _about_shape(forecast_2in, forecast_6in, lower)
    return BuildUpPlan(
        full_layers=full,
        lower_hand_layers=lower,
        at_2in=forecast_2in,
        at_6in=forecast_6in,
        calibrated=blend is not None,
        findings=tuple(findings),
    )


def _choose(at_2in: GripPlace, at_6in: GripPlace | None, tape: TapeOnGrip, most_layers: int) -> tuple[int, int]:
    lower_possible = range(most_layers + 1) if at_6in is not None and at_6in.target_m is not None else range(1)
    plans = [plan for plan in product(range(most_layers + 1), lower_possible) if sum(plan) <= most_layers]

    def miss(place: GripPlace | None, layers: int) -> float:
        if place is None or place.target_m is None:
            return 0.0
        return ((tape.diameter_m(place, layers, tape.blend) - place.target_m) / place.tolerance_m) ** 2

    def cost(plan: tuple[int, int]) -> tuple[float, int]:
        full, lower = plan
        return round(miss(at_2in, full) + miss(at_6in, full + lower), 9), full + lower

    return min(plans, key=cost)


def _about_place(name: str, place: GripPlace, forecast: PlaceForecast, tape: TapeOnGrip, layers: int) -> list[Finding]:
    where = f"grip at {name}"
    found: list[Finding] = []
    if forecast.reach == "outside" and place.target_m is not None:
        thick = forecast.diameter_m > place.target_m
        mend = "Take a larger core or a thinner grip." if thick else "Take a smaller core or a thicker grip."
        miss_mm = abs(forecast.diameter_m - place.target_m) * 1e3
        what = f"the target is out of reach by {miss_mm:.2f} mm, too {'thick' if thick else 'thin'}"
        found.append(Finding(where=where, what=what, mend=mend))
    if forecast.reach == "cannot tell":
        band = f"{forecast.low_m * 1e3:.2f} to {forecast.high_m * 1e3:.2f} mm"
        what = f"the forecast, {band}, crosses the edge of the tolerance"
        mend = "Grip one club, measure it after it has dried, and enter the reading: it sets the shop's blend."
        found.append(Finding(where=where, what=what, mend=mend, severity="warning"))
    gap_m = place.core_m - float(under_diameter_m(place.butt_m, tape.thickness_m(layers)).real)
    if gap_m > tape.layer_m:
        what = f"the core is {gap_m * 1e3:.2f} mm larger than the taped butt, so the grip may sit loose and twist"
        found.append(Finding(where=where, what=what, mend="Add tape, or take a smaller core.", severity="warning"))
    return found


def _about_shape(at_2in: PlaceForecast, at_6in: PlaceForecast | None, lower: int) -> list[Finding]:
    found: list[Finding] = []
    if at_6in is not None and at_6in.diameter_m > at_2in.diameter_m:
        found.append(
            Finding(
                where="grip shape",
                what="thicker at 6 in than at 2 in: a grip may taper but may not bulge or have a waist "
                "(Equipment Rules, Part 2, section 3)",
                mend="Take layers off the lower hand, or ask for a smaller target at 6 in.",
            )
        )
    if lower:
        found.append(
            Finding(
                where="grip shape",
                what="lower-hand layers end under the grip and can show as a step",
                mend="Stagger their ends by about 1/4 in, and feel for a waist or a bulge when the grip has dried.",
                severity="note",
            )
        )
    return found


def _check(places: dict[str, GripPlace], layer_m: float, base_m: float, blend_sd: float, stretch: float) -> None:
    caliper = "Measure it with the caliper."
    findings = positive("thickness of one layer", layer_m, "Measure ten layers and divide by ten.")
    findings += not_negative("thickness of the base tape", base_m, caliper)
    findings += not_negative("standard deviation of the blend", blend_sd, "Take it from the calibration.")
    findings += positive("1 + stretch of the grip", 1 + stretch, "Give the share by which the grip is pulled longer.")
    for name, place in places.items():
        where = f"grip at {name}"
        for what, value in (("core", place.core_m), ("butt", place.butt_m), ("tolerance", place.tolerance_m)):
            findings += positive(f"{where}, {what}", value, caliper)
        findings += positive(f"{where}, wall (nominal size less core)", place.nominal_m - place.core_m, caliper)
        if place.target_m is not None:
            findings += positive(f"{where}, target", place.target_m, "Give the wanted outside diameter.")
    if all(place.target_m is None for place in places.values()):
        what = "no target at 2 in or at 6 in"
        findings.append(Finding(where="grip build-up", what=what, mend="Give the wanted outside diameter."))
    refuse(findings)
