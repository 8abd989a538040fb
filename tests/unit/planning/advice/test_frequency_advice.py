"""A target frequency among the others: weights are for the swing weight first, and the frequency counts in the chance."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from clubwright.belief.probability import box_probability
from clubwright.planning.advice.another_head import another_head
from clubwright.planning.advice.tray import looked_at, names_of
from clubwright.planning.advice.weights import choices, moved_goals, steered_goals
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Head
from clubwright.ticket.read import read_ticket

TUBE: dict[str, Any] = {
    "kind": "tube", "butt": "0.600 in", "tip": "0.370 in", "wall_butt": "0.016 in", "wall_tip": "0.020 in", "steps": "15",
    "butt_parallel": "6 in", "tip_parallel": "10 in",
}  # fmt: skip


def club_state(
    frequency: str | None = "318 cpm", *, swing_weight: str = "D3", within: str = "2 cpm", tray: int = 3, **shaft: Any
) -> ClubState:
    """An invented 5-iron with a tray of three."""
    target = {"length": "38 in", "swing_weight": swing_weight}
    if frequency is not None:
        target["frequency"] = frequency
    document: dict[str, Any] = {
        "ticket": {"id": "T-0005", "kind": "iron", "hand": "right"},
        "target": target,
        "tolerance": {"frequency": within},
        "head": {"mass": "256 g", "bore_to_ground": "1 in", "bore_depth": "1.25 in", "cg_from_ground": "-3 mm"},
        "shaft": {
            "tip": "parallel", "raw_length": "41 in", "mass": "126 g", "balance_from_tip": "21 in", "stiffness": TUBE,
            "stiffness_factor": "1 ± 0.002", **shaft,
        },
        "grip": {"mass": "50 g", "cap": "1/8 in"},
        "weight": [
            {"name": f"w {2 * n}", "mass": f"{2 * n} g", "seat": "tip" if tray == 3 else ("tip", "port", "head")[n % 3]}
            for n in range(1, tray + 1)
        ],
    }  # fmt: skip
    ticket, findings = read_ticket(document)
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


def best_names(of: ClubState) -> list[str]:
    return names_of(of.ticket, choices(of)[0].counts)


def test_a_frequency_is_moved_only_when_it_is_a_target_and_can_be_predicted() -> None:
    assert [goal.key for goal in moved_goals(club_state())] == ["swing_weight", "frequency"]
    assert [goal.key for goal in moved_goals(club_state(None))] == ["swing_weight"]
    assert [goal.key for goal in moved_goals(club_state(stiffness="words"))] == ["swing_weight"]
    assert [goal.key for goal in steered_goals(moved_goals(club_state()))] == ["swing_weight"]


def test_a_frequency_out_of_reach_does_not_draw_the_weight_away_from_the_swing_weight() -> None:
    without = best_names(club_state(None))
    assert best_names(club_state("290 cpm")) == without
    assert best_names(club_state("360 cpm")) == without


def test_the_chance_is_that_of_both_targets_together() -> None:
    of = club_state()
    target = 60 * float(of.predict(["frequency"], fitted=choices(of)[0].counts[None]).mean[0, 0])
    near = club_state(f"{target:.1f} cpm")
    best = choices(near)[0]
    assert best.keys == ("swing_weight", "frequency")
    assert 0.1 < best.chance < best.steered
    prediction = near.predict(["swing_weight", "frequency"], fitted=best.counts[None])
    draws = np.random.default_rng(7).multivariate_normal(prediction.mean[0], prediction.covariance[0], 200_000)
    goals = moved_goals(near)
    inside = np.all([(draws[:, i] > g.low) & (draws[:, i] < g.high) for i, g in enumerate(goals)], axis=0)
    assert best.chance == pytest.approx(float(inside.mean()), abs=0.005)


def test_a_weight_in_the_head_slows_the_club() -> None:
    of = club_state()
    sets = looked_at(of.ticket).sets
    fitted = sets[np.argsort(sets @ np.array([2.0, 4.0, 6.0]))]
    mass = fitted @ np.array([2.0, 4.0, 6.0])
    cpm = 60 * of.predict(["frequency"], fitted=fitted).mean[:, 0]
    assert np.all(np.diff(cpm)[np.diff(mass) > 0] < 0)
    # an independent calculation of a like club gives -0.58 cpm per gram at the ground point; a tip weight sits higher up
    assert -0.58 < (cpm[-1] - cpm[0]) / (mass[-1] - mass[0]) < -0.40


def test_another_head_is_sought_for_the_swing_weight_alone() -> None:
    """With a frequency that any club meets, at whose edge this one lies, the head is that of the swing weight."""
    plain = club_state(None, swing_weight="E4")
    wide = club_state("312 cpm", swing_weight="E4", within="12 cpm")
    found, wanted = another_head(wide, choices(wide)[0]), another_head(plain, choices(plain)[0])
    assert found is not None
    assert wanted is not None
    assert isinstance(found.data, Head) and isinstance(wanted.data, Head)
    assert found.data.mass_kg == pytest.approx(wanted.data.mass_kg, abs=1e-9)
    assert found.finished["swing_weight"][0] == pytest.approx(wanted.finished["swing_weight"][0], abs=1e-9)


def test_many_weights_are_worked_with_the_frequency_for_the_likeliest_only() -> None:
    of = club_state()
    found = choices(of, most=50)
    assert len(found) <= 11
    sets = looked_at(of.ticket).sets
    prediction = of.predict(["swing_weight"], fitted=sets)
    (goal,) = steered_goals(moved_goals(of))
    every = box_probability(prediction.mean, prediction.covariance, np.array([goal.low]), np.array([goal.high]))
    assert max(choice.steered for choice in found) == pytest.approx(float(every.max()), abs=1e-9)
