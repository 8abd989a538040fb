"""The beam solvers against closed forms, characteristic equations, classical tapers and a measured cantilever."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import numpy as np
import pytest
from scipy.optimize import brentq

from clubwright.club.beam.assembly import ABOUT_Z, CLAMPED, Along, Beam, Y, assemble, constant
from clubwright.club.beam.first_mode import Clamp, Rows, first_squares
from clubwright.club.beam.solve import frequencies_hz
from clubwright.club.beam.static import tip_deflection, twist_rad
from clubwright.club.beam.stiffness import from_law, from_table
from clubwright.club.beam.tip_body import TipBody

Published = Callable[..., None]
BOOK = (
    "scipy.optimize.brentq on 1 + cos bL cosh bL = 0 (a strain-instrument user guide, p. 97, prints five digits of six)"
)
TIP_MASS = "1 + cos b cosh b - mu b (sin b cosh b - cos b sinh b) = 0, root found apart from the code"
MASS_RATIOS = {
    0.1: (1.7227415, 4.399523), 0.2: (1.6163997, 4.267062), 0.25: (1.5737513, 4.225113), 0.5: (1.4199644, 4.111133),
    1: (1.2479174, 4.031139), 2: (1.0761957, 3.982573), 3: (0.9812306, 3.964816), 4: (0.9173581, 3.955612),
    5: (0.8700215, 3.94998), 8: (0.7768773, 3.941377), 10: (0.7357819, 3.938466), 20: (0.6205121, 3.932579),
    50: (0.4943415, 3.929004), 100: (0.4159342, 3.927805),
}  # fmt: skip
UNIFORM = from_table([0.0, 1.0], [1.0, 1.0], density_kg_m=[1.0, 1.0])
ONE = constant(1.0)


def plane_beam(
    count: int, ei: Along = ONE, density: Along = ONE, rotary: Along | None = None, shear: Along | None = None
) -> Beam:
    """A cantilever of unit length, x from the clamp, that moves in y only once z and twist are held."""
    nodes = tuple(float(x) for x in np.linspace(0, 1, count + 1))
    return Beam(
        nodes_m=nodes, ei_y_n_m2=ei, ei_z_n_m2=ei, density_kg_m=density, gj_n_m2=ONE, polar_kg_m=ONE,
        rotary_kg_m=rotary, shear_n=shear,
    )  # fmt: skip


def plane_omegas(beam: Beam, modes: int, body: TipBody | None = None) -> np.ndarray:
    count = len(beam.nodes_m)
    held = {node: tuple(place for place in CLAMPED if place not in (Y, ABOUT_Z)) for node in range(count)} | {
        0: CLAMPED
    }
    stiffness, mass, _ = assemble(beam, held=held, bodies=[(-1, body)] if body else [])
    return 2 * pi * frequencies_hz(stiffness, mass, modes)


def banded_root(body: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> float:
    """b of the first mode by the banded solver that the register of quantities uses; the unit shaft of 1 m, tip at 0."""
    rows = Rows(*(np.array([x]) for x in (0.0, 1.0, 1.0, 1.0, 0.0, *body)),
                np.zeros((0, 1)), np.zeros((0, 1)))  # fmt: skip
    return float(first_squares(UNIFORM, rows, Clamp())[0]) ** 0.25


def root_of(mode: int) -> float:
    """Root of the cantilever's equation, divided by cosh so that it stays small; one in each stretch of pi."""
    found = brentq(lambda b: np.cos(b) + 1 / np.cosh(b), mode * np.pi, (mode + 1) * np.pi, xtol=1e-13)
    return float(found)


@pytest.mark.parametrize("mode", range(6))
def test_uniform_cantilever(published: Published, mode: int) -> None:
    root = root_of(mode)
    assert round(root, 3) == (1.875, 4.694, 7.855, 10.996, 14.137, 17.279)[mode], "the guide's own digits"
    ours = np.sqrt(plane_omegas(plane_beam(80), 6))[mode]
    published(
        quantity=f"uniform cantilever, bL of mode {mode + 1}",
        source=BOOK, theirs=root, ours=ours, tolerance=1e-8 if mode == 0 else 2e-5, standing="library",
    )  # fmt: skip


def test_uniform_cantilever_banded(published: Published) -> None:
    published(
        quantity="uniform cantilever, bL of mode 1, banded solver at the register's own mesh",
        source=BOOK, theirs=root_of(0), ours=banded_root(), tolerance=1e-7, standing="library",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("count", "error"), [(1, 0.004754), (2, 0.0004834), (4, 3.271e-05), (8, 2.083e-06), (16, 1.303e-07)]
)
def test_error_falls_with_the_fourth_power(published: Published, count: int, error: float) -> None:
    ours = plane_omegas(plane_beam(count), 1)[0] / 1.875104068712**2 - 1
    published(
        quantity=f"relative error of the first mode with {count} elements",
        source="independent calculation with Hermite elements", theirs=error, ours=ours, tolerance=0.02 * error,
        standing="derived",
    )  # fmt: skip


def test_no_digits_are_lost_with_many_elements(published: Published) -> None:
    """The dense solve for the smallest w^2 loses the fifth digit here; for the largest 1/w^2 it does not."""
    ours = plane_omegas(plane_beam(400), 1)[0]
    published(
        quantity="uniform cantilever, w of mode 1 with 400 elements",
        source=BOOK, theirs=root_of(0) ** 2, ours=ours, tolerance=1e-6, standing="library",
    )  # fmt: skip


@pytest.mark.parametrize("ratio", MASS_RATIOS)
def test_tip_mass(published: Published, ratio: float) -> None:
    first, second = MASS_RATIOS[ratio]
    both = np.sqrt(plane_omegas(plane_beam(40), 2, TipBody(mass_kg=ratio)))
    for name, theirs, ours in (
        ("b1, banded", first, banded_root((ratio, 0.0, 0.0))), ("b1, in space", first, both[0]), ("b2", second, both[1])
    ):  # fmt: skip
        published(
            quantity=f"cantilever with a tip mass of {ratio} of its own, {name}",
            source=TIP_MASS, theirs=theirs, ours=ours, tolerance=2e-6, standing="derived",
        )  # fmt: skip


def test_tip_mass_of_a_hundredth(published: Published) -> None:
    root = brentq(
        lambda b: 1 + np.cos(b) * np.cosh(b) - 0.01 * b * (np.sin(b) * np.cosh(b) - np.cos(b) * np.sinh(b)), 1.5, 2.0,
        xtol=1e-13,
    )  # fmt: skip
    published(
        quantity="cantilever with a tip mass of 0.01 of its own, b1, banded",
        source="the same equation by scipy.optimize.brentq", theirs=root, ours=banded_root((0.01, 0.0, 0.0)),
        tolerance=2e-7, standing="library",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("ratio", "over"),
    [(0, 0.014652), (0.1, 0.007246), (0.5, 0.0015), (1, 0.00053), (2, 0.000161), (5, 2.9e-05)],
)
def test_rayleigh_with_33_140_of_the_mass(published: Published, ratio: float, over: float) -> None:
    """The textbook's one-term estimate lies above by this much."""
    estimate = np.sqrt(3 / (ratio + 33 / 140))
    published(
        quantity=f"w^2 = 3EI/(L^3 (M + 33m/140)): what it is too high by, mass ratio {ratio}",
        source="textbook estimate; its error worked apart", theirs=over, ours=estimate / banded_root((ratio, 0, 0)) ** 2 - 1,
        tolerance=2e-5, standing="derived",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("mass", "inertia", "beyond", "roots"),
    [
        (1, 0.01, 0, (1.2424479077, 3.6386245423, 5.6630010426)),
        (1, 0, 0.05, (1.2116658117, 3.8459036327, 6.8045031121)),
        (2, 0, 0.03, (1.0551618466, 3.8685447781, 6.8985515772)),
        (4, 0.002, 0.04, (0.8920534081, 3.7476217868, 6.5238366413)),
    ],
)
def test_tip_body(published: Published, mass: float, inertia: float, beyond: float, roots: tuple[float, ...]) -> None:
    body = TipBody(mass_kg=mass, beyond_m=beyond, inertia_kg_m2=(0, inertia, inertia))
    found = np.sqrt(plane_omegas(plane_beam(60), 3, body))
    banded = banded_root((mass, mass * beyond, inertia + mass * beyond**2))
    for name, theirs, ours, tolerance in (
        ("b1, banded", roots[0], banded, 1e-7), ("b1", roots[0], found[0], 1e-8), ("b2", roots[1], found[1], 1e-6),
        ("b3", roots[2], found[2], 5e-6),
    ):  # fmt: skip
        published(
            quantity=f"cantilever with a tip body, m {mass}, J {inertia}, centre {beyond} beyond: {name}",
            source="roots of the 4 x 4 determinant, worked apart", theirs=theirs, ours=ours, tolerance=tolerance,
            standing="derived",
        )  # fmt: skip


@pytest.mark.parametrize(
    ("name", "power", "roots"),
    [("wedge", 1, (5.3151, 15.2072, 30.0198)), ("cone", 2, (8.7193, 21.1457, 38.4538))],
)
def test_complete_taper(published: Published, name: str, power: int, roots: tuple[float, ...]) -> None:
    """It runs out to nothing at its tip, so the nodes crowd there."""
    nodes = tuple(float(x) for x in 1 - np.linspace(1, 0, 121) ** 2)
    beam = plane_beam(1, lambda x: (1 - x) ** (power + 2), lambda x: (1 - x) ** power)
    found = plane_omegas(Beam(**{f: getattr(beam, f) for f in beam.__struct_fields__} | {"nodes_m": nodes}), 3)
    for mode, (theirs, ours) in enumerate(zip(roots, found, strict=True)):
        published(
            quantity=f"complete {name} as a cantilever, w L^2 sqrt(rho A0 / E I0), mode {mode + 1}",
            source="classical (Kirchhoff)", theirs=theirs, ours=ours, tolerance=0.002, standing="memory",
        )  # fmt: skip


@pytest.mark.parametrize(
    ("slenderness", "ratio"), [(100, 0.99992), (50, 0.999681), (20, 0.998013), (10, 0.992134), (5, 0.969789)]
)
def test_shear_and_rotary_inertia(published: Published, slenderness: float, ratio: float) -> None:
    """Rectangular section, Poisson's ratio 0.3, k = 5/6; unit E I and mass per length."""
    section = 1 / (12 * slenderness**2)
    shear = 5 / 6 / (2 * 1.3) / section
    thick = plane_omegas(plane_beam(60, rotary=constant(section), shear=constant(shear)), 1)[0]
    published(
        quantity=f"first mode with shear and rotary inertia over that without, L/h {slenderness}",
        source="Timoshenko's equations solved apart", theirs=ratio, ours=thick / plane_omegas(plane_beam(60), 1)[0],
        tolerance=2e-5, standing="derived",
    )  # fmt: skip


def test_stepped_cantilever(published: Published) -> None:
    """Steel, 200 GPa, 0.3 m each of 2, 1 and 0.5e-9 m4 from the clamp, 10 N at the tip."""
    shaft = from_table([0, 0.3, 0.3, 0.6, 0.6, 0.9], [100, 100, 200, 200, 400, 400])
    found = tip_deflection(shaft, 0.0, 0.9, 10.0)
    source = "closed form, sum P/(E I) ((L-a)^3 - (L-b)^3) / 3"
    published(quantity="stepped cantilever, tip", source=source, theirs=0.008325, ours=found.down_m, tolerance=1e-12,
              unit="m", standing="derived")  # fmt: skip
    published(quantity="stepped cantilever, slope", source=source, theirs=0.016875, ours=found.slope_rad,
              tolerance=1e-12, unit="rad", standing="derived")  # fmt: skip


def test_stepped_twist(published: Published) -> None:
    shaft = from_table([0, 0.4, 0.4, 1.0], [1, 1, 1, 1], gj_n_m2=[20, 20, 50, 50])
    published(quantity="twist of a stepped bar under 3 N m", source="closed form, T sum L / GJ, by hand",
              theirs=0.096, ours=twist_rad(shaft, 0, 1, 3.0), tolerance=1e-12, unit="rad", standing="derived")  # fmt: skip


def test_stiffness_in_proportion_to_the_distance_from_the_tip(published: Published) -> None:
    """Constant curvature under a tip load, the property that US patent 6,652,389 states; 90 N m, 1 m, 20 N."""
    for name, below, theirs in (("down to the tip", 1e-5, 0.1111111), ("constant below 0.3 m", 0.3, 0.1077778)):
        ours = tip_deflection(from_law(90.0, 1.0, below), 0.0, 1.0, 20.0).down_m
        published(quantity=f"tip deflection with EI = a X, {name}", source="P L^2 / 2a, by hand; US 6,652,389",
                  theirs=theirs, ours=ours, tolerance=1e-6, unit="m", standing="derived")  # fmt: skip


def test_soft_clamp(published: Published) -> None:
    """A nearly rigid arm on a spring: clamp and beam give one after the other (stiffer, rounding would be all one sees)."""
    ei = 1e5
    stiff = from_table([0.0, 1.0], [ei, ei], density_kg_m=[1.0, 1.0])
    rows = Rows(*(np.array([x]) for x in (0.0, 1.0, 1.0, 1.0, 0.0, 2.0, 0.0, 0.0)), np.zeros((0, 1)), np.zeros((0, 1)))
    ours = float(first_squares(stiff, rows, Clamp(compliance_rad_n_m=0.1))[0])
    k = 1 / (0.1 + 1 / (3 * ei))
    published(quantity="w^2 of a stiff arm with a tip mass on a turning spring",
              source="k / (M L^2 + m L^2 / 3), 1/k = c + L / 3EI, by hand",
              theirs=k / (2 + 1 / 3), ours=ours, tolerance=2e-5, unit="1/s2", standing="derived")  # fmt: skip


def test_deflection_in_a_soft_clamp(published: Published) -> None:
    found = tip_deflection(UNIFORM, 0.0, 1.0, 3.0, stiffness_factor=2.0, compliance_rad_n_m=0.1)
    source = "P L^3 / 3EI + c P L^2 and P L^2 / 2EI + c P L, by hand"
    for name, theirs, ours in (("tip", 0.8, found.down_m), ("slope", 1.05, found.slope_rad)):
        published(
            quantity=f"uniform cantilever in a clamp that gives, {name}", source=source, theirs=theirs, ours=ours,
            tolerance=1e-12, standing="derived",
        )  # fmt: skip


def test_hanging_mass(published: Published) -> None:
    """Tension and stiffness together: a massless beam under the weight of the mass on its tip, head down."""
    soft = from_table([0.0, 1.0], [0.1, 0.1], density_kg_m=[1e-6, 1e-6])
    rows = Rows(*(np.array([x]) for x in (0.0, 1.0, 1.0, 1e-6, 0.0, 1.0, 0.0, 0.0)), np.zeros((0, 1)), np.zeros((0, 1)))
    ours = float(first_squares(soft, rows, Clamp(along_m_s2=9.80665))[0])
    k = np.sqrt(9.80665 / 0.1)
    published(
        quantity="w^2 of a mass hanging on a soft beam", source="g / (L - tanh(kL) / k), k^2 = T / EI, by hand",
        theirs=9.80665 / (1 - np.tanh(k) / k), ours=ours, tolerance=1e-4, unit="1/s2", standing="derived",
    )  # fmt: skip


@pytest.mark.parametrize(("mode", "measured", "tolerance"), [(1, 41.4 / 6.62, 0.02), (2, 117.5 / 6.62, 0.25)])
def test_measured_cantilever(published: Published, mode: int, measured: float, tolerance: float) -> None:
    """A real steel strip 759 x 50.66 x 5.14 mm. A real clamp and sensor cost it 9 % of every frequency; ratios stay."""
    found = plane_omegas(plane_beam(60), 3)
    published(
        quantity=f"measured steel cantilever, mode {mode + 1} over mode 1",
        source="open measurements, PujaChowdhury/Dataset-4-Univariate-signal-with-non-stationarity (6.62, 41.4, 117.5 Hz)",
        theirs=measured, ours=found[mode] / found[0], tolerance=tolerance, standing="seen",
    )  # fmt: skip
