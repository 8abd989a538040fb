"""Why a reading does not fit, and whose the difference between two planes is: each found a second way by a library."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy.optimize import least_squares
from scipy.stats import multivariate_normal

from clubwright.belief.causes.cause import OFTEN, SLIP_SIZE
from clubwright.belief.causes.explain import STILL_RIGHT, explain
from clubwright.belief.causes.slips import GROSS, USUAL
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import values
from clubwright.belief.readings import Reading
from clubwright.belief.update import predict_readings
from clubwright.club.planes import planes_hz
from clubwright.club.stages import DRY_GRIPPED, STAGES
from clubwright.planning.club_state import club_state_of
from clubwright.services.shaft.two_planes import two_planes
from clubwright.ticket.read import read_ticket
from shaftwork import DRY, iron

Published = Callable[..., None]

WEDGE = {
    "ticket": {"id": "T-9", "player": "A. Example", "kind": "wedge", "hand": "right"},
    "target": {"length": "35 1/4 in"},
    "head": {"mass": "296.4 g", "bore_to_ground": "1.10 in", "bore_depth": "1.25 in", "cg_from_ground": "-6 mm"},
    "shaft": {"material": "steel", "tip": "parallel", "raw_length": "38 in", "mass": "125 g"},
    "grip": {"mass": "49.6 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
    "weight": [{"name": "plug", "mass": "6 g", "seat": "tip", "lifts_shaft": "3/16 in", "from_ground": "1 in"}],
}
"""An invented wedge."""


def test_a_cause_is_what_a_minimiser_finds(published: Published) -> None:
    """A head typed 4 g too light, seen by scale and balance: the slip of its mass, with everything else let go too."""
    ticket, findings = read_ticket(WEDGE)
    assert ticket is not None, findings
    state = club_state_of(ticket)
    prior, club, conventions = state.prior.belief, state.prior.club, state.prior.conventions
    gauges = {"total_weight": 2e-4, "swing_weight": 0.15}
    shown = {
        key: float(values(club, conventions, prior.names, list(prior.mean), [key], DRY_GRIPPED, (0.0,))[0])
        for key in gauges
    }
    made = {"total_weight": shown["total_weight"] + 0.004, "swing_weight": shown["swing_weight"] + 1.75}
    readings = [
        Reading(
            where=key,
            quantity=key,
            value=made[key],
            stage=DRY_GRIPPED,
            fitted=(0.0,),
            instrument=Instrument(name=key, repeatability=sd, resolution=0.0),
        )
        for key, sd in gauges.items()
    ]
    told = explain(prior, club, conventions, readings, [readings[1].where])[readings[1].where]
    single = [item for item in told.ranked if len(item.causes) == 1]
    (cause,) = next(item.causes for item in single if item.causes[0].what == "head.mass_kg")
    place, size = prior.index("head.mass_kg"), SLIP_SIZE["head.mass_kg"]
    root = np.linalg.cholesky(prior.covariance + 1e-18 * np.eye(len(prior.names)))

    def misses(z: np.ndarray) -> np.ndarray:
        theta = prior.mean + root @ z[:-1]
        theta = theta + size * z[-1] * (np.arange(theta.size) == place)
        off = [
            (made[key] - float(values(club, conventions, prior.names, list(theta), [key], DRY_GRIPPED, (0.0,))[0])) / sd
            for key, sd in gauges.items()
        ]
        return np.array([*off, *z])

    best = least_squares(misses, np.zeros(len(prior.names) + 1), xtol=1e-14, ftol=1e-14, gtol=1e-14)
    published(
        quantity="readings 4 g and 1.75 points high: the slip of the head's mass",
        source="scipy.optimize.least_squares on parts, slip and readings together",
        theirs=float(size * best.x[-1] * 1e3),
        ours=cause.change * 1e3,
        tolerance=0.005,
        unit="g",
        standing="library",
    )
    _, slope = predict_readings(club, conventions, prior.names, prior.mean, readings)
    off = np.array([made[key] - shown[key] for key in gauges])
    spread = slope @ prior.covariance @ slope.T + np.diag([sd**2 for sd in gauges.values()])

    def density(times: float) -> float:
        column = slope[:, place] * size * times
        return float(multivariate_normal(np.zeros(2), spread + np.outer(column, column)).pdf(off))

    head = sum(share * OFTEN["another head"] * density(times) for times, share in (USUAL, GROSS))
    ours = next(item.chance for item in single if item.causes == (cause,))
    published(
        quantity="readings 4 g and 1.75 points high: odds of another head against nothing wrong, logarithm",
        source="scipy.stats.multivariate_normal, densities of both readings under either",
        theirs=float(np.log(head / (STILL_RIGHT * density(0.0)))),
        ours=float(np.log(ours / told.nothing)),
        tolerance=1e-5,  # digits of its mass typed in another order have a chance beside it
        unit="",
        standing="library",
    )


def test_what_the_shaft_itself_makes_of_two_planes(published: Published) -> None:
    """An iron whose shaft is 2 % stiffer square to the toe plane: frequency goes with the root of stiffness."""
    document = iron()
    ticket, _ = read_ticket(document, "ticket")
    assert ticket is not None
    planes = planes_hz(club_state_of(ticket).build(STAGES[DRY]), 1.02)
    first, second = (f"{hz * 60:.3f} cpm ± 0.05 cpm" for hz in (planes.toe_hz, planes.face_hz))
    document["reading"] = [
        {"quantity": "frequency", "value": first, "second_plane": second, "stage": DRY, "weights": []}
    ]
    ticket, _ = read_ticket(document, "ticket")
    assert ticket is not None
    found = two_planes(club_state_of(ticket))
    assert found.own_hz is not None
    published(
        quantity="stiffness square to the toe plane over that in it, told from two frequencies",
        source="1.02, made; frequency goes with the root of the stiffness",
        theirs=2.0,
        ours=200 * found.own_hz[0] / found.predicted.face_hz,
        tolerance=0.1,
        unit="%",
        standing="made",
    )
