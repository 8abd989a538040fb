"""Frequency of a clamped club at any stage: what a frequency meter reads.

The club swings in the plane of its shaft and its head's centre of gravity (toe up and toe down), where bending does not
twist the shaft, so that one number of the shaft, its bending stiffness, decides. Both planes: `clubwright.club.planes`.
Element by element on floats, arrays and complex-step arrays. Derivation and sources: docs/theory/frequency.md; checked in
tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sqrt
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.chain import One
from clubwright.club.beam.first_mode import Clamp, Rows, first_squares
from clubwright.club.beam.mesh import mesh_of, moments_to
from clubwright.club.beam.one_club import first_square
from clubwright.club.beam.plain import Plain, moments, plain_mesh
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

PLAIN = {float, int, np.float64}
"""A club all of whose numbers are such is worked by itself."""

MEND = "Give the shaft's stiffness along its length: a table of EI, the geometry of its tube, or a few measured frequencies."


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
    meter = build.conventions.meter
    clamp = Clamp(meter.clamp_compliance_rad_n_m, meter.head_down * build.conventions.gravity_m_s2)
    return _frequency_hz(build.club.shaft, _beam(build), clamp)


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
    free = shaft.tip_trim_m + insertion_m
    clamped = shaft.tip_trim_m + shaft.length_m - clamp_length_m
    return _frequency_hz(shaft, _Beam(free, clamped, _test_mass(mass_kg, insertion_m), []), clamp or Clamp())


def rows_of(build: Build) -> tuple[tuple[int, ...], Rows]:
    """Return the beams of a build, one row for each element of its arrays, with the shape of those arrays."""
    shaft = build.club.shaft
    return _rows(stiffness_of(shaft), shaft, _beam(build))


class _Beam(NamedTuple):
    """What bends of a shaft, from the raw tip, and what hangs on it: the body on its end (three moments), and spots."""

    free_m: Number
    clamp_m: Number
    body: tuple[Number, Number, Number]
    spots: list[tuple[Number, Number]]


def _beam(build: Build) -> _Beam:
    """Return what bends of a build."""
    stiffness_of(build.club.shaft)
    meter, tip, tip_m = build.conventions.meter, build.club.shaft.tip_trim_m, build.tip_m
    clamped = tip + (build.stop_m - tip_m) - meter.clamp_length_m
    if "head" not in build.stage.parts:
        into = meter.test_insertion_m
        return _Beam(tip + into, clamped, _test_mass(meter.test_mass_kg, into), [])
    end_m = end_place_m(build)
    body, spots = beam_parts(build, end_m, clamped)
    return _Beam(tip + end_m - tip_m, clamped, body, spots)


def _test_mass(mass_kg: Number, into_m: Number) -> tuple[Number, Number, Number]:
    return mass_kg, mass_kg * into_m / 2, mass_kg * into_m * into_m / 4


def _frequency_hz(shaft: Shaft, beam: _Beam, clamp: Clamp) -> Number:
    """Return the frequency of plain numbers one by one, and of arrays all at once: two ways to the same."""
    profile = stiffness_of(shaft)
    if clamp.along_m_s2 == 0:
        plain = plain_mesh(profile)
        one = _one(plain, profile, shaft, beam)
        square = None if one is None else first_square(plain, one, clamp.compliance_rad_n_m)
        if square is not None:
            return sqrt(square) / (2 * pi)
    shape, rows = _rows(profile, shaft, beam)
    return _shaped(np.sqrt(first_squares(profile, rows, clamp)) / (2 * pi), shape)


def _one(mesh: Plain, profile: StiffnessProfile, shaft: Shaft, beam: _Beam) -> One | None:
    """Return a beam of plain numbers; None where a number is an array, or complex."""
    mass, cg, _ = trimmed(shaft)
    tip, length, factor = shaft.tip_trim_m, shaft.length_m, shaft.stiffness_factor
    free, clamp, body, spots = beam
    plain = (tip, length, mass, cg, factor, free, clamp, *body)
    if not PLAIN.issuperset(map(type, plain)) or not all(PLAIN.issuperset(map(type, spot)) for spot in spots):
        return None
    tip, length, mass, cg, factor, free, clamp, *own = map(float, plain)
    _check_places(profile, tip, tip + length, clamp - free)
    at_free = moments(mesh, free)
    density, held = _density_and_body(
        mass, tip + cg, free, moments(mesh, tip), moments(mesh, tip + length), at_free, own
    )
    return One(free, clamp, factor, *density, *held, [(float(kg), float(at)) for kg, at in spots])


def end_place_m(build: Build) -> Number:
    """Return the place where the bending part of the shaft ends, from the ground point: the hosel top, or the tip."""
    return build.hosel_top_m if build.conventions.meter.hosel == "rigid" else build.tip_m


def _rows(profile: StiffnessProfile, shaft: Shaft, beam: _Beam) -> tuple[tuple[int, ...], Rows]:
    """Spread everything out to rows, with the density that gives the shaft its mass and balance."""
    mass, cg, _ = trimmed(shaft)
    tip, factor = shaft.tip_trim_m, shaft.stiffness_factor
    free_m, clamp_m, body, spots = beam
    given = [tip, shaft.length_m, mass, cg, factor, free_m, clamp_m, *body, *(n for spot in spots for n in spot)]
    if any(np.ndim(number) for number in given):
        arrays = np.broadcast_arrays(*given)
        shape, columns = arrays[0].shape, [array.ravel() for array in arrays]
    else:
        shape, columns = (), list(np.array(given)[:, None])
    tips, lengths, masses, cgs, factors, free, clamps, *own = columns[:10]
    rest = columns[10:]
    ends, left = (tips + lengths).real, (clamps - free).real
    _check_places(profile, float(np.min(tips.real)), float(np.max(ends)), float(np.min(left)))
    mesh = mesh_of(profile)
    count = len(free)
    moments = moments_to(mesh, np.concatenate([tips, tips + lengths, free]))
    at_tip, at_butt, at_free = moments[:, :count], moments[:, count : 2 * count], moments[:, 2 * count :]
    (a, b), (m, first, second) = _density_and_body(masses, tips + cgs, free, at_tip, at_butt, at_free, own)
    none = np.zeros((0, len(free)))
    spots_kg = np.stack(rest[0::2]) if spots else none
    spots_m = np.stack(rest[1::2]) if spots else none
    return shape, Rows(free, clamps, factors, a, b, m, first, second, spots_kg, spots_m)


def _density_and_body(
    mass: Any, moment_arm: Any, free: Any, at_tip: Any, at_butt: Any, at_free: Any, own: Sequence[Any]
) -> tuple[tuple[Any, Any], tuple[Any, Any, Any]]:
    """Return the density ``(a + b s)`` over that of the mesh, and the body on the end with the shaft that it holds.

    Args:
        mass: Of the shaft as it is cut.
        moment_arm: Of that mass from the raw tip.
        free: Where the bending part begins.
        at_tip: Moments of the mesh's density from the raw tip to the tip.
        at_butt: To the butt.
        at_free: To where the bending part begins.
        own: Mass, first and second moment of what hangs there about `free`, beyond it.
    """
    w0, w1, w2 = at_butt[0] - at_tip[0], at_butt[1] - at_tip[1], at_butt[2] - at_tip[2]
    # It has the mass and the balance of the shaft as it is cut.
    moment = mass * moment_arm
    det = w0 * w2 - w1 * w1
    a = (mass * w2 - moment * w1) / det
    b = (moment * w0 - mass * w1) / det
    # What the rigid hosel holds of the shaft moves with the head.
    h0, h1, h2, h3 = at_free[0] - at_tip[0], at_free[1] - at_tip[1], at_free[2] - at_tip[2], at_free[3] - at_tip[3]
    held0, held1, held2 = a * h0 + b * h1, a * h1 + b * h2, a * h2 + b * h3
    m, first, second = own
    return (a, b), (m + held0, first + free * held0 - held1, second + free * free * held0 - 2 * free * held1 + held2)


def _check_places(profile: StiffnessProfile, low: float, high: float, left: float) -> None:
    """Refuse a shaft that is not cut from its profile, or that the clamp leaves too little of."""
    if low < profile.start_m - BEYOND_PROFILE_M or high > profile.end_m + BEYOND_PROFILE_M:
        raise NotPossible(
            f"the shaft is cut from {low / INCH_M:.2f} in to {high / INCH_M:.2f} in of the raw shaft, and its stiffness is "
            f"known from {profile.start_m / INCH_M:.2f} in to {profile.end_m / INCH_M:.2f} in",
            "Give the stiffness along the whole raw shaft, or look at the trims.",
        )
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
