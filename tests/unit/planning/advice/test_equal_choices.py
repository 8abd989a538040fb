"""What is fitted now is always among the answers, and of sets that do the same the one with fewer pieces comes first."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import numpy as np

from clubwright.planning.advice.weights import SHORTLIST, choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket
from repository import ROOT

WEDGE = tomllib.loads((ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8"))


def club_state(weights: list[dict[str, Any]], now: list[str] | None = None) -> ClubState:
    document = copy.deepcopy(WEDGE)
    document.pop("reading", None)
    document["weight"] = weights
    if now is not None:
        document["fitted"] = {"weights": now}
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket)


def port(name: str, grams: float) -> dict[str, Any]:
    return {"name": name, "mass": f"{grams} g", "seat": "port", "from_ground": "10 mm"}


def test_what_is_fitted_now_is_among_the_answers_however_few_are_asked_for() -> None:
    state = club_state([port("two", 2.0), port("four", 4.0), port("six", 6.0)])
    for most in (1, 2, 3, 6):
        found = choices(state, most=most)
        assert sum(not choice.changed for choice in found) == 1
        assert len(found) <= most + 1


def test_two_weights_of_one_mass_are_two_choices_with_one_chance() -> None:
    found = choices(club_state([port("old", 4.0), port("new", 4.0)]), most=10)
    one = [choice for choice in found if choice.counts.sum() == 1]
    assert len(one) == 2
    assert one[0].chance == one[1].chance and one[0].miss == one[1].miss
    assert not np.array_equal(one[0].counts, one[1].counts)


def test_of_many_that_do_the_same_none_is_looked_at_twice() -> None:
    """More sets than are looked at with their full uncertainty: those kept differ, and what is on is one of them."""
    state = club_state([port(f"p{place}", 2.0 + 0.25 * (place // 2)) for place in range(40)])
    found = choices(state, most=100)
    assert SHORTLIST <= len(found) <= SHORTLIST + 1
    assert len({tuple(choice.counts) for choice in found}) == len(found)
    assert any(not choice.changed for choice in found)
