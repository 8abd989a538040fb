"""The chances that advice is ranked by, against shares of drawn clubs, played-out readings and general minimisers.

The ticket and its parts are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import msgspec
import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from scipy.stats import norm

from clubwright.belief.prediction import values
from clubwright.club.build import Build
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import DRY_GRIPPED, FINISHED
from clubwright.planning.advice.another_head import another_head
from clubwright.planning.advice.read_again import _value
from clubwright.planning.advice.weights import choices, moved_goals
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.gauges import readings_of, usual_gauge
from clubwright.ticket.read import read_ticket

Published = Callable[..., None]
REPEATS = 400
DRAWN = 40_000


def document(**target: str) -> dict[str, Any]:
    return {
        "ticket": {"id": "T-7", "player": "A. Example", "kind": "wedge", "hand": "right"},
        "target": {"length": "35 1/4 in", "swing_weight": "D4", "total_weight": "470 g", **target},
        "tolerance": {"swing_weight": "1/2 pt", "total_weight": "2 g"},
        "head": {
            "mass": "296.4 g ± 0.1 g",
            "bore_to_ground": "1.10 in",
            "bore_depth": "1.25 in",
            "cg_from_ground": "-6 mm ± 2 mm",
        },
        "shaft": {
            "material": "steel",
            "tip": "taper",
            "raw_length": "37 in",
            "mass": "125.2 g",
            "balance_from_tip": "19 1/4 in",
            "butt_density": "3.6 g/in",
        },
        "grip": {"mass": "49.6 g ± 1 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
        "tape": [{"name": "double-sided", "layers": "2", "mass": "3.0 g", "cg_from_cap": "5.1 in"}],
        "ferrule": {"mass": "0.7 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [
            {"name": f"port {grams}", "mass": f"{grams}.0 g", "seat": "port", "from_ground": "10 mm"}
            for grams in (2, 4, 6)
        ],
    }


@cache
def club_state(swing_weight: str = "D4", total_weight: str = "470 g") -> ClubState:
    ticket, findings = read_ticket(document(swing_weight=swing_weight, total_weight=total_weight))
    assert ticket is not None, findings
    return club_state_of(ticket)


def test_chance_of_each_set_is_the_share_of_drawn_clubs(published: Published) -> None:
    """200 000 clubs drawn from the belief, each worked through the mechanics and held against the windows."""
    here = club_state()
    goals = moved_goals(here)
    assert {goal.key for goal in goals} == {"swing_weight", "total_weight"}
    belief = here.belief
    draws = np.random.default_rng(3).standard_normal((200_000, len(belief.names)))
    theta = list(belief.mean[:, None] + np.sqrt(np.diag(belief.covariance))[:, None] * draws.T)
    assert np.count_nonzero(belief.covariance - np.diag(np.diag(belief.covariance))) == 0
    for choice in choices(here, most=3)[:3]:
        found = values(
            here.prior.club,
            here.prior.conventions,
            belief.names,
            theta,
            [g.key for g in goals],
            FINISHED,
            choice.counts,
        )
        inside = np.all([(g.low <= v) & (v <= g.high) for g, v in zip(goals, found, strict=True)], axis=0)
        published(
            quantity=f"chance of swing weight and total weight with {choice.counts.sum():.0f} pieces fitted",
            source="share of 200 000 drawn clubs, numpy",
            theirs=float(np.mean(inside)),
            ours=choice.chance,
            tolerance=4e-3,
            standing="library",
        )


@pytest.mark.parametrize("quantity", ["swing_weight", "total_weight"])
def test_value_of_a_reading_is_what_playing_it_out_brings(published: Published, quantity: str) -> None:
    """Draw a club, let the gauge read it, weigh all drawn clubs by how well they agree, and take the set that fits most.

    Nothing of ours learns here: the clubs are drawn, and Bayes' rule is a weighted share of them. Beside the sample's own
    error, 0.01 is allowed for the 32 points of ours and for clubs that are few where the gauge is sharp.
    """
    here = club_state()
    belief, club, conventions = here.belief, here.prior.club, here.prior.conventions
    goals = moved_goals(here)
    expected, _, stage = _value(here, quantity)
    assert stage == "dry, gripped"
    gauge = usual_gauge(quantity)
    nothing = tuple(0.0 for _ in club.weights)
    sets = [choice.counts for choice in choices(here, most=12)]
    generator = np.random.default_rng(11)
    draws = generator.standard_normal((DRAWN, len(belief.names)))
    theta = list(belief.mean[:, None] + np.sqrt(np.diag(belief.covariance))[:, None] * draws.T)
    (shown,) = values(club, conventions, belief.names, theta, [quantity], DRY_GRIPPED, nothing)
    keys = [goal.key for goal in goals]
    inside = []
    for counts in sets:
        found = values(club, conventions, belief.names, theta, keys, FINISHED, counts)
        inside.append(np.all([(g.low <= v) & (v <= g.high) for g, v in zip(goals, found, strict=True)], axis=0))
    ends = np.array(inside, dtype=float)
    read = shown[:REPEATS] + gauge.uncertainty() * generator.standard_normal(REPEATS)
    brought = []
    for value in read:
        weights = norm.pdf(value, loc=shown, scale=gauge.uncertainty())
        brought.append(float(np.max(ends @ weights) / np.sum(weights)))
    published(
        quantity=f"chance that reading the {quantity.replace('_', ' ')} is expected to bring",
        source=f"{DRAWN} drawn clubs weighted by scipy.stats.norm, mean over {REPEATS} readings",
        theirs=float(np.mean(brought)),
        ours=expected,
        tolerance=0.01 + 3 * float(np.std(brought)) / REPEATS**0.5,
        standing="library",
    )


@pytest.mark.parametrize(
    "quantity",
    [
        "swing_weight",
        "total_weight",
    ],
)
def test_a_reading_never_lowers_the_best_chance(quantity: str) -> None:
    """Raiffa and Schlaifer, 1961, chapter 4: the expected value of information is never negative."""
    assert _value(club_state(), quantity)[0] >= choices(club_state())[0].chance - 1e-3


def test_another_head_is_the_nearest_mass(published: Published) -> None:
    """The head that a general minimiser finds on the real, curved mechanics."""
    here = club_state("E4", "492 g")
    assert not readings_of(here.ticket)
    best = choices(here)[0]
    found = another_head(here, best)
    assert found is not None
    goals = moved_goals(here)
    club = here.club
    nothing = tuple(0.0 for _ in club.weights)

    def finished(head_kg: float) -> list[float]:
        head = msgspec.structs.replace(club.head, mass_kg=head_kg)
        build = Build(club=msgspec.structs.replace(club, head=head), fitted=nothing, conventions=here.prior.conventions)
        return [float(QUANTITIES[goal.key].of(build)) for goal in goals]

    def miss(head_kg: float) -> float:
        return sum(((v - g.target) / g.half_width) ** 2 for v, g in zip(finished(head_kg), goals, strict=True))

    wanted = minimize_scalar(miss, bounds=(0.25, 0.35), method="bounded", options={"xatol": 1e-10}).x
    for goal, theirs in zip(goals, finished(float(wanted)), strict=True):
        scale, unit = (1e-3, "g") if goal.key == "total_weight" else (1.0, "points")
        published(
            quantity=f"{goal.key.replace('_', ' ')} with the head that comes nearest the targets",
            source="scipy.optimize.minimize_scalar on the mechanics",
            theirs=theirs / scale,
            ours=found.finished[goal.key][0] / scale,
            tolerance=1e-4,
            unit=unit,
            standing="library",
        )
