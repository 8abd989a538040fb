"""The glued joint's static strength beside the pull of the swing: a sanity figure, never permission to play.

Joints fail from cleaning, mixing, cure, voids, heat and fatigue, and none of these is in the arithmetic here.
Derivation and sources: docs/theory/adhesive.md; checked in tests/published/test_published_adhesive.py.
"""

from __future__ import annotations

from math import pi

import msgspec

from clubwright.planning.number_checks import positive, refuse
from clubwright.planning.said.phrases import Phrase, phrase

DEGREASED_STEEL_STRENGTH_PA = 13e6
"""Lower bound of epoxy to degreased steel in shear, cures of 20 to 80 C: The Structural Engineer 58(1), 1980, abstract."""

ONLY_SANITY = phrase("joint.meaning")


def bond_area_m2(diameter_m: float, depth_m: float) -> float:
    """Return the cylinder of a bond, ``pi d l``, in m2."""
    return pi * diameter_m * depth_m


def bond_line_volume_m3(mean_diameter_m: float, gap_m: float, depth_m: float) -> float:
    """Return the volume of the ring of adhesive, ``pi d g l``, for a radial gap `gap_m`."""
    return bond_area_m2(mean_diameter_m, depth_m) * gap_m


def axial_capacity_n(diameter_m: float, depth_m: float, strength_pa: float = DEGREASED_STEEL_STRENGTH_PA) -> float:
    """Return the pull at which the mean shear stress meets the strength, ``tau pi d l``."""
    return strength_pa * bond_area_m2(diameter_m, depth_m)


def torsional_capacity_n_m(
    diameter_m: float, depth_m: float, strength_pa: float = DEGREASED_STEEL_STRENGTH_PA
) -> float:
    """Return the torque at which the shear stress at the wall meets the strength, ``tau pi d l d / 2``."""
    return axial_capacity_n(diameter_m, depth_m, strength_pa) * diameter_m / 2


def swing_load_n(head_mass_kg: float, head_speed_m_s: float, radius_m: float) -> float:
    """Return the pull of the head on its joint in the swing, ``m v^2 / r``."""
    return head_mass_kg * head_speed_m_s**2 / radius_m


class JointSanity(msgspec.Struct, frozen=True, kw_only=True):
    """Strength and load of one joint side by side.

    Attributes:
        area_m2: Bond area.
        axial_capacity_n: Pull at the assumed strength.
        torsional_capacity_n_m: Torque at the assumed strength.
        swing_load_n: Pull of the head.
        stress_pa: Mean shear stress under that pull.
        reserve: Capacity over load.
        meaning: How little this says.
    """

    area_m2: float
    axial_capacity_n: float
    torsional_capacity_n_m: float
    swing_load_n: float
    stress_pa: float
    reserve: float
    meaning: Phrase = ONLY_SANITY


def joint_sanity(
    *,
    diameter_m: float,
    depth_m: float,
    head_mass_kg: float,
    head_speed_m_s: float,
    radius_m: float,
    strength_pa: float = DEGREASED_STEEL_STRENGTH_PA,
) -> JointSanity:
    """Put the joint's static strength beside the swing's pull.

    Args:
        diameter_m: Diameter of the shaft's tip in the bore.
        depth_m: Length of the glued cylinder.
        head_mass_kg: Mass of the head.
        head_speed_m_s: Speed of the head at the bottom of the swing.
        radius_m: Radius of the head's path there.
        strength_pa: Shear strength of the bond.

    Raises:
        InputError: A number is not above zero.
    """
    given = {
        "bond diameter": diameter_m,
        "bond depth": depth_m,
        "mass of the head": head_mass_kg,
        "speed of the head": head_speed_m_s,
        "radius of the swing": radius_m,
        "shear strength": strength_pa,
    }
    refuse(finding for name, value in given.items() for finding in positive(name, value, "Measure it, or look it up."))
    area_m2 = bond_area_m2(diameter_m, depth_m)
    load_n = swing_load_n(head_mass_kg, head_speed_m_s, radius_m)
    capacity_n = axial_capacity_n(diameter_m, depth_m, strength_pa)
    return JointSanity(
        area_m2=area_m2,
        axial_capacity_n=capacity_n,
        torsional_capacity_n_m=torsional_capacity_n_m(diameter_m, depth_m, strength_pa),
        swing_load_n=load_n,
        stress_pa=load_n / area_m2,
        reserve=capacity_n / load_n,
    )
