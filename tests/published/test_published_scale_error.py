"""The error of one scale in all that it weighed: against general linear least squares by numpy, and against invented clubs.

Nothing here shares code with what it checks: the equations of the readings are written out row by row, whitened by Cholesky
and solved by numpy.linalg.lstsq; the covariance is the inverse of the normal matrix (the generalised least squares of
A. C. Aitken, Proc. R. Soc. Edinburgh 55 (1935) 42, from memory; what is known beforehand is one more row each).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest
from scipy.stats import binom

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import shared_rounding
from clubwright.belief.unknowns import bias_name
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.priors.prior import prior_from
from clubwright.ticket.read import read_ticket
from worked_beliefs import GRAM

Published = Callable[..., None]
STEP, SCATTER, BIAS = 0.1, 0.02, 0.3
WEIGHED = ("head.mass_kg", "shaft.mass_kg", "grip.mass_kg")
OTHERS = ("tapes.0.mass_kg", "adhesive.mass_kg", "ferrule.mass_kg")
B = bias_name("gram scale", "total_weight")

SCALE = {"resolution": f"{STEP} g", "repeatability": f"{SCATTER} g", "bias": f"{BIAS} g"}
CHECKED = {"resolution": "0.01 g", "repeatability": "0.01 g"}
BY_SCALE = {"mass": "gram scale"}
UNCUT = {"raw_length": "889 mm ± 0.00001 mm", "cut_length": "889 mm ± 0.00001 mm"}  # what is cut off adds nothing here
TICKET: dict[str, Any] = {
    "ticket": {"id": "T-0001", "kind": "putter", "hand": "right", "job": "weight", "invented": "yes"},
    "head": {"mass": "300.0 g", "gauges": BY_SCALE},
    "shaft": {**UNCUT, "mass": "106.0 g", "gauges": BY_SCALE},
    "grip": {"mass": "50.0 g", "gauges": BY_SCALE},
    "tape": [{"name": "base", "mass": "2.0 g", "gauges": BY_SCALE}],
    "adhesive": {"in_joint": "1.0 g ± 0.1 g"},
    "instrument": {"gram scale": SCALE, "checked scale": CHECKED},
}


def noise(count: int = 1) -> float:
    """Standard deviation of the mean of that many weighings, without the bias, in grams."""
    shared = shared_rounding(SCATTER, STEP)
    return math.sqrt(shared + (SCATTER**2 + STEP**2 / 12 - shared) / count)


def club_state(**changes: Any) -> ClubState:
    ticket, findings = read_ticket(TICKET | changes, "invented")
    assert ticket is not None, findings
    return club_state_of(ticket)


def weighed(quantity: str, value: float, gauge: str = "gram scale") -> dict[str, Any]:
    return {"quantity": quantity, "value": f"{value} g", "instrument": gauge}


def solved(
    rows: Sequence[Sequence[float]], seen: Sequence[float], covariance: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Solve ``rows @ x = seen + noise``, noise of that covariance; return the estimate and its covariance."""
    white = np.linalg.inv(np.linalg.cholesky(covariance))
    design = white @ np.array(rows)
    found, *_ = np.linalg.lstsq(design, white @ np.array(seen), rcond=None)
    return found, np.linalg.inv(design.T @ design)


def expected() -> tuple[np.ndarray, np.ndarray]:
    """Head, shaft, grip, tape, adhesive and ferrule (none here), and the scale's error: by least squares, in grams.

    The head was weighed twice and rounds alike both times; the total was read on the scale, and on one that was checked.
    """
    eye = np.eye(6)
    bias = eye[5]
    everything = np.array([1.0, 1.0, 1.0, 1.0, 1.0, 0.0])
    rows = [*(eye[place] + bias for place in range(4)), eye[0] + bias, eye[4], bias, everything + bias, everything]
    seen = [300.0, 106.0, 50.0, 2.0, 300.1, 1.0, 0.0, 458.5, 458.25]
    checked = math.sqrt(0.01**2 + 0.01**2 / 12)
    sd = [*[noise()] * 5, 0.1, BIAS, noise(), checked]
    covariance = np.diag(np.square(sd))
    covariance[0, 4] = covariance[4, 0] = shared_rounding(SCATTER, STEP)
    return solved([list(row) for row in rows], seen, covariance)


def test_masses_and_the_error_of_their_scale_by_least_squares(published: Published) -> None:
    readings = [
        weighed("head.mass", 300.1),
        weighed("total_weight", 458.5),
        weighed("total_weight", 458.25, "checked scale"),
    ]
    belief = club_state(reading=readings).belief
    mean, covariance = expected()
    names = [*WEIGHED, "tapes.0.mass_kg", "adhesive.mass_kg", B]
    for place, name in enumerate(names):
        words = "error of the scale" if name == B else name.removesuffix("_kg").replace(".", " ")
        for what, theirs, ours in (
            ("", mean[place], belief.mean_of(name)),
            (", uncertainty", math.sqrt(covariance[place, place]), belief.sd_of(name)),
        ):
            published(
                quantity=f"{words}{what}, five weighings and two totals",
                source="generalised least squares, numpy.linalg.lstsq",
                theirs=theirs,
                ours=ours / GRAM,
                tolerance=2e-6,
                unit="g",
                standing="library",
            )


CUT = {
    "raw_length": "889 mm ± 0.00001 mm",
    "cut_length": "839 mm ± 0.00001 mm",
    "mass": "106.0 g",
    "balance_from_tip": "450 mm ± 0.001 mm",
    "butt_density": "2.54 g/in ± 0.0762 g/in",
    "cut_mass": "100.65 g",
    "gauges": {"mass": "checked scale", "cut_mass": "gram scale"},
}
"""A shaft that lost 50 mm at the butt, of 0.1 g each: weighed raw on a checked scale, and twice as cut on the other one."""


def test_a_cut_shaft_weighed_twice_by_least_squares(published: Published) -> None:
    again = {**weighed("shaft.cut_mass", 100.7), "stage": "bare shaft"}
    belief = club_state(shaft=CUT, reading=[again]).belief
    rows = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, -50.0, 1.0], [1.0, -50.0, 1.0]]
    sd = [math.sqrt(0.01**2 + 0.01**2 / 12), 0.003, BIAS, noise(), noise()]
    covariance = np.diag(np.square(sd))
    covariance[3, 4] = covariance[4, 3] = shared_rounding(SCATTER, STEP)
    mean, covariance = solved(rows, [106.0, 0.1, 0.0, 100.65, 100.7], covariance)
    numbers = {"raw mass": "shaft.mass_kg", "mass per mm at the butt": "shaft.butt_density_kg_m", "scale": B}
    for place, (words, name) in enumerate(numbers.items()):
        unit = 1.0 if place == 1 else GRAM  # 1 kg/m is 1 g/mm
        for what, theirs, ours in (
            ("", mean[place], belief.mean_of(name)),
            (", uncertainty", math.sqrt(covariance[place, place]), belief.sd_of(name)),
        ):
            published(
                quantity=f"{words}{what}, a cut shaft weighed twice",
                source="generalised least squares, numpy.linalg.lstsq",
                theirs=theirs,
                ours=ours / unit,
                tolerance=2e-6,
                unit="g/mm" if place == 1 else "g",
                standing="library",
            )


def test_a_scale_that_reads_heavy_is_seen_as_such() -> None:
    """Half a gram too much on four parts: the total on a checked scale is 2 g less than their sum says."""
    told = club_state(reading=[weighed("total_weight", 457.0, "checked scale")])
    assert not told.learned.set_aside
    assert told.belief.mean_of(B) / GRAM == pytest.approx(0.5, abs=0.03)
    assert told.belief.mean_of("head.mass_kg") / GRAM == pytest.approx(299.5, abs=0.05)
    unsaid = {part: TICKET[part] | {"gauges": {}} for part in ("head", "shaft", "grip")}
    alone = club_state(reading=[weighed("total_weight", 457.0, "checked scale")], **unsaid)
    assert alone.learned.set_aside, "without their gauge the parts know nothing of one error in all of them"


def total_sd(belief: Gaussian) -> float:
    pick = np.array([1.0 if name.endswith("mass_kg") else 0.0 for name in belief.names])
    return float(np.sqrt(pick @ belief.covariance @ pick)) / GRAM


CLUBS = 400


def test_the_stated_interval_holds_the_truth_and_the_independent_one_does_not() -> None:
    """400 invented clubs, each on a scale with an error of its own: how often mean and 1.96 sd hold the sum of four."""
    rng = np.random.default_rng(20260302)
    prior = prior_from(read_ticket(TICKET, "invented")[0]).belief  # type: ignore[arg-type]
    adhesive = prior.sd_of("adhesive.mass_kg") / GRAM
    stated = math.sqrt(total_sd(prior) ** 2 - adhesive**2)
    assert stated == pytest.approx(math.sqrt(16 * BIAS**2 + 4 * noise() ** 2), rel=1e-6)
    apart = math.sqrt(4 * (BIAS**2 + noise() ** 2))
    held = {"together": 0, "apart": 0}
    for _ in range(CLUBS):
        truth = rng.uniform(295, 305) + np.array([0.0, -194.0, -250.0, -298.0]) + rng.uniform(-1, 1, 4)
        shown = np.round((truth + rng.normal(0, BIAS) + rng.normal(0, SCATTER, 4)) / STEP) * STEP
        off = abs(float(np.sum(shown - truth)))
        held["together"] += off <= 1.96 * stated
        held["apart"] += off <= 1.96 * apart
    low, high = binom.ppf([0.001, 0.999], CLUBS, 0.95)
    assert low <= held["together"] <= high
    assert held["apart"] < binom.ppf(1e-6, CLUBS, 0.95)
    assert held["apart"] / CLUBS == pytest.approx(
        0.674, abs=0.08
    )  # 1.96 of half the true deviation: erf(0.98 / sqrt 2)


def test_the_coverage_after_a_total_on_the_same_scale() -> None:
    """150 invented clubs, their total read on the scale too: of each part the belief's own interval holds the truth."""
    rng = np.random.default_rng(7)
    held = 0
    for _ in range(150):
        bias = rng.normal(0, BIAS)
        truth = np.array([300.0, 106.0, 50.0, 2.0, 1.0]) + rng.normal(0, [3, 2, 1, 0.2, 0.1])

        def show(value: float, error: float = bias) -> float:
            return float(np.round((value + error + rng.normal(0, SCATTER)) / STEP) * STEP)

        parts = {
            "head": {"mass": f"{show(truth[0]):.1f} g", "gauges": BY_SCALE},
            "shaft": TICKET["shaft"] | {"mass": f"{show(truth[1]):.1f} g"},
            "grip": {"mass": f"{show(truth[2]):.1f} g", "gauges": BY_SCALE},
            "tape": [{"name": "base", "mass": f"{show(truth[3]):.1f} g", "gauges": BY_SCALE}],
        }
        belief = club_state(reading=[weighed("total_weight", round(show(float(truth.sum())), 1))], **parts).belief
        held += abs(belief.mean_of("head.mass_kg") / GRAM - truth[0]) <= 1.96 * belief.sd_of("head.mass_kg") / GRAM
    low, high = binom.ppf([0.001, 0.999], 150, 0.95)
    assert low <= held <= high


def test_with_no_gauge_named_nothing_is_shared() -> None:
    bare: dict[str, Any] = {
        part: {k: v for k, v in TICKET[part].items() if k != "gauges"} for part in ("head", "shaft", "grip")
    }
    bare["tape"] = [{"name": "base", "mass": "2.0 g"}]
    prior = prior_from(read_ticket(TICKET | bare, "invented")[0]).belief  # type: ignore[arg-type]
    assert not any(name.startswith(("bias:", "rounding:")) for name in prior.names)
    off = prior.covariance - np.diag(np.diag(prior.covariance))
    masses = [prior.index(name) for name in (*WEIGHED, *OTHERS[:2])]
    assert not off[np.ix_(masses, masses)].any()
