"""Mass, balance and inertia of a shaft after it is trimmed.

Two descriptions are served. A clubmaker knows the raw mass, the raw balance point and what an inch of offcut weighs: the
offcuts are taken at those mean densities and what remains as the one straight-line density that has the remaining mass
and balance. A measured or made profile is a chain of pieces of linearly varying density, integrated exactly. Derivation:
docs/theory/shaft.md; checked in tests/published/test_published_shaft.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from clubwright.club.parts import Shaft
from clubwright.errors import NotPossible
from clubwright.units import Number


class ShaftMass(NamedTuple):
    """A shaft as it stands: mass, centre of gravity from its tip end, and inertia about that centre, across the axis."""

    mass_kg: Number
    cg_from_tip_m: Number
    own_inertia_kg_m2: Number


class DensityPiece(NamedTuple):
    """A stretch of shaft whose mass per length runs straight from one value to another; ends in m from the raw tip."""

    start_m: float
    end_m: float
    start_density_kg_m: float
    end_density_kg_m: float


def trimmed(shaft: Shaft) -> ShaftMass:
    """Return mass, balance and inertia of a shaft after its tip trim and butt cut.

    The butt cut is what raw length, tip trim and cut length leave. Works element by element.
    """
    butt_cut = shaft.raw_length_m - shaft.tip_trim_m - shaft.length_m
    tip_off = shaft.tip_density_kg_m * shaft.tip_trim_m
    butt_off = shaft.butt_density_kg_m * butt_cut
    mass = shaft.mass_kg - tip_off - butt_off
    moment = (
        shaft.mass_kg * shaft.balance_from_tip_m
        - tip_off * shaft.tip_trim_m / 2
        - butt_off * (shaft.raw_length_m - butt_cut / 2)
    )
    cg = moment / mass - shaft.tip_trim_m
    return ShaftMass(mass, cg, straight_line_inertia(mass, cg, shaft.length_m))


def straight_line_inertia(mass_kg: Number, cg_m: Number, length_m: Number) -> Number:
    """Inertia about the centre of gravity of a rod whose density varies straight along it.

    With u = s/L and density (m/L)(1 + k(2u - 1)), the balance fixes k = 6(cg/L - 1/2) and the second moment about the
    end is m L^2 (1/3 + k/6). A uniform rod gives m L^2 / 12.
    """
    skew = 6 * (cg_m / length_m - 0.5)
    return mass_kg * length_m * length_m * (1 / 3 + skew / 6) - mass_kg * cg_m * cg_m


def straight_line_densities(mass_kg: float, cg_m: float, length_m: float) -> tuple[float, float]:
    """Return tip and butt density (kg/m) of the straight-line density with this mass and balance."""
    skew = 6 * (cg_m / length_m - 0.5)
    mean = mass_kg / length_m
    return mean * (1 - skew), mean * (1 + skew)


def profile_mass(pieces: Sequence[DensityPiece], from_m: float, to_m: float) -> ShaftMass:
    """Integrate a density profile between two cuts, exactly; the centre of gravity is from the lower cut.

    Args:
        pieces: The profile in order from the tip, without gaps.
        from_m: Lower cut, from the raw tip.
        to_m: Upper cut, from the raw tip.

    Raises:
        NotPossible: when a cut lies outside the profile.
    """
    if not pieces or from_m < pieces[0].start_m or to_m > pieces[-1].end_m or from_m >= to_m:
        raise NotPossible(
            f"the cuts at {from_m:.4f} m and {to_m:.4f} m from the tip do not lie on this shaft",
            "Give cuts within the profile, lower one first.",
        )
    mass = moment = second = 0.0
    for piece in pieces:
        low, high = max(piece.start_m, from_m), min(piece.end_m, to_m)
        if high <= low:
            continue
        slope = (piece.end_density_kg_m - piece.start_density_kg_m) / (piece.end_m - piece.start_m)
        at_low = piece.start_density_kg_m + slope * (low - piece.start_m)
        at_high = piece.start_density_kg_m + slope * (high - piece.start_m)
        middle, at_middle = (low + high) / 2, (at_low + at_high) / 2
        sixth = (high - low) / 6
        # Simpson's rule is exact up to cubics, and density times distance squared is one.
        mass += sixth * (at_low + 4 * at_middle + at_high)
        moment += sixth * (at_low * low + 4 * at_middle * middle + at_high * high)
        second += sixth * (at_low * low**2 + 4 * at_middle * middle**2 + at_high * high**2)
    cg = moment / mass
    return ShaftMass(mass, cg - from_m, second - mass * cg**2)
