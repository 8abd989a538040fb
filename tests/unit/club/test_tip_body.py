"""The mass matrix of a rigid body against the kinetic energy of its motion, by numpy's cross product."""

from __future__ import annotations

import numpy as np
import pytest

from clubwright.club.beam.assembly import ABOUT_X, CLAMPED, Beam, assemble, constant
from clubwright.club.beam.solve import frequencies_hz
from clubwright.club.beam.tip_body import TipBody
from clubwright.errors import NotPossible


def test_kinetic_energy_of_any_motion() -> None:
    random = np.random.default_rng(5)
    inertia = (3e-4, 2e-4, 1e-4)
    body = TipBody(mass_kg=0.25, beyond_m=0.03, y_m=0.04, z_m=-0.02, inertia_kg_m2=inertia)
    for _ in range(5):
        move, turn = random.standard_normal(3), random.standard_normal(3)
        centre = move + np.cross(turn, [0.03, 0.04, -0.02])
        energy = 0.25 * centre @ centre / 2 + turn @ (np.array(inertia) * turn) / 2
        motion = np.concatenate([move, turn])
        assert motion @ body.mass_matrix() @ motion / 2 == pytest.approx(energy, rel=1e-12)


def stretch(x: np.ndarray) -> np.ndarray:
    return np.ones_like(x)


def test_a_beam_says_when_it_has_fewer_modes_than_asked() -> None:
    none = constant(0.0)
    beam = Beam(
        nodes_m=(0.0, 1.0), ei_y_n_m2=stretch, ei_z_n_m2=stretch, density_kg_m=none, gj_n_m2=stretch, polar_kg_m=none
    )  # fmt: skip
    stiffness, mass, free = assemble(beam, held={0: CLAMPED}, bodies=[(-1, TipBody(mass_kg=1.0))])
    assert ABOUT_X in free % 6
    assert frequencies_hz(stiffness, mass, 2) == pytest.approx(np.sqrt(3) / (2 * np.pi))
    with pytest.raises(NotPossible, match="fewer than 3 modes"):
        frequencies_hz(stiffness, mass, 3)
