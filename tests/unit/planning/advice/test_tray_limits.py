"""Limits of pieces are never silent: every set is looked at as far as it goes, and what was left out is told."""

from __future__ import annotations

from itertools import product
from typing import Any

import numpy as np
import pytest

from clubwright.planning.advice.advice import advice_of
from clubwright.planning.advice.set_search import chances
from clubwright.planning.advice.tray import MOST_SETS, looked_at
from clubwright.planning.advice.weights import REACHED, choices, moved_goals
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Weights
from clubwright.ticket.read import read_ticket
from clubwright.words.advice import say_advice


def plain(masses: list[float], target_g: float, *, count: int = 1, **shop: str) -> dict[str, Any]:
    """A wedge of 463.2 g and a tray of loose weights, for a total weight."""
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"total_weight": f"{target_g:.2f} g"},
        "tolerance": {"total_weight": "0.5 g"},
        "head": {"mass": "300 g"},
        "shaft": {"cut_length": "33.9 in", "cut_mass": "109.2 g"},
        "grip": {"mass": "50 g", "cap": "5 mm"},
        "tape": [{"name": "double-sided", "mass": "2.6 g"}],
        "ferrule": {"mass": "0.6 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [
            {"name": f"lead {place}", "mass": f"{mass} g", "seat": "head", "count": str(count)}
            for place, mass in enumerate(masses)
        ],
        **({"shop": shop} if shop else {}),
    }


def state(masses: list[float], target_g: float, *, count: int = 1, **shop: str) -> ClubState:
    document = plain(masses, target_g, count=count, **shop)
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket)


def bare_g() -> float:
    club_state = state([1.0], 470)
    return float(club_state.predict(["total_weight"]).mean[0, 0]) * 1e3


def grams(club_state: ClubState, counts: np.ndarray) -> float:
    return float(
        sum(row.mass.value * 1e3 * count for row, count in zip(club_state.ticket.weights, counts, strict=True))
    )


def every_set(club_state: ClubState) -> np.ndarray:
    """All counts that the stock allows and that fit, one by one, without any thinning."""
    ticket = club_state.ticket
    stock = [round(row.count.value) if row.count else 1 for row in ticket.weights]
    rows = np.array(list(product(*(range(count + 1) for count in stock))), dtype=float)
    for seat, room in (("tip", 1), ("butt", 1), ("port", round(ticket.club.head.ports.value))):
        rows = rows[rows[:, [row.seat == seat for row in ticket.weights]].sum(axis=1) <= room]
    return rows


@pytest.mark.parametrize("seed", range(8))
def test_the_best_chance_is_that_of_all_sets_there_are(seed: int) -> None:
    """Random trays at all four seats, two targets, chances high and low: every combination of the stock by brute force."""
    random = np.random.default_rng(seed)
    document = plain([], 0)
    document["head"]["ports"] = "2"
    document["target"] = {
        "total_weight": f"{463 + random.uniform(0, 30):.1f} g",
        "swing_weight": f"D{random.uniform(0, 9):.1f}",
    }
    document["tolerance"] = {
        "total_weight": f"{random.uniform(0.8, 4):.1f} g",
        "swing_weight": f"{random.uniform(0.4, 2):.1f} pt",
    }
    document["weight"] = [
        {
            "name": f"w{place}",
            "mass": f"{random.uniform(0.5, 9):.2f} g ± 0.02 g",
            "seat": seat,
            "count": str(random.integers(1, 4)),
        }
        for place, seat in enumerate([*random.choice(["port", "tip", "butt", "head"], 5), "head"])
    ]
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    club_state = club_state_of(ticket)
    goals = moved_goals(club_state)
    every = club_state.predict([goal.key for goal in goals], fitted=every_set(club_state))
    best = choices(club_state)[0]
    assert looked_at(ticket).is_whole and best.left_out == 0
    assert best.chance == pytest.approx(float(chances(every, goals).max()), abs=0.01)


@pytest.mark.parametrize("seed", range(3))
def test_of_29_kinds_three_of_each_the_best_chance_is_found(seed: int) -> None:
    """4^29 sets: nobody tries them all. A set that hits the middle is there, and none can do better than that."""
    random = np.random.default_rng(seed)
    masses = [round(float(each), 2) for each in random.uniform(0.5, 12, 29)]
    wanted = float(random.uniform(20, 33))
    club_state = state(masses, bare_g() + wanted, count=3)
    best = choices(club_state)[0]
    assert best.left_out == 0 and abs(grams(club_state, best.counts) - wanted) <= 0.06


def test_a_larger_set_is_found_though_a_smaller_one_has_an_even_chance() -> None:
    """One piece of 7.6 g comes near 8 g, four of 2 g hit it: the four are first, whatever the one would have brought."""
    club_state = state([2.0, 7.6], bare_g() + 8, count=4)
    best = choices(club_state)[0]
    one = next(choice for choice in choices(club_state, most=50) if tuple(choice.counts) == (0, 1))
    assert tuple(best.counts) == (4, 0) and best.chance > one.chance > REACHED


def test_fifteen_pieces_are_advised_where_they_alone_reach() -> None:
    best = choices(state([2.0], bare_g() + 30, count=20))[0]
    assert best.counts.sum() == 15 and best.left_out == 0


def test_the_number_of_the_shop_is_kept() -> None:
    best = choices(state([2.0], bare_g() + 8, count=4, most_pieces="2"))[0]
    assert best.counts.sum() == 2 and best.looked == 0


def odd_masses(kinds: int) -> list[float]:
    return [float(each) for each in np.round(np.random.default_rng(5).uniform(0.5, 1.5, kinds), 6)]


def test_what_was_left_out_is_told_with_what_it_could_bring() -> None:
    """60 odd masses, 40 g wanted: sums of up to three are too few for it, and those of more too many to look at."""
    club_state = state(odd_masses(60), bare_g() + 40)
    looked = looked_at(club_state.ticket)
    assert not looked.is_whole and len(looked.sets) <= MOST_SETS
    first = next(item for item in advice_of(club_state) if item.kind == "fit")
    assert isinstance(first.data, Weights) and first.data.looked == looked.pieces
    goal = club_state.goals[0]
    sure = goal.chance(goal.target, float(club_state.predict(["total_weight"]).sd()[0, 0]))
    assert first.chance < first.data.left_out <= sure
    why = say_advice(first, None).why
    assert (
        f"sets of more than {looked.pieces} pieces were not looked at, and bring {first.data.left_out:.0%} at most"
        in why
    )


def test_nothing_is_said_where_what_was_left_out_cannot_be_better() -> None:
    """A set of two hits the middle: more pieces bring no more."""
    masses = odd_masses(60)
    best = choices(state(masses, bare_g() + masses[0] + masses[1]))[0]
    assert best.counts.sum() <= 3 and best.looked == 0 and best.left_out == 0


def test_what_was_left_out_is_told_above_an_even_chance_too() -> None:
    """The two heaviest fall 0.35 g short of what is wanted: a good chance, and more pieces might bring a better one."""
    masses = odd_masses(60)
    best = choices(state(masses, bare_g() + sum(sorted(masses)[-2:]) + 0.35))[0]
    assert REACHED < best.chance < best.left_out and best.looked == 2
