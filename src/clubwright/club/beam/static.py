"""Static tests of a clamped shaft as the trade does them: how far its tip goes down under a load, and how far it twists.

A cantilever is statically determinate, so both are plain integrals along the shaft, exact at every step of it. Derivation
and sources of the two tests: docs/theory/frequency.md; checked in tests/published/test_published_beam.py and
tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from itertools import pairwise
from math import log
from typing import NamedTuple

from clubwright.club.beam.mesh import PLACES, WEIGHTS, cell_ends
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import NotPossible
from clubwright.units import INCH_M, POUND_EXACT_KG, STANDARD_GRAVITY_M_S2

POUND_FORCE_N = float(POUND_EXACT_KG) * STANDARD_GRAVITY_M_S2
FLEX_LOAD_N = 6.5 * POUND_FORCE_N
"""Load of the flex test, 6.5 lbf at the tip with the butt in a vise: US patent 5,971,865, background."""
TWIST_TORQUE_N_M = POUND_FORCE_N * 12 * INCH_M
"""Torque of the twist test, 1 ft lbf with the butt clamped: US patent 5,971,865, background."""


class Deflection(NamedTuple):
    """What a load does: how far the place of the load goes, and the slope there."""

    down_m: float
    slope_rad: float


def tip_deflection(
    profile: StiffnessProfile,
    load_at_m: float,
    clamp_m: float,
    load_n: float = FLEX_LOAD_N,
    stiffness_factor: float = 1.0,
    compliance_rad_n_m: float = 0.0,
) -> Deflection:
    """Return the deflection where the load hangs; with x from it, ``P int x^2 / EI``, and the slope ``P int x / EI``.

    Args:
        profile: Stiffness along the raw shaft.
        load_at_m: Place of the load from the raw tip.
        clamp_m: Where the clamp begins, from the raw tip.
        load_n: The load.
        stiffness_factor: On the bending stiffness of the profile.
        compliance_rad_n_m: Give of the clamp.

    Raises:
        NotPossible: when the two places do not lie on the shaft, load nearer to the tip.
    """
    down = slope = 0.0
    for x, along, ei, _ in _points(profile, load_at_m, clamp_m):
        down += along * x * x / ei
        slope += along * x / ei
    arm = clamp_m - load_at_m
    given = load_n * arm * compliance_rad_n_m
    return Deflection(load_n * down / stiffness_factor + given * arm, load_n * slope / stiffness_factor + given)


def twist_rad(profile: StiffnessProfile, from_m: float, to_m: float, torque_n_m: float = TWIST_TORQUE_N_M) -> float:
    """Return the twist between two places under a torque, ``T int 1 / GJ``, in rad.

    Raises:
        NotPossible: when the torsional stiffness is not known, or the places do not lie on the shaft.
    """
    if not profile.has_gj:
        raise NotPossible(
            "the torsional stiffness of this shaft is not known",
            "Measure its twist under a torque, or give the geometry of its tube.",
        )
    return torque_n_m * sum(along / gj for _, along, _, gj in _points(profile, from_m, to_m))


def _points(profile: StiffnessProfile, from_m: float, to_m: float) -> list[tuple[float, float, float, float]]:
    """List the Gauss points between two places: distance from the first, weight, EI and GJ."""
    found = []
    for piece in profile.cut(from_m, to_m).pieces:
        growth = log(piece.end_ei_n_m2 / piece.start_ei_n_m2)
        if piece.start_gj_n_m2 > 0 and piece.end_gj_n_m2 > 0:
            growth = max(growth, log(piece.end_gj_n_m2 / piece.start_gj_n_m2), key=abs)
        ends = cell_ends(piece.end_m - piece.start_m, growth)
        for low, high in pairwise([0.0, *ends]):
            span = high - low
            for t, weight in zip(PLACES, WEIGHTS, strict=True):
                x = piece.start_m + low + float(t) * span
                ei, gj, _ = piece.at(x)
                found.append((x, float(weight) * span, ei, gj))
    return found
