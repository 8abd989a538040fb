"""Swing weight: the first moment of the club about a fulcrum 14 in from the butt stop, on the 14-inch scale.

Also the older scale with its fulcrum at 12 in, read in inch-ounces, and any other fulcrum. The two scales are tied by
t12 = t14 + 2 W, so no chart turns one into the other without the total weight. Fulcrum distances: US 1,953,916 and a
published description of both scales. Derivation: docs/theory/swing-weight.md; checked in
tests/published/test_published_swing_weight.py.
"""

from __future__ import annotations

import msgspec

from clubwright.club.build import Build, SwingWeightScale
from clubwright.club.shaft import trimmed
from clubwright.club.statics import statics
from clubwright.units import INCH_M, OUNCE_INCH_KG_M, Number

OLDER_FULCRUM_M = 12 * INCH_M


def moment_about_kg_m(build: Build, fulcrum_m: float) -> Number:
    """Return the first moment of mass about a fulcrum that far from the butt stop, positive towards the head, in kg m."""
    sums = statics(build)
    return sums.first_kg_m - sums.mass_kg * fulcrum_m


def swing_weight_points(build: Build) -> Number:
    """Return the swing weight in points above A0, by the point definition in ``build.conventions.scale``."""
    scale = build.conventions.scale
    return (moment_about_kg_m(build, scale.fulcrum_m) - scale.zero_kg_m) / scale.point_kg_m


def swing_weight_12in_oz(build: Build) -> Number:
    """Return the reading of the older 12-inch scale, in inch-ounces."""
    return moment_about_kg_m(build, OLDER_FULCRUM_M) / OUNCE_INCH_KG_M


def points_from_moment(moment_kg_m: Number, scale: SwingWeightScale) -> Number:
    """Turn a first moment about the scale's fulcrum into points above A0."""
    return (moment_kg_m - scale.zero_kg_m) / scale.point_kg_m


class Sensitivity(msgspec.Struct, frozen=True, kw_only=True):
    """What one change does to this club, beside what the rule of the trade says it does.

    Attributes:
        key: What is changed: ``head``, ``grip``, ``length`` or ``shaft``.
        change: The same in words.
        exact: The exact figure for this club.
        unit: Its unit.
        rule: The figure of the trade's rule; shown, never used.
        source: Where the rule was read.
    """

    key: str
    change: str
    exact: float
    unit: str
    rule: float
    source: str


_RULES = "two trade lists of swing-weight factors"


def sensitivities(build: Build) -> list[Sensitivity]:
    """Set the exact sensitivities of a gripped build beside the trade's rules of thumb.

    The length row adds half an inch of shaft at the butt end, at the butt's density; the shaft row adds mass at the cut
    shaft's balance point.
    """
    scale, club = build.conventions.scale, build.club
    point, fulcrum = scale.point_kg_m, scale.fulcrum_m
    head_lever = build.stop_m - club.head.cg_from_ground_m - fulcrum
    grip_lever = fulcrum - club.grip.cg_from_cap_m
    longer = msgspec.structs.replace(club.shaft, length_m=club.shaft.length_m + 0.5 * INCH_M)
    longer_build = msgspec.structs.replace(build, club=msgspec.structs.replace(club, shaft=longer))
    by_length = swing_weight_points(longer_build) - swing_weight_points(build)
    shaft_lever = build.stop_m - (build.tip_m + trimmed(club.shaft).cg_from_tip_m) - fulcrum
    rows = [
        ("head", "head weight for one point", point / head_lever * 1e3, "g", 2.0),
        ("grip", "grip weight for one point less", point / grip_lever * 1e3, "g", 5.0),
        ("length", "points for 1/2 in of length", by_length, "points", 3.0),
        ("shaft", "shaft weight for one point", point / shaft_lever * 1e3, "g", 9.0),
    ]
    return [Sensitivity(key=k, change=c, exact=float(e.real), unit=u, rule=r, source=_RULES) for k, c, e, u, r in rows]
