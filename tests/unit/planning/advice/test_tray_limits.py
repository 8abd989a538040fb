"""Limits of pieces are never silent: every set is looked at as far as it goes, and what was left out is told."""

from __future__ import annotations

from itertools import combinations_with_replacement
from typing import Any

import numpy as np
import pytest

from clubwright.planning.advice.advice import advice_of
from clubwright.planning.advice.tray import MANY_PIECES, looked_at
from clubwright.planning.advice.weights import REACHED, choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Weights
from clubwright.ticket.read import read_ticket
from clubwright.words.advice import say_advice


def state(masses: list[float], target_g: float, *, count: int = 1, **shop: str) -> ClubState:
    """A wedge of 463.2 g and a tray of loose weights, for a total weight."""
    document: dict[str, Any] = {
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


def by_brute_force(masses: list[float], wanted_g: float, pieces: int) -> float:
    sums = (sum(each) for size in range(pieces + 1) for each in combinations_with_replacement(masses, size))
    return min(abs(total - wanted_g) for total in sums)


@pytest.mark.parametrize("seed", range(3))
def test_of_29_kinds_the_best_three_are_found(seed: int) -> None:
    random = np.random.default_rng(seed)
    masses = [round(float(each), 2) for each in random.uniform(0.5, 12, 29)]
    wanted = float(random.uniform(20, 33))
    club_state = state(masses, bare_g() + wanted, count=3)
    best = choices(club_state)[0]
    assert best.counts.sum() <= 3
    assert abs(grams(club_state, best.counts) - wanted) <= by_brute_force(masses, wanted, 3) + 0.06


def test_every_set_is_there_once() -> None:
    looked = looked_at(state([1.0, 2.0, 3.0], 470, count=2).ticket)
    rows = {tuple(row) for row in looked.sets}
    by_hand = {
        tuple(float(each.count(place)) for place in range(3))
        for size in range(4)
        for each in combinations_with_replacement(range(3), size)
        if max((each.count(place) for place in range(3)), default=0) <= 2
    }
    assert rows == by_hand and len(rows) == len(looked.sets)
    assert not looked.is_whole and looked.pieces == 3


def test_a_fourth_piece_is_found_where_three_do_not_reach() -> None:
    """Four pieces of 2 g reach 8 g more; nobody said that three are the most."""
    club_state = state([2.0], bare_g() + 8, count=4)
    best = choices(club_state)[0]
    assert best.counts.sum() == 4 and best.chance > REACHED
    (told,) = [item for item in advice_of(club_state) if item.weights == ("lead 0",) * 4]
    assert isinstance(told.data, Weights) and told.data.looked == 0


def test_the_number_of_the_shop_is_kept() -> None:
    best = choices(state([2.0], bare_g() + 8, count=4, most_pieces="2"))[0]
    assert best.counts.sum() == 2 and best.looked == 0


def test_what_was_left_out_is_told() -> None:
    club_state = state([2.0], bare_g() + 30, count=20)
    first = next(item for item in advice_of(club_state) if item.kind == "fit")
    assert isinstance(first.data, Weights) and first.data.looked == MANY_PIECES
    assert f"sets of more than {MANY_PIECES} pieces were not looked at" in say_advice(first, None).why
