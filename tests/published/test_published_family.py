"""What a family teaches about its next part: closed forms, published pooled data, and a general-purpose optimiser."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf, pi, sqrt

import numpy as np
import pytest
from scipy.integrate import dblquad
from scipy.optimize import minimize, minimize_scalar
from scipy.stats import norm

from clubwright.belief.family import FamilyPrior, PastPart, forecast_next, log_marginal, mean_given_spread
from clubwright.services.actions import bench
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.session import Session
from clubwright.services.shaft.taught import divided_out, taught_by
from clubwright.state.key import StateKey
from clubwright.units import CPM_HZ
from shaftwork import DRY, dry_hz, iron

Published = Callable[..., None]
FLAT = FamilyPrior(mean=0.0, sd=inf, spread_scale=1.0)

EIGHT_SCHOOLS = ((28, 8, -3, 7, -1, 1, 18, 12), (15, 10, 16, 11, 9, 11, 10, 18))
TRIALS = (
    (-0.8893, -1.5854, -1.3481, -1.4416, -0.2175, -0.7861, -1.6209, 0.0120, -0.4694, -1.3713, -0.3394, 0.4459, -0.0173),
    (0.3256, 0.1946, 0.4154, 0.0200, 0.0512, 0.0069, 0.2230, 0.0040, 0.0564, 0.0730, 0.0124, 0.5325, 0.0714),
)
"""13 trials of a vaccine, log relative risk and its variance (G. A. Colditz et al., JAMA 271 (1994) 698); from memory."""


def parts_of(values: tuple[float, ...], sds: tuple[float, ...]) -> list[PastPart]:
    return [PastPart(name=f"part {i}", value=v, sd=s) for i, (v, s) in enumerate(zip(values, sds, strict=True))]


def trials() -> list[PastPart]:
    return parts_of(TRIALS[0], tuple(sqrt(v) for v in TRIALS[1]))


def restricted_spread(parts: Sequence[PastPart]) -> float:
    """The spread of greatest restricted likelihood (REML) by the likelihood that the forecast integrates."""
    values, sds = (np.array(column) for column in zip(*((part.value, part.sd) for part in parts), strict=True))

    def cost(spread: float) -> float:
        return -float(log_marginal(np.array([spread]), values, sds, FLAT)[0])

    found = minimize_scalar(cost, bounds=(0.0, float(np.ptp(values))), method="bounded", options={"xatol": 1e-12})
    return float(found.x) if cost(float(found.x)) < cost(0.0) else 0.0


def test_pooled_mean_of_the_eight_schools(published: Published) -> None:
    source = "D. B. Rubin, J. Educational Statistics 6 (1981) 377, and A. Gelman et al., Bayesian Data Analysis, 5.5"
    values, sds = (np.array(column, dtype=float) for column in EIGHT_SCHOOLS)
    mean, variance = mean_given_spread(np.zeros(1), values, sds, FLAT)
    row = {"source": source, "standing": "memory"}
    published(quantity="family mean, no spread", theirs=7.7, ours=mean[0], tolerance=0.05, **row)
    published(quantity="its standard deviation", theirs=4.1, ours=sqrt(variance[0]), tolerance=0.05, **row)
    published(
        quantity="spread of the eight schools (REML)",
        theirs=0.0,
        ours=restricted_spread(parts_of(*EIGHT_SCHOOLS)),
        tolerance=1e-6,
        **row,
    )


def test_thirteen_trials_of_a_vaccine(published: Published) -> None:
    source = "random-effects analysis of the 13 trials in G. A. Colditz et al., JAMA 271 (1994) 698, REML"
    spread = restricted_spread(trials())
    values, variances = (np.array(column) for column in TRIALS)
    mean, variance = mean_given_spread(np.array([spread]), values, np.sqrt(variances), FLAT)
    row = {"source": source, "standing": "memory"}
    published(quantity="spread squared", theirs=0.3132, ours=spread**2, tolerance=1e-4, **row)
    published(quantity="family mean", theirs=-0.7145, ours=mean[0], tolerance=1e-4, **row)
    published(quantity="its standard deviation", theirs=0.1798, ours=sqrt(variance[0]), tolerance=1e-4, **row)


def test_equal_doubts_have_the_textbook_spread(published: Published) -> None:
    """With one sd for all, the restricted spread is the sample variance less that of a measurement."""
    values = (1.02, 0.97, 1.05, 0.99, 1.08, 0.94)
    published(
        quantity="spread of six parts measured alike",
        source="sample variance less the measurement's, one-way analysis of variance",
        theirs=sqrt(float(np.var(values, ddof=1)) - 0.01**2),
        ours=restricted_spread(parts_of(values, (0.01,) * 6)),
        tolerance=1e-8,
        standing="derived",
    )


def test_no_part_leaves_the_prior(published: Published) -> None:
    prior = FamilyPrior(mean=1.0, sd=0.05, spread_scale=0.03)
    found = forecast_next([], prior)
    row = {"source": "moments of the half-normal distribution", "standing": "derived"}
    published(quantity="sd of the first part", theirs=sqrt(0.05**2 + 0.03**2), ours=found.sd, tolerance=1e-10, **row)
    published(quantity="expected spread", theirs=0.03 * sqrt(2 / pi), ours=found.spread, tolerance=1e-10, **row)
    assert found.mean == pytest.approx(1.0, abs=1e-14)


def test_a_known_spread_is_the_precision_weighted_mean(published: Published) -> None:
    """A spread scale of next to nothing: parts are alike, and readings of them are readings of one thing."""
    prior = FamilyPrior(mean=50.0, sd=2.0, spread_scale=1e-7)
    found = forecast_next(parts_of((51.0, 52.0), (1.0, 0.5)), prior)
    weight = 1 / 4 + 1 + 4
    row = {"source": "inverse-variance weighting, by hand", "standing": "derived"}
    published(quantity="next part", theirs=(50 / 4 + 51 + 4 * 52) / weight, ours=found.mean, tolerance=1e-6, **row)
    published(quantity="its sd", theirs=1 / sqrt(weight), ours=found.sd, tolerance=1e-6, **row)


def test_a_general_integrator_finds_the_same(published: Published) -> None:
    prior = FamilyPrior(mean=1.0, sd=0.05, spread_scale=0.03)
    values, sds = (1.06, 0.98, 1.03), (0.01, 0.02, 0.015)

    def density(spread: float, mean: float) -> float:
        own = norm.pdf(values, mean, np.sqrt(np.square(sds) + spread**2)).prod()
        return float(own * norm.pdf(mean, 1.0, 0.05) * np.exp(-0.5 * (spread / 0.03) ** 2))

    def integral(weigh: Callable[[float, float], float]) -> float:
        return dblquad(lambda s, m: density(s, m) * weigh(s, m), 0.85, 1.2, 0.0, 0.2, epsabs=1e-10, epsrel=1e-8)[0]

    whole = integral(lambda s, m: 1.0)
    mean = integral(lambda s, m: m) / whole
    square = integral(lambda s, m: (m - mean) ** 2 + s * s) / whole
    found = forecast_next(parts_of(values, sds), prior)
    row = {"source": "scipy.integrate.dblquad over mean and spread", "standing": "library"}
    published(quantity="next shaft's factor after three", theirs=mean, ours=found.mean, tolerance=1e-7, **row)
    published(quantity="its sd", theirs=sqrt(square), ours=found.sd, tolerance=1e-7, **row)


def test_a_general_optimiser_finds_the_same_spread(published: Published) -> None:
    """The restricted likelihood written out with determinants, of any n - 1 contrasts that the mean drops out of."""
    values, variances = (np.array(column) for column in TRIALS)
    contrasts = np.diff(np.eye(13), axis=0)

    def cost(log_spread: np.ndarray) -> float:
        covariance = contrasts @ np.diag(variances + np.exp(2 * log_spread[0])) @ contrasts.T
        z = contrasts @ values
        return float(np.linalg.slogdet(covariance)[1] + z @ np.linalg.solve(covariance, z))

    found = minimize(cost, [-1.0], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-12})
    published(
        quantity="spread of 13 trials",
        source="scipy.optimize.minimize on the likelihood of contrasts",
        theirs=float(np.exp(found.x[0])),
        ours=restricted_spread(trials()),
        tolerance=1e-6,
        standing="library",
    )


def test_forecasts_hold_what_they_say(published: Published) -> None:
    """Families drawn from the prior, few parts each: the next part falls within 1.96 sd in 95 % of them."""
    prior, chance, hits, runs = FamilyPrior(mean=1.0, sd=0.05, spread_scale=0.03), np.random.default_rng(7), 0, 1000
    for _ in range(runs):
        mean, spread = chance.normal(1.0, 0.05), abs(chance.normal(0.0, 0.03))
        true = chance.normal(mean, spread, 4)
        read = chance.normal(true[:3], 0.01)
        found = forecast_next(parts_of(tuple(read), (0.01,) * 3), prior)
        hits += abs(true[3] - found.mean) <= 1.96 * found.sd
    published(
        quantity="share of next parts within 1.96 sd",
        source="1000 families drawn from the prior (binomial sd 0.007)",
        theirs=0.95,
        ours=hits / runs,
        tolerance=0.02,
        standing="derived",
    )


def test_what_a_reading_said_is_found_again_behind_its_prior(published: Published) -> None:
    """Bayes' rule for a normal mean, forward by hand; `divided_out` goes back."""
    m0, s0, y, e = 1.0, 0.03, 1.05, 0.01
    s1 = 1 / sqrt(1 / s0**2 + 1 / e**2)
    m1 = s1**2 * (m0 / s0**2 + y / e**2)
    found = divided_out((m0, s0), (m1, s1))
    assert found is not None
    source = (
        "normal mean with known variance: A. Gelman et al., Bayesian Data Analysis, 2.5 (section from memory), by hand"
    )
    row = {"source": source, "standing": "derived"}
    published(quantity="factor that a frequency taught", theirs=y, ours=found[0], tolerance=1e-12, **row)
    published(quantity="its sd", theirs=e, ours=found[1], tolerance=1e-12, **row)


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_the_frequency_goes_with_the_root_of_the_stiffness(published: Published, session: Session) -> None:
    """A shaft 4 % stiffer than its profile reads 2 % more, and that is found out from the record."""
    document = iron("X-1")
    bench.take_ticket(session, document, "test")
    value = f"{dry_hz(document) * sqrt(1.04) / CPM_HZ:.3f} cpm"
    bench.note_reading(session, "X-1", "frequency", value, stage=DRY, weights=[])
    taught = taught_by(StateKey(ticket_of(session.job("X-1"))), "X-1")
    assert taught is not None
    source = "Euler-Bernoulli beam: the frequency goes with the root of the bending stiffness"
    row = {"source": source, "standing": "derived"}
    published(quantity="factor from a frequency of one iron", theirs=1.04, ours=taught.factor, tolerance=0.001, **row)
