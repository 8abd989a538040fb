"""What is fitted now is always among the answers, and sets that do the same are one line, the one of fewest pieces."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import numpy as np

from clubwright.planning.advice.advice import advice_of
from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Weights
from clubwright.ticket.read import read_ticket
from clubwright.words.advice import say_advice
from repository import ROOT

WEDGE = tomllib.loads((ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8"))


def club_state(weights: list[dict[str, Any]], ports: str | None = "2") -> ClubState:
    document = copy.deepcopy(WEDGE)
    document["head"].pop("ports")
    if ports is not None:
        document["head"]["ports"] = ports
    document.pop("reading", None)
    document["weight"] = weights
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


def test_two_weights_of_one_mass_are_one_choice() -> None:
    found = choices(club_state([port("old", 4.0), port("new", 4.0)]), most=10)
    assert [choice.counts.sum() for choice in found if choice.counts.sum() == 1] == [1]


def test_the_same_grams_at_the_same_place_share_one_line_that_names_both() -> None:
    """2 + 4 and 6 g in the port: one line, the single piece first; at another place the same grams are another."""
    rows = [port("two", 2.0), port("four", 4.0), port("six", 6.0), {**port("toe", 6.0), "from_ground": "2 mm"}]
    state = club_state(rows, ports=None)
    lines = [item for item in advice_of(state) if item.kind == "fit"]
    assert not any(set(item.weights) == {"two", "four"} for item in lines)
    (six,) = [item for item in lines if item.weights == ("six",)]
    assert isinstance(six.data, Weights) and six.data.equal == (("two", "four"),)
    assert say_advice(six, None).do == "fit six, or two + four, which does the same"
    assert any(item.weights == ("toe",) for item in lines)


def test_what_is_fitted_now_stands_for_all_that_do_the_same() -> None:
    """Nobody is told to take 2 + 4 g out for 6 g."""
    rows = [{**port("two", 2.0), "fitted": "1"}, {**port("four", 4.0), "fitted": "1"}, port("six", 6.0)]
    state = club_state(rows)
    found = choices(state, most=10)
    assert [tuple(choice.counts) for choice in found if not choice.changed] == [(1.0, 1.0, 0.0)]
    assert not any(tuple(choice.counts) == (0.0, 0.0, 1.0) for choice in found)


def test_of_many_that_do_the_same_none_is_looked_at_twice() -> None:
    """Pairs of one mass are one choice; those kept differ, and what is on is one of them."""
    state = club_state([port(f"p{place}", 2.0 + 0.25 * (place // 2)) for place in range(40)])
    found = choices(state, most=100)
    assert len({tuple(choice.counts) for choice in found}) == len(found)
    masses = np.array([2.0 + 0.25 * (place // 2) for place in range(40)])
    sums = [float(choice.counts @ masses) for choice in found]
    assert len(set(sums)) == len(sums)
    assert any(not choice.changed for choice in found)
