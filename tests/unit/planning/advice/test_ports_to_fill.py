"""A port that must be filled is: no advice leaves it empty, and a tray that cannot fill it is told at once."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.planning.advice.advice import advice_of
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket


def document(
    to_fill: str | None, *, ports: str | None = "2", stock: tuple[tuple[float, str], ...] = ((2, "2"), (6, "1"))
) -> dict[str, Any]:
    """A wedge that reads as ordered with both ports empty; every port weight makes it too heavy."""
    head = {"mass": "300 g"} | ({} if ports is None else {"ports": ports})
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"total_weight": "463.2 g"},
        "tolerance": {"total_weight": "1 g"},
        "head": head | ({} if to_fill is None else {"ports_to_fill": to_fill}),
        "shaft": {"cut_length": "33.9 in", "cut_mass": "109.2 g"},
        "grip": {"mass": "50 g", "cap": "5 mm"},
        "tape": [{"name": "double-sided", "mass": "2.6 g"}],
        "ferrule": {"mass": "0.6 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [
            *({"name": f"port {g}", "mass": f"{g} g", "seat": "port", "count": n} for g, n in stock),
            {"name": "tape", "mass": "1 g", "seat": "head"},
        ],
    }


def state(raw: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(raw)
    assert ticket is not None, findings
    return club_state_of(ticket)


def filled(names: tuple[str, ...]) -> int:
    return sum(name.startswith("port") for name in names)


@pytest.mark.parametrize(
    ("to_fill", "least", "first"), [(None, 0, ()), ("1", 1, ("port 2",)), ("2", 2, ("port 2",) * 2)]
)
def test_no_advice_leaves_it_empty(to_fill: str | None, least: int, first: tuple[str, ...]) -> None:
    sets = [item for item in advice_of(state(document(to_fill))) if item.kind in ("fit", "leave")]
    assert sets[0].weights == first
    assert min(filled(item.weights) for item in sets) == least
    assert all(filled(other) >= least for item in sets for other in getattr(item.data, "equal", ()))


def test_two_ports_are_not_filled_by_one_piece_that_weighs_the_same() -> None:
    """2 + 2 g fill two ports, 4 g one: fewest pieces do not win where two ports must not stay empty."""
    raw = document("2", stock=((2, "2"), (4, "1")))
    weights = [tuple(row) for row in looked_at(state(raw).ticket).sets]
    assert (2, 0, 0) in weights and (0, 1, 0) not in weights and (1, 1, 0) in weights


def test_what_is_on_is_no_choice_where_it_leaves_the_port_empty() -> None:
    """Nothing is fitted yet: leaving it so is not offered."""
    assert all(item.kind != "leave" for item in advice_of(state(document("1"))))
    assert any(item.kind == "leave" for item in advice_of(state(document(None))))


@pytest.mark.parametrize(
    ("change", "severity", "what"),
    [
        (
            {"head": {"mass": "300 g", "ports": "1", "ports_to_fill": "2"}},
            "error",
            "2 ports are to be filled, the head has 1",
        ),
        (
            {"weight": [{"name": "tip", "mass": "2 g", "seat": "tip"}]},
            "warning",
            "2 ports must not stay empty, and the tray has 0 port weights",
        ),
        (
            {"shop": {"most_pieces": "1"}},
            "warning",
            "2 ports must not stay empty, and the shop fits 1 loose weights at most",
        ),
    ],
)
def test_a_tray_that_cannot_fill_them_is_told(change: dict[str, Any], severity: str, what: str) -> None:
    ticket, findings = read_ticket(document("2") | change)
    (found,) = [item for item in findings if item.what == what]
    assert found.severity == severity and "ports_to_fill" in str(found.where) and found.mend
    assert (ticket is None) == (severity == "error")


def test_as_many_are_filled_as_can_be() -> None:
    raw = document("2", stock=((2, "1"),))
    assert {filled(item.weights) for item in advice_of(state(raw)) if item.kind == "fit"} == {1}


def test_a_tray_that_can_says_nothing() -> None:
    _, findings = read_ticket(document("2"))
    assert not any("ports" in item.what for item in findings)
