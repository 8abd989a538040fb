"""Frequency of a clamped club at any stage: what a frequency meter reads.

The club swings in the plane of its shaft and its head's centre of gravity (toe up and toe down), where bending does not
twist the shaft, so that one number of the shaft, its bending stiffness, decides. Both planes: `clubwright.club.planes`.
Element by element on floats, arrays and complex-step arrays. Derivation and sources: docs/theory/frequency.md; checked in
tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from math import pi
from typing import Any

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.first_mode import Clamp, Rows, first_squares
from clubwright.club.beam.mesh import mesh_of, moments_to
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.build import Build
from clubwright.club.frequency_parts import beam_parts
from clubwright.club.parts import Shaft
from clubwright.club.shaft import trimmed
from clubwright.errors import NotPossible
from clubwright.units import INCH_M, Number

Values = NDArray[Any]

SHORTEST_FREE_M = 0.25
"""A free length below this is no club in a frequency meter."""
BEYOND_PROFILE_M = 0.010
"""So far beyond the ends of its profile a shaft may be cut: the last line runs on."""

MEND = "Give the shaft's stiffness along its length: a table of EI, the geometry of its tube, or a few measured frequencies."


def needs_stiffness(shaft: Shaft) -> str | None:
    """Say what is missing for a frequency, None when nothing is."""
    if shaft.stiffness is None:
        return "needs the shaft's stiffness along its length"
    return None


def stiffness_of(shaft: Shaft) -> StiffnessProfile:
    """Return the stiffness profile of a shaft.

    Raises:
        NotPossible: when there is none.
    """
    if shaft.stiffness is None:
        raise NotPossible("frequency needs the stiffness of the shaft, and nothing is known of it", MEND)
    return shaft.stiffness


def frequency_hz(build: Build) -> Number:
    """Return the frequency of the first mode of a build in the meter of its conventions, in Hz.

    On a bare shaft, with the meter's test mass on the tip.

    Raises:
        NotPossible: without a stiffness profile, when the shaft is not cut from within it, or when the clamp leaves too
            little free.
    """
    profile = stiffness_of(build.club.shaft)
    meter = build.conventions.meter
    shape, rows = rows_of(build)
    clamp = Clamp(meter.clamp_compliance_rad_n_m, meter.head_down * build.conventions.gravity_m_s2)
    return _shaped(np.sqrt(first_squares(profile, rows, clamp)) / (2 * pi), shape)


def frequency_with_test_mass_hz(
    shaft: Shaft, clamp_length_m: Number, mass_kg: Number, insertion_m: Number = 0.0, clamp: Clamp | None = None
) -> Number:
    """Return the frequency of a shaft, clamped at its butt, with a test mass on its tip, in Hz.

    Args:
        shaft: As it is cut now.
        clamp_length_m: What the clamp holds of it.
        mass_kg: The test mass; 0 for none.
        insertion_m: How far the tip sits in it, rigidly; its centre is taken half-way.
        clamp: Give of the clamp and gravity along it; None for a rigid clamp on a shaft lying level.

    Raises:
        NotPossible: as `frequency_hz`.
    """
    profile = stiffness_of(shaft)
    free = shaft.tip_trim_m + insertion_m
    clamped = shaft.tip_trim_m + shaft.length_m - clamp_length_m
    body = (mass_kg, mass_kg * insertion_m / 2, mass_kg * insertion_m * insertion_m / 4)
    shape, rows = _rows(profile, shaft, free, clamped, body, [])
    return _shaped(np.sqrt(first_squares(profile, rows, clamp or Clamp())) / (2 * pi), shape)


def rows_of(build: Build) -> tuple[tuple[int, ...], Rows]:
    """Return the beams of a build, one row for each element of its arrays, with the shape of those arrays."""
    shaft, meter = build.club.shaft, build.conventions.meter
    profile = stiffness_of(shaft)
    tip = shaft.tip_trim_m
    clamped = tip + (build.stop_m - build.tip_m) - meter.clamp_length_m
    if "head" not in build.stage.parts:
        mass, into = meter.test_mass_kg, meter.test_insertion_m
        return _rows(profile, shaft, tip + into, clamped, (mass, mass * into / 2, mass * into * into / 4), [])
    end_m = end_place_m(build)
    body, spots = beam_parts(build, end_m, clamped)
    return _rows(profile, shaft, tip + end_m - build.tip_m, clamped, body, spots)


def end_place_m(build: Build) -> Number:
    """Return the place where the bending part of the shaft ends, from the ground point: the hosel top, or the tip."""
    return build.hosel_top_m if build.conventions.meter.hosel == "rigid" else build.tip_m


def _rows(
    profile: StiffnessProfile,
    shaft: Shaft,
    free_m: Number,
    clamp_m: Number,
    body: tuple[Number, Number, Number],
    spots: list[tuple[Number, Number]],
) -> tuple[tuple[int, ...], Rows]:
    """Spread everything out to rows, with the density that gives the shaft its mass and balance."""
    mass, cg, _ = trimmed(shaft)
    tip, factor = shaft.tip_trim_m, shaft.stiffness_factor
    given = [tip, shaft.length_m, mass, cg, factor, free_m, clamp_m, *body, *(n for spot in spots for n in spot)]
    if any(np.ndim(number) for number in given):
        arrays = np.broadcast_arrays(*given)
        shape, columns = arrays[0].shape, [array.ravel() for array in arrays]
    else:
        shape, columns = (), list(np.array(given)[:, None])
    tips, lengths, masses, cgs, factors, free, clamps, m, first, second, *rest = columns
    _check_places(profile, tips, lengths, free, clamps)
    mesh = mesh_of(profile)
    count = len(free)
    moments = moments_to(mesh, np.concatenate([tips, tips + lengths, free]))
    at_tip, at_butt, at_free = moments[:, :count], moments[:, count : 2 * count], moments[:, 2 * count :]
    whole = at_butt - at_tip
    # The density (a + b s) times that of the mesh has the mass and the balance of the shaft as it is cut.
    moment = masses * (tips + cgs)
    det = whole[0] * whole[2] - whole[1] * whole[1]
    a = (masses * whole[2] - moment * whole[1]) / det
    b = (moment * whole[0] - masses * whole[1]) / det
    # What the rigid hosel holds of the shaft moves with the head.
    held = [a * (at_free[k] - at_tip[k]) + b * (at_free[k + 1] - at_tip[k + 1]) for k in range(3)]
    m = m + held[0]
    first = first + free * held[0] - held[1]
    second = second + free * free * held[0] - 2 * free * held[1] + held[2]
    none = np.zeros((0, len(free)))
    spots_kg = np.stack(rest[0::2]) if spots else none
    spots_m = np.stack(rest[1::2]) if spots else none
    return shape, Rows(free, clamps, factors, a, b, m, first, second, spots_kg, spots_m)


def _check_places(profile: StiffnessProfile, tip: Values, length: Values, free: Values, clamp: Values) -> None:
    """Refuse a shaft that is not cut from its profile, or that the clamp leaves too little of."""
    low, high = float(np.min(tip.real)), float(np.max((tip + length).real))
    if low < profile.start_m - BEYOND_PROFILE_M or high > profile.end_m + BEYOND_PROFILE_M:
        raise NotPossible(
            f"the shaft is cut from {low / INCH_M:.2f} in to {high / INCH_M:.2f} in of the raw shaft, and its stiffness is "
            f"known from {profile.start_m / INCH_M:.2f} in to {profile.end_m / INCH_M:.2f} in",
            "Give the stiffness along the whole raw shaft, or look at the trims.",
        )
    left = float(np.min((clamp - free).real))
    if not left >= SHORTEST_FREE_M:
        raise NotPossible(
            f"the clamp leaves {left / INCH_M:.2f} in of the shaft free",
            f"Give a clamp that leaves at least {SHORTEST_FREE_M / INCH_M:.1f} in, or look at the cut length.",
        )


def _shaped(values: Values, shape: tuple[int, ...]) -> Number:
    """Give one number back for plain numbers, an array for arrays."""
    if shape:
        return values.reshape(shape)
    number = values[0]
    return float(number) if np.isrealobj(values) else number
