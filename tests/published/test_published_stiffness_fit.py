"""The stiffness along a shaft from a few readings: known tubes, closed forms, a general optimiser, and its own promises."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, log, sqrt

import msgspec
import numpy as np
import pytest
from scipy.optimize import least_squares

from clubwright.belief.stiffness.fit import (
    MASS_LINE_SD,
    PLACING_SD_M,
    StiffnessFit,
    fit_stiffness,
    predict_reading,
)
from clubwright.belief.stiffness.prior import StiffnessPrior, broad_prior, profile_at
from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.club.beam.section import straight_taper
from clubwright.club.beam.stiffness import StiffnessProfile, from_table
from clubwright.club.parts import Shaft
from clubwright.club.shaft import DensityPiece, profile_mass
from clubwright.units import CPM_HZ
from stiffness_readings import deflection, frequency
from worked_shafts import steel_profile

Published = Callable[..., None]
CLAMPS_M = (0.127, 0.25, 0.40, 0.50, 0.60, 0.68)


def raw_shaft(profile: StiffnessProfile) -> Shaft:
    """A raw tube weighed and balanced: by its own density, wherever that steps or bends."""
    pieces = [DensityPiece(p.start_m, p.end_m, p.start_density_kg_m, p.end_density_kg_m) for p in profile.pieces]
    weighed = profile_mass(pieces, profile.start_m, profile.end_m)
    return Shaft(
        raw_length_m=profile.end_m,
        mass_kg=weighed.mass_kg,
        balance_from_tip_m=weighed.cg_from_tip_m,
        length_m=profile.end_m,
        stiffness=profile,
    )


TUBES = {
    "step-taper steel tube": steel_profile(),
    "straight-taper steel tube": straight_taper(1.0, 9.4e-3, 15.2e-3, 0.55e-3, 0.35e-3),
}


@pytest.fixture(scope="module", params=TUBES)
def tube(request: pytest.FixtureRequest) -> tuple[str, Shaft, StiffnessFit]:
    shaft = raw_shaft(TUBES[request.param])
    readings = [frequency(shaft, clamp) for clamp in CLAMPS_M]
    return request.param, shaft, fit_stiffness(msgspec.structs.replace(shaft, stiffness=None), readings)


def test_a_known_tube_lies_where_the_fit_says(published: Published, tube: tuple[str, Shaft, StiffnessFit]) -> None:
    name, shaft, fit = tube
    assert shaft.stiffness is not None
    true = np.log([shaft.stiffness.ei_n_m2(node) for node in fit.prior.nodes_m])
    off = np.abs(true - fit.belief.mean) / fit.relative_sd
    row = {
        "source": "the tube that the readings were made from: E I from diameter, wall and modulus",
        "standing": "made",
    }
    published(
        quantity=f"{name}, six frequencies: largest error of EI at a node, in its sd",
        theirs=0.0,
        ours=float(off.max()),
        tolerance=1.96,
        **row,
    )
    middle = len(true) // 2
    published(
        quantity=f"{name}: EI in the middle",
        theirs=exp(true[middle]),
        ours=fit.ei_n_m2[middle],
        tolerance=0.08 * exp(true[middle]),
        unit="N m2",
        **row,
    )
    assert min(fit.learned[3:-1]) > 0.8
    assert max(fit.relative_sd[4:-3]) < 0.15, "a fit that says nothing is never wrong"


def test_another_clamp_is_foretold(published: Published, tube: tuple[str, Shaft, StiffnessFit]) -> None:
    name, shaft, fit = tube
    asked = frequency(shaft, 0.32)
    mean, sd = predict_reading(fit, asked)
    published(
        quantity=f"{name}: frequency at a clamp that was not read",
        source="the tube that the readings were made from, in our own beam solver",
        theirs=asked.value / CPM_HZ,
        ours=mean / CPM_HZ,
        tolerance=1.96 * sqrt(sd**2 + (MASS_LINE_SD * mean) ** 2) / CPM_HZ,
        unit="cpm",
        standing="made",
    )
    assert sd / mean < 0.01


def test_one_number_of_a_uniform_tube(published: Published) -> None:
    """With no local share in the prior the shaft has one unknown, and P L^3 / (3 EI) and w ~ sqrt(EI) give it."""
    shaft = raw_shaft(from_table([0.0, 1.0], [50.0, 50.0], density_kg_m=[0.1, 0.1]))
    one = broad_prior(1.0, tip_ei_n_m2=50.0, butt_ei_n_m2=50.0, level_sd=0.5, local_sd=1e-6, nodes=5)
    hung = [
        msgspec.structs.replace(deflection(shaft, clamp), value=0.5 * 9.80665 * (1 - clamp) ** 3 / (3 * 58.0), sd=2e-6)
        for clamp in (0.1, 0.4)
    ]
    fit = fit_stiffness(shaft, hung, one, placing_sd_m=1e-6)
    published(
        quantity="EI of a uniform shaft from two deflections",
        source="cantilever under an end load, P L^3 / (3 EI)",
        theirs=58.0,
        ours=fit.ei_n_m2[2],
        tolerance=0.001,
        unit="N m2",
        standing="derived",
    )
    swung = [frequency(shaft, clamp) for clamp in (0.1, 0.4)]
    swung = [msgspec.structs.replace(reading, value=1.05 * reading.value) for reading in swung]
    fit = fit_stiffness(shaft, swung, one, placing_sd_m=0.0)
    variances = [(reading.sd / reading.value) ** 2 + MASS_LINE_SD**2 for reading in swung]
    precision = sum(4**-1 / v for v in variances) + 1 / 0.5**2
    told = sum(2 * log(1.05) / 4 / v for v in variances) / precision
    row = {"source": "linear theory of one unknown, w proportional to sqrt(EI)", "standing": "derived"}
    published(
        quantity="its log factor from two frequencies 5 % high",
        theirs=told,
        ours=log(fit.ei_n_m2[2] / 50),
        tolerance=1e-6,
        **row,
    )
    published(
        quantity="standard deviation of that",
        theirs=1 / sqrt(precision),
        ours=fit.relative_sd[2],
        tolerance=1e-7,
        **row,
    )


def test_a_general_optimiser_finds_the_same(published: Published) -> None:
    shaft = raw_shaft(steel_profile())
    readings = [frequency(shaft, 0.127), frequency(shaft, 0.45), deflection(shaft, 0.127), deflection(shaft, 0.5)]
    prior = broad_prior(shaft.raw_length_m, nodes=5)
    fit = fit_stiffness(shaft, readings, prior)
    root = np.linalg.cholesky(np.linalg.inv(prior.belief.covariance)).T

    def misfits(log_ei: np.ndarray) -> np.ndarray:
        trial = msgspec.structs.replace(shaft, stiffness=profile_at(prior.nodes_m, log_ei))
        gives = [again(trial, reading).value for reading in readings]
        own = [log(r.value / g) / own_sd(shaft, r) for r, g in zip(readings, gives, strict=True)]
        return np.concatenate([own, root @ (log_ei - prior.belief.mean)])

    found = least_squares(misfits, prior.belief.mean, jac="3-point", xtol=1e-12, ftol=1e-14, gtol=1e-12)
    covariance = np.linalg.inv(found.jac.T @ found.jac)
    row = {"source": "scipy.optimize.least_squares on readings and prior together", "standing": "library"}
    for node in (0, 2, 4):
        published(
            quantity=f"log EI at node {node}", theirs=found.x[node], ours=fit.belief.mean[node], tolerance=1e-4, **row
        )
        sd = sqrt(covariance[node, node])
        published(quantity="its standard deviation", theirs=sd, ours=fit.relative_sd[node], tolerance=1e-3 * sd, **row)


def test_the_fit_holds_what_it_says(published: Published) -> None:
    """40 shafts drawn from the prior, read with scatter: their EI lies within 1.96 sd in 95 % of the nodes."""
    hits, squares, runs = 0, 0.0, 40
    shaft = raw_shaft(steel_profile())
    prior: StiffnessPrior = broad_prior(shaft.raw_length_m, nodes=5)
    for seed in range(runs):
        chance = np.random.default_rng(seed)
        true = chance.multivariate_normal(prior.belief.mean, prior.belief.covariance)
        drawn = msgspec.structs.replace(shaft, stiffness=profile_at(prior.nodes_m, true))
        readings = [frequency(drawn, clamp) for clamp in (0.127, 0.4, 0.6)] + [deflection(drawn, 0.127)]
        scattered = [
            msgspec.structs.replace(r, value=r.value * exp(chance.normal(0.0, own_sd(drawn, r)))) for r in readings
        ]
        fit = fit_stiffness(drawn, scattered, prior)
        off = true - fit.belief.mean
        hits += int(np.sum(np.abs(off) <= 1.96 * np.array(fit.relative_sd)))
        squares += float(off @ np.linalg.solve(fit.belief.covariance, off))
    row = {"source": "40 shafts drawn from the prior", "standing": "derived"}
    # 40 independent shafts, nodes of one shaft not: at worst the share has the standard deviation of 40, three of them.
    most = 3 * sqrt(0.95 * 0.05 / runs)
    published(quantity="share of nodes within 1.96 sd", theirs=0.95, ours=hits / runs / 5, tolerance=most, **row)
    # chi-square of 5 has variance 10, the mean of 40 the standard deviation 0.5.
    published(quantity="mean squared distance, 5 nodes", theirs=5.0, ours=squares / runs, tolerance=1.5, **row)


def own_sd(shaft: Shaft, reading: StiffnessReading) -> float:
    """Gauge, placing and mass line of a reading, relative, written out from docs/theory/stiffness-fit.md."""
    free = shaft.length_m - reading.clamp_length_m
    if reading.kind == "frequency":
        return sqrt((reading.sd / reading.value) ** 2 + (1.5 * PLACING_SD_M / free) ** 2 + MASS_LINE_SD**2)
    return sqrt((reading.sd / reading.value) ** 2 + (3 * PLACING_SD_M / free) ** 2)


def again(shaft: Shaft, reading: StiffnessReading) -> StiffnessReading:
    make = frequency if reading.kind == "frequency" else deflection
    return make(shaft, reading.clamp_length_m)
