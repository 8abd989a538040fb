"""The belief against closed forms, a weighted sample, and general-purpose libraries.

The plain formula below is written anew from the definition of swing weight, in inches and grams from the grip cap, and
shares no code with the mechanics under test.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import pytest
import uncertainties
from numpy.typing import NDArray
from scipy.optimize import least_squares
from scipy.stats import multivariate_normal

from clubwright.belief.gaussian import Gaussian, condition
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import predict, values
from clubwright.belief.probability import box_probability
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import club_with
from clubwright.belief.update import learn
from clubwright.club.build import Conventions
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, FINISHED
from worked_clubs import CAP_IN, GRAM, IN, WEDGE, club_of, shaft_length_in

Published = Callable[..., None]
PLAIN = Conventions()
NOTHING = np.zeros((1, 0))

TEMPLATE = club_of(WEDGE)
LENGTH_IN = shaft_length_in(WEDGE)
PRIOR: dict[str, tuple[float, float]] = {
    "head.mass_kg": (300 * GRAM, 0.3 * GRAM),
    "head.cg_from_ground_m": (-0.3 * IN, 2.5e-3),
    "shaft.mass_kg": (106.15 * GRAM, 0.4 * GRAM),
    "shaft.balance_from_tip_m": ((CAP_IN + LENGTH_IN - 16.411) * IN, 4e-3),
    "shaft.length_m": (LENGTH_IN * IN, 0.8e-3),
    "grip.mass_kg": (50 * GRAM, 1.0 * GRAM),
    "grip.cg_from_cap_m": (4.1 * IN, 3e-3),
    "grip.cap_m": (CAP_IN * IN, 0.5e-3),
    "tapes.0.mass_kg": (2.5 * GRAM, 0.4 * GRAM),
    "adhesive.mass_kg": (1.0 * GRAM, 0.3 * GRAM),
    "ferrule.mass_kg": (0.7 * GRAM, 0.05 * GRAM),
}
"""Eleven unknowns of one wedge."""

SCALE = Instrument(name="swing-weight scale", resolution=0.1, repeatability=0.15, bias=0.1)
GRAMS = Instrument(name="gram scale", resolution=0.1 * GRAM, repeatability=0.1 * GRAM, bias=0.1 * GRAM)


def readings() -> tuple[Reading, ...]:
    """Half a point above what the parts say without a grip, a gram above with one."""
    prior = Gaussian.independent(PRIOR)
    dry = predict(prior, TEMPLATE, PLAIN, ["swing_weight"], DRY_NO_GRIP, NOTHING).mean[0, 0]
    weight = predict(prior, TEMPLATE, PLAIN, ["total_weight"], DRY_GRIPPED, NOTHING).mean[0, 0]
    return (
        Reading(where="1", quantity="swing_weight", value=dry + 0.5, stage=DRY_NO_GRIP, fitted=(), instrument=SCALE),
        Reading(
            where="2",
            quantity="total_weight",
            value=weight + 1.0 * GRAM,
            stage=DRY_GRIPPED,
            fitted=(),
            instrument=GRAMS,
        ),
    )


def plain_swing_weight(theta: Mapping[str, Any], *, gripped: bool = True, glued: bool = True) -> Any:
    """Points above A0 by the definition; the shaft is not trimmed at its mean length, else at 3.78 g/in of its butt."""
    bore, hosel_top = 1.0 * IN, 2.25 * IN
    cut = LENGTH_IN * IN - theta["shaft.length_m"]
    off = 3.78 * GRAM / IN * cut
    shaft = theta["shaft.mass_kg"] - off
    shaft_moment_up = theta["shaft.mass_kg"] * theta["shaft.balance_from_tip_m"] - off * (LENGTH_IN * IN - cut / 2)
    butt = bore + theta["shaft.length_m"]
    cap = butt + theta["grip.cap_m"]
    stop = cap if gripped else butt
    parts = [
        (theta["head.mass_kg"], theta["head.cg_from_ground_m"]),
        (shaft, bore + shaft_moment_up / shaft),
        (theta["ferrule.mass_kg"], hosel_top + 0.4 * IN),
    ]
    if glued:
        parts.append((theta["adhesive.mass_kg"], (bore + hosel_top) / 2))
    if gripped:
        parts.append((theta["tapes.0.mass_kg"], cap - 5.125 * IN))
        parts.append((theta["grip.mass_kg"], cap - theta["grip.cg_from_cap_m"]))
    moment = sum(mass * (stop - place - 14 * IN) for mass, place in parts)
    return (moment / (0.028349523125 * IN) - 161.0) / 1.75


def plain_total_weight(theta: Mapping[str, Any], *, glued: bool = True) -> Any:
    cut = LENGTH_IN * IN - theta["shaft.length_m"]
    names = ["head.mass_kg", "shaft.mass_kg", "ferrule.mass_kg", "tapes.0.mass_kg", "grip.mass_kg"]
    total = sum(theta[name] for name in names) - 3.78 * GRAM / IN * cut
    return total + theta["adhesive.mass_kg"] if glued else total


# -- closed forms ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "prior", "reading", "u", "mean", "sd"),
    [
        ("resistor of JCGM 106 9.5.4", (1500.0, 0.12), 1500.18, 0.04, 1500.162, 0.03794733192202055),
        ("small numbers", (10.0, 2.0), 13.0, 1.0, 12.4, 0.8944271909999159),
    ],
)
def test_one_normal_reading(
    published: Published, name: str, prior: tuple[float, float], reading: float, u: float, mean: float, sd: float
) -> None:
    before = Gaussian.independent({"x": prior})
    after = condition(before, lambda at: (at, np.eye(1)), np.array([reading]), np.array([[u * u]]))
    for quantity, theirs, ours in (("mean", mean, after.mean_of("x")), ("standard deviation", sd, after.sd_of("x"))):
        published(
            quantity=f"{quantity} after one normal reading, {name}",
            source="precision-weighted mean, by hand",
            theirs=theirs,
            ours=ours,
            tolerance=1e-9,
            standing="derived",
        )


def test_conformance_of_the_resistors(published: Published) -> None:
    for quantity, mean, sd, theirs, tolerance in (
        ("unmeasured", 1500.0, 0.12, 0.9044, 5e-4),
        ("measured at 1500.18 ohm", 1500.162, 0.03794733192202055, 0.841680350403502, 1e-9),
    ):
        ours = box_probability(np.array([[mean]]), np.array([[[sd * sd]]]), np.array([1499.8]), np.array([1500.2]))
        published(
            quantity=f"chance that a resistor lies within 0.2 ohm, {quantity}",
            source="JCGM 106:2012 9.5.4, inputs from a public replication; normal integral by hand",
            theirs=theirs,
            ours=float(ours[0]),
            tolerance=tolerance,
            standing="derived",
        )


@pytest.mark.parametrize("times", [1, 4, 25, 400])
def test_a_shared_bias_is_not_averaged_away(published: Published, times: int) -> None:
    """Repeats only pull the noise down: with n of them the reading is worth b^2 + r^2/n, never less than the bias."""
    s, r, b = 1.0 * GRAM, 0.2 * GRAM, 0.3 * GRAM
    gauge = Instrument(name="scale", resolution=0.0, repeatability=r, bias=b)
    one = [
        Reading(where=str(n), quantity="grip.mass_kg", value=50.5 * GRAM, stage=FINISHED, fitted=(), instrument=gauge)
        for n in range(min(times, 25))
    ]
    repeats = times // len(one)
    one = [Reading(**{**{f: getattr(item, f) for f in item.__struct_fields__}, "repeats": repeats}) for item in one]
    prior = Gaussian.independent({"grip.mass_kg": (50 * GRAM, s)})
    after = learn(prior, TEMPLATE, PLAIN, one).belief
    worth = b * b + r * r / times
    for quantity, theirs, ours in (
        ("mean", 50 + 0.5 * s * s / (s * s + worth), after.mean_of("grip.mass_kg") / GRAM),
        ("standard deviation", math.sqrt(1 / (1 / s**2 + 1 / worth)) / GRAM, after.sd_of("grip.mass_kg") / GRAM),
    ):
        published(
            quantity=f"{quantity} of a mass after {times} readings on one scale with a bias",
            source="closed form: worth of the mean b^2 + r^2/n (JCGM 100:2008, correlated inputs)",
            theirs=theirs,
            ours=ours,
            tolerance=1e-8,
            unit="g",
            standing="derived",
        )
    assert after.sd_of("grip.mass_kg") > 1 / math.sqrt(1 / s**2 + 1 / b**2)


# -- the whole wedge --------------------------------------------------------------------------------------------------


def test_plain_formula_is_the_mechanics() -> None:
    """One set of numbers away from the means, at both stages used below."""
    theta = {name: mean + sd for name, (mean, sd) in PRIOR.items()}
    for stage, plain in (
        (FINISHED, plain_swing_weight(theta)),
        (DRY_NO_GRIP, plain_swing_weight(theta, gripped=False, glued=False)),
    ):
        (ours,) = values(TEMPLATE, PLAIN, list(theta), list(theta.values()), ["swing_weight"], stage, ())
        assert ours == pytest.approx(plain, abs=1e-9)


def test_propagation_against_uncertainties(published: Published) -> None:
    theta = {name: uncertainties.ufloat(mean, sd) for name, (mean, sd) in PRIOR.items()}
    ours = predict(Gaussian.independent(PRIOR), TEMPLATE, PLAIN, ["swing_weight", "total_weight"], FINISHED, NOTHING)
    correlation = ours.covariance[0, 0, 1] / (ours.sd()[0, 0] * ours.sd()[0, 1])
    points, weight = plain_swing_weight(theta), plain_total_weight(theta)
    for quantity, theirs, value, unit in (
        ("swing weight above A0", points.nominal_value, ours.mean[0, 0], "points"),
        ("its standard uncertainty", points.std_dev, ours.sd()[0, 0], "points"),
        ("total weight", weight.nominal_value / GRAM, ours.mean[0, 1] / GRAM, "g"),
        ("its standard uncertainty", weight.std_dev / GRAM, ours.sd()[0, 1] / GRAM, "g"),
        ("correlation of the two", uncertainties.correlation_matrix([points, weight])[0, 1], correlation, ""),
    ):
        published(
            quantity=f"{quantity}, wedge from its parts alone",
            source="uncertainties package on the formula written anew",
            theirs=theirs,
            ours=value,
            tolerance=1e-7,
            unit=unit,
            standing="library",
        )


def test_posterior_against_a_weighted_sample(published: Published) -> None:
    """1.5 million draws of the prior, weighted by the likelihood of both readings through the mechanics themselves."""
    taken = readings()
    learned = learn(Gaussian.independent(PRIOR), TEMPLATE, PLAIN, taken)
    assert all(item.taken for item in learned.judged)
    keys = ["swing_weight", "total_weight"]
    ours = predict(learned.belief, TEMPLATE, PLAIN, keys, FINISHED, NOTHING)

    generator = np.random.default_rng(20_261_125)
    size = 1_500_000
    names = list(PRIOR)
    theta = [mean + sd * generator.standard_normal(size) for mean, sd in PRIOR.values()]
    log_weight = np.zeros(size)
    for reading in taken:
        (shown,) = values(TEMPLATE, PLAIN, names, theta, [reading.quantity], reading.stage, ())
        u = math.hypot(
            reading.instrument.bias, reading.instrument.repeatability, reading.instrument.resolution / 12**0.5
        )
        log_weight -= 0.5 * ((reading.value - shown) / u) ** 2
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    effective = 1 / float(weight @ weight)
    assert effective > 30_000
    finished = values(TEMPLATE, PLAIN, names, theta, keys, FINISHED, ())
    for column, (key, sample, unit, per) in enumerate(zip(keys, finished, ("points", "g"), (1.0, GRAM), strict=True)):
        mean = float(weight @ sample)
        sd = math.sqrt(float(weight @ (sample - mean) ** 2))
        for quantity, theirs, value, share in (
            ("mean", mean, ours.mean[0, column], 4.0),
            ("standard deviation", sd, ours.sd()[0, column], 3.0),
        ):
            published(
                quantity=f"{quantity} of the finished {key.replace('_', ' ')} after two dry readings",
                source=f"importance sample of {size} draws, numpy; three to four standard errors",
                theirs=theirs / per,
                ours=value / per,
                tolerance=share * sd / math.sqrt(effective) / per,
                unit=unit,
                standing="library",
            )


def test_posterior_against_least_squares(published: Published) -> None:
    """The posterior's peak minimises prior residuals and readings' residuals together; its covariance is inverse J'J."""
    taken = readings()
    learned = learn(Gaussian.independent(PRIOR), TEMPLATE, PLAIN, taken)
    names, mean = list(PRIOR), np.array([m for m, _ in PRIOR.values()])
    sd = np.array([s for _, s in PRIOR.values()])

    def residuals(z: NDArray[np.float64]) -> NDArray[np.float64]:
        theta = dict(zip(names, mean + sd * z[:-2], strict=True))
        shown = (
            plain_swing_weight(theta, gripped=False, glued=False) + SCALE.bias * z[-2],
            plain_total_weight(theta, glued=False) + GRAMS.bias * z[-1],
        )
        off = [
            (reading.value - value) / math.sqrt(gauge.repeatability**2 + gauge.resolution**2 / 12)
            for reading, value, gauge in zip(taken, shown, (SCALE, GRAMS), strict=True)
        ]
        return np.concatenate([z, off])

    found = least_squares(residuals, np.zeros(len(names) + 2), jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-12)
    covariance = np.linalg.inv(found.jac.T @ found.jac)
    for place, name in enumerate(names):
        for quantity, theirs, ours in (
            ("shift", found.x[place], (learned.belief.mean_of(name) - mean[place]) / sd[place]),
            ("shrinkage", math.sqrt(covariance[place, place]), learned.belief.sd_of(name) / sd[place]),
        ):
            published(
                quantity=f"{quantity} of {name} by two dry readings, in prior standard deviations",
                source="scipy.optimize.least_squares with prior residuals, formula written anew",
                theirs=theirs,
                ours=ours,
                tolerance=1e-5,
                standing="library",
            )


def test_a_strongly_curved_reading_is_followed_to_its_peak(published: Published) -> None:
    """One linearisation stops at 2.0 here; the passes go on to the root of the cubic that the peak obeys."""
    prior = Gaussian.independent({"x": (1.0, 1.0)})

    def square(at: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        return at**2, np.array([[2 * at[0]]])

    after = condition(prior, square, np.array([4.0]), np.array([[0.01]]))
    roots = np.roots([2 / 0.01, 0.0, 1 - 8 / 0.01, -1.0])
    theirs = max(root.real for root in roots)
    published(
        quantity="peak of the posterior, prior N(1, 1), reading 4 of the square with noise 0.1",
        source="numpy.roots on the cubic of the derivative",
        theirs=theirs,
        ours=after.mean_of("x"),
        tolerance=1e-6,
        standing="library",
    )


# -- chance of a box --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("dimensions", "correlation", "tolerance"),
    [(1, 0.0, 1e-9), (2, 0.0, 1e-6), (2, 0.7, 1e-6), (2, -0.99, 1e-5), (3, 0.5, 1e-5), (3, 0.95, 1e-4), (4, 0.6, 1e-3)],
)
def test_box_against_scipy(published: Published, dimensions: int, correlation: float, tolerance: float) -> None:
    signs = np.array([1.0, -1.0, 1.0, -1.0])[:dimensions] if correlation < 0 else np.ones(dimensions)
    matrix = abs(correlation) * np.outer(signs, signs) + (1 - abs(correlation)) * np.eye(dimensions)
    sd = np.array([0.5, 2e-3, 3e-3, 1.0])[:dimensions]
    covariance = matrix * np.outer(sd, sd)
    mean = sd * np.array([0.3, -0.5, 0.1, 0.2])[:dimensions]
    low, high = -sd * np.array([1.0, 1.5, 0.8, 2.0])[:dimensions], sd * np.array([1.2, 0.9, 1.5, 1.0])[:dimensions]
    oracle = multivariate_normal(mean, covariance, seed=1, maxpts=4_000_000, abseps=1e-8, releps=1e-8)
    published(
        quantity=f"chance of a box, {dimensions} quantities, correlation {correlation}",
        source="scipy.stats.multivariate_normal.cdf",
        theirs=float(oracle.cdf(high, lower_limit=low)),
        ours=float(box_probability(mean[None], covariance[None], low, high)[0]),
        tolerance=tolerance,
        standing="library",
    )


def test_three_quantities_that_hang_on_two(published: Published) -> None:
    """Swing weight, total weight and balance point of one club: the third follows from the first two."""
    ours = predict(
        Gaussian.independent(PRIOR),
        TEMPLATE,
        PLAIN,
        ["swing_weight", "total_weight", "balance_point"],
        FINISHED,
        NOTHING,
    )
    sd = ours.sd()[0]
    low, high = ours.mean[0] - 0.8 * sd, ours.mean[0] + 1.1 * sd
    # Drawn among the unknowns, not among the three, so that their dependence comes of itself.
    unknowns = np.random.default_rng(7).standard_normal((1_000_000, len(PRIOR))) * [
        spread for _, spread in PRIOR.values()
    ]
    draws = unknowns @ ours.slope[0].T / sd
    share = float(np.mean(np.all((draws > -0.8) & (draws < 1.1), axis=1)))
    published(
        quantity="chance that swing weight, total weight and balance point all lie in a window",
        source="share of a million draws, numpy",
        theirs=share,
        ours=float(box_probability(ours.mean, ours.covariance, low, high)[0]),
        tolerance=2.5e-3,
        standing="library",
    )


def test_plain_formula_takes_names_of_the_club() -> None:
    """The unknowns named here are numbers of the club's parts, and the template has the prior's means."""
    again = club_with(TEMPLATE, list(PRIOR), [mean for mean, _ in PRIOR.values()])
    assert again.head.mass_kg == TEMPLATE.head.mass_kg
    assert again.shaft.balance_from_tip_m == pytest.approx(float(TEMPLATE.shaft.balance_from_tip_m))


@pytest.mark.parametrize(("repeatability", "repeats"), [(0.1, 3), (0.06, 4), (0.004, 3), (0.2, 1)])
def test_repeats_average_the_step_as_far_as_readings_scatter(
    published: Published, repeatability: float, repeats: int
) -> None:
    """Read clubs of every true value on a scale with steps of 0.1, and see how the mean errs."""
    generator = np.random.default_rng(5)
    truth = generator.uniform(0, 1, size=400_000)
    seen = truth[:, None] + generator.normal(0, repeatability, size=(truth.size, repeats))
    errors = np.mean(np.round(seen / 0.1) * 0.1, axis=1) - truth
    gauge = Instrument(name="scale", resolution=0.1, repeatability=repeatability)
    published(
        quantity=f"noise of {repeats} readings, step 0.1, repeatability {repeatability}",
        source="400 000 rounded readings drawn, numpy",
        theirs=float(np.std(errors)),
        ours=gauge.noise(repeats),
        tolerance=3e-4,
        unit="pt",
        standing="library",
    )
