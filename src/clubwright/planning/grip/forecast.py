"""What a grip comes out at over so many layers of tape, by both models of its rubber and by the shop's blend of them.

Derivation and sources: docs/theory/grip-size.md; checked in tests/published/test_published_grip_size.py.
"""

from __future__ import annotations

from typing import Literal

import msgspec
import numpy as np

from clubwright.club.grip_size import outside_diameter_m, under_diameter_for_m, under_diameter_m

Reach = Literal["within", "outside", "cannot tell"]


class GripPlace(msgspec.Struct, frozen=True, kw_only=True):
    """One place where the grip is measured.

    Attributes:
        core_m: Inside diameter the grip is made for here.
        nominal_m: Outside diameter here on a butt that equals the core.
        butt_m: Diameter of the bare shaft here, by caliper: butts taper.
        target_m: Wanted outside diameter; None when nothing is asked here.
        tolerance_m: Half-width about the target.
    """

    core_m: float
    nominal_m: float
    butt_m: float
    target_m: float | None = None
    tolerance_m: float = 0.0002


class PlaceForecast(msgspec.Struct, frozen=True, kw_only=True):
    """What one place of the grip comes out at.

    Attributes:
        diameter_m: By the blend in use.
        additive_m: By the additive model.
        constant_volume_m: By the constant-volume model.
        low_m: Lower end of the band: the two models, or two standard deviations of the calibrated blend.
        high_m: Upper end of the band.
        layers_wanted: Layers, in fractions, that would meet the target by the blend; None without a target or a way.
        layers_wanted_additive: The same by the additive model.
        layers_wanted_constant_volume: The same by the constant-volume model.
        reach: Whether the band lies within the tolerance, outside it, or across its edge. None without a target.
    """

    diameter_m: float
    additive_m: float
    constant_volume_m: float
    low_m: float
    high_m: float
    layers_wanted: float | None
    layers_wanted_additive: float | None
    layers_wanted_constant_volume: float | None
    reach: Reach | None


class TapeOnGrip(msgspec.Struct, frozen=True, kw_only=True):
    """The tape in use and how this shop's grips answer to it.

    Attributes:
        layer_m: Thickness of one layer of build-up tape.
        base_m: Thickness of the base tape under or over it.
        blend: 0 for constant volume, 1 for additive.
        low_blend: Lower end of the blend's band.
        high_blend: Upper end of the blend's band.
        stretch: Share by which the grip is pulled longer.
    """

    layer_m: float
    base_m: float
    blend: float
    low_blend: float
    high_blend: float
    stretch: float

    def thickness_m(self, layers: int) -> float:
        """Return all tape under the grip, one side."""
        return self.base_m + layers * self.layer_m

    def diameter_m(self, place: GripPlace, layers: int, blend: float) -> float:
        """Return the finished outside diameter at one place."""
        thickness_m = self.thickness_m(layers)
        return float(
            outside_diameter_m(place.core_m, place.nominal_m, place.butt_m, thickness_m, blend, self.stretch).real
        )

    def layers_wanted(self, place: GripPlace, blend: float) -> float | None:
        """Return the layers, in fractions, that meet the target; None when none is asked or none can."""
        if place.target_m is None:
            return None
        with np.errstate(invalid="ignore"):  # a target thinner than the rubber alone gives NaN, and None below
            under_m = under_diameter_for_m(place.target_m, place.core_m, place.nominal_m, blend, self.stretch)
        layers = (float(under_m.real) - under_diameter_m(place.butt_m, self.base_m)) / (2 * self.layer_m)
        return float(layers) if layers >= 0 else None


def forecast(place: GripPlace, tape: TapeOnGrip, layers: int) -> PlaceForecast:
    """Return what one place of the grip comes out at over so many layers."""
    band = [tape.diameter_m(place, layers, blend) for blend in (tape.blend, tape.low_blend, tape.high_blend)]
    low_m, high_m = min(band), max(band)
    reach: Reach | None = None
    if place.target_m is not None:
        below_m, above_m = place.target_m - place.tolerance_m, place.target_m + place.tolerance_m
        if below_m <= low_m and high_m <= above_m:
            reach = "within"
        else:
            reach = "outside" if high_m < below_m or low_m > above_m else "cannot tell"
    return PlaceForecast(
        diameter_m=band[0],
        additive_m=tape.diameter_m(place, layers, 1.0),
        constant_volume_m=tape.diameter_m(place, layers, 0.0),
        low_m=low_m,
        high_m=high_m,
        layers_wanted=tape.layers_wanted(place, tape.blend),
        layers_wanted_additive=tape.layers_wanted(place, 1.0),
        layers_wanted_constant_volume=tape.layers_wanted(place, 0.0),
        reach=reach,
    )
