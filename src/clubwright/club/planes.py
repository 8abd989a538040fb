"""The two planes in which a clamped club swings, the twist of its shaft, and what the difference may come from.

The head's centre of gravity lies off the shaft axis. Toe up and toe down the club bends and does not twist; square to
that, face to face, each bend twists the shaft a little too, and the two frequencies are close but not equal. Derivation:
docs/theory/frequency.md; checked in tests/published/test_published_frequency.py, the solver behind it in
tests/published/test_published_beam_codes.py.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from math import inf
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.assembly import (
    ABOUT_X,
    ABOUT_Y,
    ABOUT_Z,
    CLAMPED,
    PER_NODE,
    Beam,
    Matrix,
    Y,
    assemble,
)
from clubwright.club.beam.first_mode import RIGID_RAD_N_M
from clubwright.club.beam.mesh import Mesh, mesh_of, moments_to
from clubwright.club.beam.solve import modes
from clubwright.club.beam.tip_body import TipBody
from clubwright.club.build import Build
from clubwright.club.frequency import end_place_m, rows_of, stiffness_of
from clubwright.club.frequency_parts import lumps
from clubwright.errors import NotPossible
from clubwright.units import INCH_M

ORIENTATION_NOTE = (
    "The Equipment Rules (part 2, section 2b) ask that a shaft bend the same whatever way it is turned, and twist the same "
    "both ways. Turning every shaft of a set alike by its stiffer plane, for uniformity, was accepted in the older guide to "
    "them; for any other purpose ask the ruling body first. A difference that the head makes is no fault of the shaft."
)
"""What may be done about a shaft whose planes differ."""

LONGEST_ELEMENT_M = 0.03
MODES = 6
"""The twist of a club is among the first of these, near the second bend."""
TOE = (Y, ABOUT_Z)

Held = tuple[Beam, list[tuple[int, TipBody]], list[tuple[int, int, float]], dict[int, tuple[int, ...]]]


class Planes(NamedTuple):
    """Frequencies of a clamped club, in Hz.

    Attributes:
        toe_hz: Toe up and toe down, in the plane of the shaft and the head's centre of gravity.
        face_hz: Square to it, with the twist it brings.
        difference_hz: The second less the first.
        twist_hz: The first mode that is mostly twist; infinite where nothing on the end resists it.
    """

    toe_hz: float
    face_hz: float
    difference_hz: float
    twist_hz: float


def planes_hz(build: Build, face_stiffness_ratio: float = 1.0) -> Planes:
    """Return the frequencies of both planes of a build with a head on, and that of the twist.

    Args:
        build: The club, of plain numbers; every offset from the axis counts to the same side, and the inertia of a part
            about its own centre is the same all round.
        face_stiffness_ratio: Bending stiffness square to the toe plane over that in it, for a shaft whose planes differ.

    Raises:
        NotPossible: without a head, without a stiffness profile that holds torsion, or as `frequency_hz`.
    """
    beam, bodies, springs, held = space_beam(build, face_stiffness_ratio)
    stiffness, mass, free = assemble(beam, held=held, bodies=bodies, springs=springs)
    # With every offset to the toe, bending toe up and down shares nothing with the rest: two solves, even where equal.
    apart = np.isin(free % PER_NODE, TOE)
    across = free[~apart] % PER_NODE
    toe = float(modes(_part(stiffness, apart), _part(mass, apart), 1)[0][0])
    stiff = _part(stiffness, ~apart)
    found, shapes = modes(stiff, _part(mass, ~apart), MODES)
    twisting = [_twists(shapes[:, mode], across, stiff) for mode in range(MODES)]
    face = float(found[twisting.index(False)])
    twist = float(found[twisting.index(True)]) if True in twisting else inf
    return Planes(toe, face, face - toe, twist)


def space_beam(build: Build, face_stiffness_ratio: float = 1.0) -> Held:
    """Return the clamped club as a beam in space, x from the clamp to the head and y to the toe, for `assemble`.

    With it come the bodies on its end, the give of the clamp, and what is held. Neither shear nor the rotary inertia of
    the shaft's section is counted.
    """
    profile, meter = stiffness_of(build.club.shaft), build.conventions.meter
    if not profile.has_gj:
        raise NotPossible(
            "the planes need the torsional stiffness of the shaft, and it is not known",
            "Give GJ with the stiffness, or the geometry of the tube.",
        )
    if "head" not in build.stage.parts:
        raise NotPossible("a bare shaft has no toe and no face", "Put the head on; dry is enough.")
    shape, rows = rows_of(build)
    if shape:
        raise NotPossible("the planes are worked for one club at a time", "Give plain numbers.")
    mesh = mesh_of(profile)
    end, clamp, factor = float(rows.free_m[0]), float(rows.clamp_m[0]), float(rows.factor[0])

    def property_(column: int, scale: float, x: Matrix) -> Matrix:
        # Gauss points lie strictly inside an element, so the piece over each is never in doubt.
        return np.array([scale * profile.piece_at(at).at(at)[column] for at in (clamp - x).tolist()])

    def density(x: Matrix) -> Matrix:
        s = clamp - x
        cells = np.clip(np.searchsorted(mesh.edges_m, s, side="right") - 1, 0, len(mesh.ei) - 1)
        made = mesh.density[cells] + mesh.density_slope[cells] * (s - mesh.edges_m[cells])
        return np.asarray((rows.density[0] + rows.density_s[0] * s) * made)

    along = meter.head_down * build.conventions.gravity_m_s2
    before = moments_to(mesh, rows.free_m)[:2, 0]

    def tension(x: Matrix) -> Matrix:
        gone = moments_to(mesh, clamp - x)[:2] - before[:, None]
        return np.asarray(along * (rows.body_kg[0] + rows.density[0] * gone[0] + rows.density_s[0] * gone[1]))

    beam = Beam(
        nodes_m=_nodes(mesh, end, clamp),
        ei_y_n_m2=partial(property_, 0, factor),
        ei_z_n_m2=partial(property_, 0, factor * face_stiffness_ratio),
        density_kg_m=density,
        gj_n_m2=partial(property_, 1, 1.0),
        polar_kg_m=np.zeros_like,
        tension_n=tension if along else None,
    )
    bodies, hung_kg_m = _bodies(build, rows.body_kg[0], rows.body_kg_m[0], rows.body_kg_m2[0])
    springs = [(-1, turn, along * hung_kg_m) for turn in (ABOUT_Y, ABOUT_Z)]
    held: dict[int, tuple[int, ...]] = {0: CLAMPED}
    if meter.clamp_compliance_rad_n_m > RIGID_RAD_N_M:
        springs += [(0, turn, 1 / meter.clamp_compliance_rad_n_m) for turn in (ABOUT_Y, ABOUT_Z)]
        held = {0: tuple(place for place in CLAMPED if place not in (ABOUT_Y, ABOUT_Z))}
    for kg, place in zip(rows.spots_kg[:, 0], rows.spots_m[:, 0], strict=True):
        if kg > 0:
            nearest = int(np.argmin(np.abs(clamp - np.array(beam.nodes_m) - place)))
            bodies.append((nearest, TipBody(mass_kg=float(kg), beyond_m=float(clamp - place - beam.nodes_m[nearest]))))
    return beam, bodies, springs, held


def _nodes(mesh: Mesh, end_m: float, clamp_m: float) -> tuple[float, ...]:
    """Return nodes from the clamp on: at every edge of a cell, unless it is very near to an end."""
    near = INCH_M / 10
    inside = [float(edge) for edge in mesh.edges_m if end_m + near < edge < clamp_m - near]
    stops = [clamp_m - place for place in [end_m, *inside, clamp_m]][::-1]
    nodes = [0.0]
    for low, high in pairwise(stops):
        count = max(1, int(np.ceil((high - low) / LONGEST_ELEMENT_M)))
        nodes += [low + (part + 1) * (high - low) / count for part in range(count)]
    return tuple(nodes)


def _bodies(build: Build, kg: float, kg_m: float, kg_m2: float) -> tuple[list[tuple[int, TipBody]], float]:
    """List the rigid bodies on the end: each lump with its offset, and what the hosel holds of the shaft.

    The three numbers are those of all of them about the end; what the lumps leave of them is the shaft's.
    """
    end, top = float(end_place_m(build)), float(build.hosel_top_m)
    bodies: list[tuple[int, TipBody]] = []
    left, left_first, left_second = float(kg), float(kg_m), float(kg_m2)
    for lump in lumps(build):
        mass, place, off, own = (float(number) for number in lump[1:])
        if place <= top and mass > 0:
            beyond = end - place
            bodies.append((-1, TipBody(mass_kg=mass, beyond_m=beyond, y_m=off, inertia_kg_m2=(own, own, own))))
            left -= mass
            left_first -= mass * beyond
            left_second -= own + mass * (beyond * beyond + off * off)
    if left > 1e-9:
        beyond = left_first / left
        across = max(left_second - left * beyond * beyond, 0.0)
        bodies.append((-1, TipBody(mass_kg=left, beyond_m=beyond, inertia_kg_m2=(0.0, across, across))))
    return bodies, float(kg_m)


def _part(matrix: Matrix, places: NDArray[np.bool_]) -> Matrix:
    return np.asarray(matrix[np.ix_(places, places)])


def _twists(shape: NDArray[Any], places: NDArray[np.intp], stiffness: Matrix) -> bool:
    """True for a mode with most of its strain energy in twist."""
    bent = shape * (stiffness @ shape)
    return bool(bent[places == ABOUT_X].sum() > bent.sum() / 2)
