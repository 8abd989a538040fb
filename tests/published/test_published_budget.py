"""The budget of a quantity and what each reading took off it, beside the GUM, a general-purpose library and algebra."""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec
import numpy as np
import pytest
import uncertainties
from uncertainties import umath

from clubwright.belief.budget import budget, learnt
from clubwright.belief.prediction import values
from clubwright.belief.readings import Reading
from clubwright.belief.update import learn, predict_readings, with_biases
from clubwright.club.stages import FINISHED
from clubwright.importers.ticket_file import load_ticket
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.answer.shop_settings import read_completed
from clubwright.ticket.gauges import readings_of
from clubwright.ticket.shop.settings import NO_SETTINGS
from repository import ROOT

Published = Callable[..., None]
GTC = "JCGM 100:2008 H.2, via MSLNZ/GTC (documentation, commit 6d606b1)"

VALUES = {"V": 4.999, "I": 19.661e-3, "phi": 1.04446}
SPREAD = np.array([3.2e-3, 9.5e-6, 7.5e-4])
CORRELATION = np.array([[1, -0.36, 0.86], [-0.36, 1, -0.65], [0.86, -0.65, 1]])
COVARIANCE = CORRELATION * np.outer(SPREAD, SPREAD)
THEIRS = {"R": (127.732, 0.070), "X": (219.85, 0.30), "Z": (254.26, 0.24)}


def slopes() -> dict[str, tuple[float, np.ndarray]]:
    """Resistance, reactance and impedance with their derivatives, by hand."""
    v, i, phi = VALUES.values()
    z, c, s = v / i, math.cos(phi), math.sin(phi)
    return {
        "R": (z * c, np.array([c / i, -z * c / i, -z * s])),
        "X": (z * s, np.array([s / i, -z * s / i, z * c])),
        "Z": (z, np.array([1 / i, -z / i, 0.0])),
    }


@pytest.mark.parametrize("key", THEIRS)
def test_budget_of_correlated_inputs(published: Published, key: str) -> None:
    value, slope = slopes()[key]
    rows = budget(tuple(VALUES), slope, COVARIANCE)
    mean, u = THEIRS[key]
    assert value == pytest.approx(mean, abs=0.006)
    # the shares rebuild the variance from contributions and correlations alone
    at = {name: place for place, name in enumerate(VALUES)}
    ours = math.sqrt(
        sum(CORRELATION[at[a.unknown], at[b.unknown]] * a.contribution * b.contribution for a in rows for b in rows)
    )
    published(
        quantity=f"impedance: standard uncertainty of {key}, from its budget",
        source=GTC,
        theirs=u,
        ours=ours,
        tolerance=0.006,
        unit="ohm",
        standing="seen",
    )
    assert math.fsum(row.share for row in rows) == pytest.approx(1, abs=1e-12)
    for row in rows:  # equation 13 of 5.2.2, one row of the double sum
        cross = math.fsum(
            CORRELATION[at[row.unknown], at[other.unknown]] * row.contribution * other.contribution for other in rows
        )
        assert row.share == pytest.approx(cross / ours**2, rel=1e-9)


def test_shares_of_independent_inputs_are_those_of_the_library(published: Published) -> None:
    """Where nothing is correlated, a share is the library's error component squared, over its variance."""
    inputs = {name: uncertainties.ufloat(value, sd) for (name, value), sd in zip(VALUES.items(), SPREAD, strict=True)}
    theirs = inputs["V"] / inputs["I"] * umath.cos(inputs["phi"])
    components = {name: theirs.error_components()[number] for name, number in inputs.items()}
    _, slope = slopes()["R"]
    rows = budget(tuple(VALUES), slope, np.diag(SPREAD**2))
    for row in rows:
        published(
            quantity=f"independent inputs: share of {row.unknown} in the variance of R",
            source="error components of the package uncertainties",
            theirs=components[row.unknown] ** 2 / theirs.std_dev**2,
            ours=row.share,
            tolerance=1e-9,
            unit="",
            standing="library",
        )


def test_one_that_takes_off_has_a_share_below_nothing() -> None:
    """Two masses, one known to be the other's opposite: by hand u^2 = 9 + 1 - 2 * 2.7 = 4.6, shares 6.3/4.6 and -1.7/4.6."""
    covariance = np.array([[9.0, -2.7], [-2.7, 1.0]])
    shares = {row.unknown: row.share for row in budget(("a", "b"), np.ones(2), covariance)}
    assert shares == pytest.approx({"a": 6.3 / 4.6, "b": -1.7 / 4.6})


def test_nothing_uncertain_has_no_budget() -> None:
    assert budget(("a", "b"), np.array([1.0, 0.0]), np.diag([0.0, 1.0])) == ()


def club_state_of_example(name: str) -> ClubState:
    ticket, findings = read_completed(load_ticket(ROOT / "examples" / name), name, NO_SETTINGS)
    assert ticket is not None, findings
    return club_state_of(ticket)


def test_slopes_of_a_wedge_are_its_differences() -> None:
    """Central differences through the whole club: the swing weight by the three unknowns that count most."""
    club = club_state_of_example("wedge-54.toml")
    belief, prediction = club.belief, club.predict(["swing_weight"])
    rows = budget(belief.names, prediction.slope[0, 0], belief.covariance)
    assert math.fsum(row.share for row in rows) == pytest.approx(1, abs=1e-9)
    for row in rows[:3]:
        step, ends = 1e-3 * row.sd, []
        for side in (step, -step):
            theta = belief.mean.copy()
            theta[belief.index(row.unknown)] += side
            (value,) = values(
                club.prior.club,
                club.prior.conventions,
                belief.names,
                [float(each) for each in theta],
                ["swing_weight"],
                FINISHED,
                tuple(club.fitted_now[0]),
            )
            ends.append(float(np.asarray(value).real))
        assert row.slope == pytest.approx((ends[0] - ends[1]) / (2 * step), rel=1e-5)


@pytest.mark.parametrize("name", ["driver.toml", "wedge-50.toml", "regrip.toml"])
def test_what_a_reading_took_off_is_what_learning_without_it_lacks(published: Published, name: str) -> None:
    """Beside the whole iterated update of the other readings, which was never linearised where these ones led."""
    club = club_state_of_example(name)
    prediction = club.predict(["swing_weight"])
    every = readings_of(club.ticket)
    prior = with_biases(club.prior.belief, every)
    taken = [item.reading for item in club.learned.judged if item.taken]
    mean = float(prediction.mean[0, 0])
    found = learnt(
        prior, club.prior.club, club.prior.conventions, taken, club.belief.mean, mean, prediction.slope[0, 0]
    )
    assert [item.where for item in found] == [reading.where for reading in taken]
    sharpest = max(found, key=lambda item: item.sharpened)
    for item in found:
        others = [reading for reading in taken if reading.where != item.where]
        learned = learn(prior, club.prior.club, club.prior.conventions, others, limit=float("inf"))
        without = msgspec.structs.replace(club, learned=learned).predict(["swing_weight"])
        assert item.sd == pytest.approx(float(prediction.sd()[0, 0]), rel=1e-9)
        assert item.sd_without == pytest.approx(float(without.sd()[0, 0]), rel=2e-3)
        assert item.mean_without == pytest.approx(float(without.mean[0, 0]), abs=0.02 * item.sd_without)
        if item is sharpest:
            published(
                quantity=f"{name}: swing weight's standard uncertainty without its sharpest reading",
                source="information form, numpy: the inverse of the prior's inverse and one term for each group",
                theirs=by_information(club, others, prediction.slope[0, 0]),
                ours=item.sd_without,
                tolerance=1e-6 * item.sd_without,
                unit="pt",
                standing="derived",
            )


def by_information(club: ClubState, others: list[Reading], slope: np.ndarray) -> float:
    """Add up precisions at the belief's mean, every reading by itself: the examples taken here read no club twice."""
    prior = with_biases(club.prior.belief, readings_of(club.ticket))
    _, rows = predict_readings(club.prior.club, club.prior.conventions, prior.names, club.belief.mean, others)
    free = np.diag(prior.covariance) > 0
    precision = np.linalg.inv(prior.covariance[np.ix_(free, free)])
    for reading, row in zip(others, rows, strict=True):
        precision = precision + np.outer(row[free], row[free]) / reading.instrument.noise(reading.repeats) ** 2
    return float(np.sqrt(slope[free] @ np.linalg.solve(precision, slope[free])))
