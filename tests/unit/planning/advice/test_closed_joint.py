"""A closed joint keeps what sits in the tip: no tip weight is advised, and pulling the head is an action of its own."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from clubwright.planning.advice.advice import Advice, advice_of
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.said.actions import Pull
from clubwright.ticket.read import read_ticket
from clubwright.words.advice import say_advice

TIP = {"name": "tip 6", "mass": "6 g", "seat": "tip", "lifts_shaft": "0 mm"}
PORT = {"name": "port 2", "mass": "2 g", "seat": "port"}


def state(*, glued: bool, job: str = "build", weights: tuple[dict[str, str], ...] = (TIP, PORT)) -> ClubState:
    """A wedge that lacks 6 g at the head, as far as anybody can see."""
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right", "job": job},
        "target": {"length": "35.25 in", "total_weight": "475 g"},
        "tolerance": {"total_weight": "1 g"},
        "head": {"mass": "300 g", "metal": "8620 carbon steel", "ports": "1"},
        "shaft": {"cut_length": "33.9 in", "cut_mass": "115 g", "material": "steel"},
        "grip": {"mass": "50 g", "cap": "5 mm"},
        "tape": [{"name": "double-sided", "mass": "2.6 g"}],
        "ferrule": {"mass": "0.6 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": list(weights),
    }
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket, glued=glued)


def named(club_state: ClubState, kind: str) -> list[Advice]:
    return [item for item in advice_of(club_state) if item.kind == kind]


def test_an_open_joint_is_told_to_take_the_weight_in_the_tip() -> None:
    open_joint = state(glued=False)
    assert named(open_joint, "fit")[0].weights == ("tip 6",)
    assert not named(open_joint, "pull")


@pytest.mark.parametrize(("glued", "job"), [(True, "build"), (False, "weight")])
def test_a_closed_joint_is_never_told_to_fit_one(glued: bool, job: str) -> None:
    closed = state(glued=glued, job=job)
    advised = [item for item in advice_of(closed) if item.kind in ("fit", "leave")]
    assert advised and all("tip 6" not in item.weights for item in advised)
    sets = looked_at(closed.ticket, closed=True).sets
    assert np.array_equal(sets, [[0, 0], [0, 1]])


def test_what_sits_in_the_tip_of_a_closed_joint_stays_in_every_set() -> None:
    closed = state(glued=True, weights=({**TIP, "fitted": "1"}, PORT))
    assert np.array_equal(looked_at(closed.ticket, closed=True).sets, [[1, 0], [1, 1]])


def test_pulling_the_head_is_an_action_with_its_minutes_and_cautions() -> None:
    (pull,) = named(state(glued=True), "pull")
    data = pull.data
    assert isinstance(data, Pull)
    assert data.weights == ("tip 6",) and pull.chance > data.best_now + 0.1
    assert {"pull head", "clean bore", "glue"} <= set(data.steps)
    assert data.hands_on_s >= 20 * 60
    for style in (None,):
        words = say_advice(pull, style)
        assert words.do == "take the head off, then fit tip 6"
        assert "min of work and a new cure" in words.why and "fumes" in words.why


def test_no_head_is_pulled_for_little() -> None:
    assert not named(state(glued=True, weights=({**TIP, "mass": "25 g"}, PORT)), "pull")


def test_a_closed_joint_is_offered_neither_another_head_nor_a_trim() -> None:
    closed, open_joint = (state(glued=glued, weights=(PORT,)) for glued in (True, False))
    assert named(open_joint, "head") and not named(closed, "head")
