"""What is wanted of a lever, against roots of the published statics; its chance against a general-purpose library.

The statics are written a second time here, from the description of the 14-inch scale in US 1,953,916: first moment of every
part about a fulcrum 14 in from the butt stop. Ticket and parts are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.stats import multivariate_normal

from clubwright.belief.prediction import predict
from clubwright.club.stages import FINISHED
from clubwright.planning.advice.another_head import another_head
from clubwright.planning.advice.levers import levers
from clubwright.planning.advice.unreached import unreached_of
from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Action, Head, Lever
from clubwright.ticket.read import read_ticket

Published = Callable[..., None]
IN, OZ_IN = 0.0254, 0.028349523125 * 0.0254
SCALE = "scipy.optimize.brentq on the first moment about 14 in, as US 1,953,916 describes the scale"
HEAVY, LIGHT = "D8.0", "C9.0"
POINTS = {HEAVY: 38.0, LIGHT: 29.0}
"""Points above A0, ten to a letter."""


def document(swing_weight: str, **target: str) -> dict[str, Any]:
    return {
        "ticket": {"id": "T-8", "kind": "wedge", "hand": "right", "invented": "yes"},
        "target": {"swing_weight": swing_weight, **target},
        "tolerance": {"swing_weight": "1 pt", "total_weight": "2 g", "length": "1/8 in"},
        "head": {
            "mass": "300 g ± 0.1 g",
            "ports": "1",
            "cg_from_ground": "-6 mm ± 2 mm",
            "bore_to_ground": "28 mm",
            "bore_depth": "32 mm",
        },
        "shaft": {"cut_length": "860 mm", "cut_mass": "112 g", "cut_balance_from_tip": "440 mm"},
        "grip": {"mass": "50 g", "cap": "4 mm", "cg_from_cap": "104 mm"},
        "tape": [{"name": "double-sided", "mass": "3 g", "cg_from_cap": "130 mm"}],
        "ferrule": {"mass": "0.7 g", "length": "25 mm"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [{"name": f"port {g}", "mass": f"{g} g", "seat": "port", "from_ground": "10 mm"} for g in (2, 4, 6)],
        "shop": {"lead_tape": "1.3 g/in"},
    }


def state(swing_weight: str, **target: str) -> ClubState:
    ticket, findings = read_ticket(document(swing_weight, **target))
    assert ticket is not None, findings
    return club_state_of(ticket)


def found(club_state: ClubState) -> dict[str, Action]:
    return {action.kind: action for action in levers(club_state, choices(club_state)[0])}


def parts(ports_g: float = 0.0, grip_g: float = 50.0) -> list[tuple[float, float]]:
    """Mass in kg and distance from the butt stop in m of every part of the finished club, by hand."""
    butt, ground = 0.004, 0.004 + 0.860 + 0.028
    return [
        (0.300, ground + 0.006),
        (ports_g / 1e3, ground - 0.010),
        (0.112, butt + 0.860 - 0.440),
        (grip_g / 1e3, 0.104),
        (0.003, 0.130),
        (0.0007, ground - 0.060 - 0.0125),
        (0.0008, ground - 0.028 - 0.016),
    ]


def points(pieces: list[tuple[float, float]]) -> float:
    moment = sum(mass * (x - 14 * IN) for mass, x in pieces)
    return (moment / OZ_IN - 161.0) / 1.75


def port_grams(action: Action) -> float:
    assert isinstance(action.data, Lever)
    return sum(float(name.split()[1]) for name in action.data.weights)


def wanted_g(target: str, pieces: Callable[[float], list[tuple[float, float]]]) -> float:
    return float(brentq(lambda grams: points(pieces(grams)) - POINTS[target], 0, 500, xtol=1e-12))


GROUND = 0.004 + 0.860 + 0.028
ADDED = {"counterweight": 0.020, "lead tape": GROUND - 0.0, "powder": GROUND - 0.035}
"""Where each sits from the butt stop, by the defaults of a wedge: 20 mm under the cap, at the ground, 35 mm up."""


@pytest.mark.parametrize("target", [HEAVY, LIGHT])
def test_the_grip_that_is_wanted_is_the_root_of_the_moment(published: Published, target: str) -> None:
    action = found(state(target))["grip"]
    assert isinstance(action.data, Lever)
    ports = port_grams(action)
    theirs = wanted_g(target, lambda grams: parts(ports, grams))
    published(
        quantity=f"grip that brings a wedge to {target}",
        source=SCALE,
        theirs=theirs,
        ours=action.data.amount * 1e3,
        tolerance=1e-6,
        unit="g",
        standing="library",
    )
    assert action.data.change * 1e3 == pytest.approx(theirs - 50, abs=1e-6)


@pytest.mark.parametrize(("kind", "target"), [("lead tape", HEAVY), ("powder", HEAVY), ("counterweight", LIGHT)])
def test_the_grams_that_are_added_are_the_root_of_the_moment(published: Published, kind: str, target: str) -> None:
    action = found(state(target))[kind]
    assert isinstance(action.data, Lever)
    ports = port_grams(action)
    theirs = wanted_g(target, lambda grams: [*parts(ports), (grams / 1e3, ADDED[kind])])
    published(
        quantity=f"{kind} that brings a wedge to {target}",
        source=SCALE,
        theirs=theirs,
        ours=action.data.amount * 1e3,
        tolerance=1e-6,
        unit="g",
        standing="library",
    )
    if kind == "lead tape":  # 1.3 g an inch
        assert action.data.length_m == pytest.approx(theirs / 1.3 * IN, rel=1e-9)


def test_the_chance_of_a_lever_is_scipys_integral_of_the_belief(published: Published) -> None:
    """Swing weight and total weight are in conflict; the chance is that of both, of a belief moved to the wanted grip."""
    wanted = round(points(parts()) + 2.2, 1)
    here = state(f"D{wanted - 30:.1f}", total_weight="467.0 g")
    best = choices(here)[0]
    action = found(here)["grip"]
    assert isinstance(action.data, Lever) and action.chance > best.chance + 0.05
    keys = ("swing_weight", "total_weight")
    fitted = np.array([here.ticket.fitted_counts(action.data.weights)])
    moved = msgspec.structs.replace(here.prior.club, grip=msgspec.structs.replace(here.club.grip, mass_kg=0.0))
    belief = here.belief
    at = belief.mean.copy()
    at[belief.index("grip.mass_kg")] = action.data.amount
    prediction = predict(
        msgspec.structs.replace(belief, mean=at), moved, here.prior.conventions, keys, FINISHED, fitted
    )
    low, high = np.array([wanted - 1, 0.465]), np.array([wanted + 1, 0.469])
    box = multivariate_normal(prediction.mean[0], prediction.covariance[0], allow_singular=True)
    inside = box.cdf(high, lower_limit=low)
    published(
        quantity="chance of swing weight and total weight with the grip that is wanted",
        source="scipy.stats.multivariate_normal",
        theirs=float(inside),
        ours=action.chance,
        tolerance=2e-3,
        standing="library",
    )


def test_two_targets_in_conflict_are_named_with_where_each_ends() -> None:
    """Swing weight alone: 6 g in the port. Total weight alone: none. Together: nothing on the tray."""
    light = points(parts())
    here = state(f"{'D'}{light - 30 + 2.5:.1f}", total_weight="466.6 g")
    told = unreached_of(here, choices(here)[0])
    assert told is not None and set(told.targets) == {"swing_weight", "total_weight"}
    assert all(chance > 0.5 for chance in told.each.values()) and told.chance < 0.5
    assert told.ends["total_weight"][0] * 1e3 == pytest.approx(466.5 + 6, abs=1e-6)
    assert told.ends["swing_weight"][0] == pytest.approx(light, abs=1e-6)


def test_one_target_out_of_reach_is_named_alone() -> None:
    here = state(HEAVY, total_weight="468 g")
    told = unreached_of(here, choices(here)[0])
    assert told is not None and told.targets == ("swing_weight",)
    assert told.ends["swing_weight"][0] == pytest.approx(points(parts(6)), abs=1e-6)


def test_where_a_set_reaches_all_nothing_is_said_and_no_lever_turned() -> None:
    here = state(f"D{points(parts(4)) - 30:.1f}", total_weight="470.5 g")
    best = choices(here)[0]
    assert best.chance > 0.8
    assert unreached_of(here, best) is None and not found(here)


def test_no_grip_is_wanted_that_does_not_exist_and_no_head() -> None:
    """G9.9 wants a head of far more than the 360 g of the heaviest wedge, and a grip of less than nothing."""
    here = state("G9.9")
    assert another_head(here, choices(here)[0]) is None
    assert "grip" not in found(here)
    near = another_head(state(HEAVY), choices(state(HEAVY))[0])
    assert near is not None and isinstance(near.data, Head) and 0.24 <= near.data.mass_kg <= 0.36


def test_a_shorter_club_stays_within_the_ordered_length() -> None:
    """The club is cut: it can only be cut more, by an eighth of an inch at most as ordered."""
    heavy = points(parts())
    here = state(f"D{heavy - 30 - 1.1:.1f}", length="892 mm")
    action = found(here)["length"]
    assert isinstance(action.data, Lever)
    assert 0 < -action.data.change <= 0.125 * IN and abs(action.finished["length"][0] - 0.892) <= 0.125 * IN
    assert action.finished["swing_weight"][0] < heavy and action.chance > choices(here)[0].chance
