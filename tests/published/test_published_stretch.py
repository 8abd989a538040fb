"""A stretch of shaft as its ends see it while it swings, beside closed forms and a dense solve."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, cosh, sin, sinh

import numpy as np
import pytest
from scipy.linalg import eigh, solve

from clubwright.club.beam.chain import One
from clubwright.club.beam.elements import PAIRS
from clubwright.club.beam.mesh import mesh_of
from clubwright.club.beam.one_club import first_square
from clubwright.club.beam.plain import plain_mesh
from clubwright.club.beam.stiffness import from_table
from clubwright.club.beam.stretch import ORDER, stretch
from worked_shafts import steel_profile

Published = Callable[..., None]
EI, DENSITY, LENGTH = 50.0, 0.12, 0.9


def at(found: np.ndarray, tilt: float, square: float) -> np.ndarray:
    """The entries of D and their slopes."""
    powers = np.arange(ORDER + 1)
    return square**powers @ (found @ tilt**powers).reshape(ORDER + 1, -1)


@pytest.mark.parametrize("bend", [1.0, 1.4, 1.8])
def test_a_uniform_stretch_is_the_closed_form(published: Published, bend: float) -> None:
    mesh = mesh_of(from_table([0.0, LENGTH], [EI, EI], density_kg_m=[DENSITY, DENSITY]))
    made = stretch(mesh, 0, len(mesh.nodes_m) - 1)
    ours = at(made.series, 0.0, bend**4 * EI / DENSITY / LENGTH**4)
    below = 1 - cosh(bend) * cos(bend)
    turn = EI / LENGTH * bend * (cosh(bend) * sin(bend) - sinh(bend) * cos(bend)) / below
    shift = EI / LENGTH**3 * bend**3 * (cosh(bend) * sin(bend) + sinh(bend) * cos(bend)) / below
    source = "V. Kolousek, Dynamics in Engineering Structures (1973): closed form of the uniform beam (from memory)"
    for what, theirs, entry, unit in (
        ("turn of an end", turn, (0, 0), "N m"),
        ("shift of an end", shift, (1, 1), "N/m"),
    ):
        published(
            quantity=f"dynamic stiffness against the {what}, uniform beam, bend number {bend}", source=source,
            theirs=theirs, ours=float(ours[PAIRS.index(entry)]), tolerance=1e-4, unit=unit, standing="memory",
        )  # fmt: skip


@pytest.mark.parametrize("tilt", [0.0, 0.4, -0.3])
def test_it_is_all_elements_together(tilt: float) -> None:
    mesh = mesh_of(steel_profile())
    low, high = 2, 20
    made = stretch(mesh, low, high)
    size = 2 * (high - low + 1)
    k, m = np.zeros((size, size)), np.zeros((size, size))
    for number in range(low, high):
        for place, (a, b) in enumerate(PAIRS):
            for row, column in {(a, b), (b, a)}:
                spot = 2 * (number - low) + row, 2 * (number - low) + column
                k[spot] += mesh.stiffness[place, number]
                mass, mass_s = mesh.mass[place, number], mesh.mass_s[place, number]
                m[spot] += mass + tilt / made.length_m * (mass_s - made.centre_m * mass)
    ends, inner = [0, 1, size - 2, size - 1], list(range(2, size - 2))
    first = eigh(k[np.ix_(inner, inner)], m[np.ix_(inner, inner)], eigvals_only=True, subset_by_index=[0, 0])[0]
    assert made.reach == pytest.approx(0.06 * eigh(k[2:-2, 2:-2], _level(mesh, low, high)[2:-2, 2:-2])[0][0], rel=1e-3)
    for share in (0.01, 0.06):
        d = k - share * first * m
        theirs = d[np.ix_(ends, ends)] - d[np.ix_(ends, inner)] @ solve(d[np.ix_(inner, inner)], d[np.ix_(inner, ends)])
        ours = at(made.series, tilt, share * first)
        for place, (a, b) in enumerate(PAIRS):
            assert ours[place] == pytest.approx(theirs[a, b], rel=1e-8, abs=1e-8 * abs(theirs).max())
        step = 1e-4 * first
        slope = (at(made.series, tilt, share * first + step) - at(made.series, tilt, share * first - step)) / (2 * step)
        np.testing.assert_allclose(ours[10:], slope[:10], rtol=1e-5)


def _level(mesh, low: int, high: int) -> np.ndarray:  # type: ignore[no-untyped-def]
    m = np.zeros((2 * (high - low + 1),) * 2)
    for number in range(low, high):
        for place, (a, b) in enumerate(PAIRS):
            for row, column in {(a, b), (b, a)}:
                m[2 * (number - low) + row, 2 * (number - low) + column] += mesh.mass[place, number]
    return m


@pytest.mark.parametrize("ratio", [0.0, 2.0])
def test_a_uniform_cantilever_with_a_mass_on_its_end(published: Published, ratio: float) -> None:
    """``1 + cos cosh + r b (cos sinh - sin cosh) = 0``, with r the mass over that of the beam."""
    profile = from_table([0.0, 1.1], [EI, EI], density_kg_m=[DENSITY, DENSITY])
    one = One(0.05, 0.95, 1.0, 1.0, 0.0, ratio * DENSITY * 0.9, 0.0, 0.0, [])
    square = first_square(plain_mesh(profile), one, 0.0)
    assert square is not None
    low, high = 0.5, 1.9

    def miss(b: float) -> float:
        return 1 + cos(b) * cosh(b) + ratio * b * (cos(b) * sinh(b) - sin(b) * cosh(b))

    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if miss(middle) > 0 else (low, middle)
    published(
        quantity=f"bend number of a uniform cantilever, end mass {ratio:g} times its own, in plain numbers",
        source="frequency equation (R. D. Blevins, Natural Frequency and Mode Shape, from memory), by bisection",
        theirs=low, ours=(square * DENSITY / EI * 0.9**4) ** 0.25, tolerance=1e-7, standing="memory",
    )  # fmt: skip
