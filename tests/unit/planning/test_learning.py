"""A reading is kept aside where all readings of the club say so, and its causes are those of all of them."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.club.stages import STAGES
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.learning import CHANCE, known_of
from clubwright.planning.misfits import misfits_of
from clubwright.ticket.read import read_ticket

PARTS: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
    "target": {"length": "35.25 in", "swing_weight": "D4"},
    "head": {
        "mass": "300 g ± 0.1 g",
        "cg_from_ground": "-4 mm ± 2 mm",
        "bore_to_ground": "30 mm",
        "bore_depth": "33 mm",
    },
    "shaft": {"raw_length": "33.9 in", "mass": "105 g ± 0.1 g", "balance_from_tip": "17 in"},
    "grip": {"mass": "50 g ± 0.1 g", "cap": "5 mm"},
    "tape": [{"name": "double-sided", "mass": "2.6 g", "layers": "2"}],
    "ferrule": {"mass": "0.7 g"},
    "weight": [{"name": f"port {grams}", "mass": f"{grams} g", "seat": "port"} for grams in (2, 4, 6)],
}
STAGE = "dry, gripped"


def state(**read: float) -> ClubState:
    """Work the club with what its parts foretell as readings, each off by a stated amount."""
    bare = worked([])
    found = []
    for quantity in ("total_weight", "swing_weight", "length"):
        mean = float(bare.predict([quantity], STAGES[STAGE]).mean[0, 0]) + read.get(quantity, 0.0)
        text = f"{mean * 1e3:.3f} g" if quantity == "total_weight" else f"{mean * 1e3:.3f} mm"
        if quantity == "swing_weight":
            text = f"{'ABCDEFG'[int(mean // 10)]}{mean % 10:.3f}"
        found.append({"quantity": quantity, "value": text, "stage": STAGE})
    return worked(found)


def worked(readings: list[dict[str, Any]], **tables: Any) -> ClubState:
    ticket, findings = read_ticket({**PARTS, **tables, "reading": readings})
    assert ticket is not None, findings
    return club_state_of(ticket)


def kinds(club_state: ClubState) -> list[str]:
    (misfit, *_) = misfits_of(club_state)
    return [cause.kind if cause.also is None else f"{cause.kind} and {cause.also.kind}" for cause in misfit.causes]


def test_a_reading_a_little_beyond_the_limit_is_chance_and_stays_in() -> None:
    spread = state().learned.judged[0].expected_sd
    club_state = state(total_weight=3.5 * spread)
    first = club_state.learned.judged[0]
    assert first.off_by_sd > 3.3 and first.taken and not club_state.explained
    far = state(total_weight=6 * spread)
    assert not far.learned.judged[0].taken
    (told,) = far.explained.values()
    assert told.nothing < CHANCE


def test_a_weight_left_in_the_port_is_named_with_its_piece() -> None:
    """4.0 g more, and 2.2 points more: the piece, before or behind a head that is so much heavier."""
    club_state = state(total_weight=4e-3, swing_weight=2.2)
    (misfit, *_) = misfits_of(club_state)
    assert {cause.kind for cause in misfit.causes[:2]} == {"weights", "figure"}
    assert next(cause.detail for cause in misfit.causes if cause.kind == "weights") == "port 4"
    assert next(cause.path for cause in misfit.causes if cause.kind == "figure") == "head.mass_kg"


def test_a_length_that_lacks_the_cap_was_read_to_the_butt() -> None:
    assert kinds(state(length=-5e-3))[0] == "to the butt"


def test_a_head_is_not_blamed_on_the_grip_when_the_swing_weight_rose_with_it() -> None:
    (misfit, *_) = misfits_of(state(total_weight=-4e-3, swing_weight=-2.3))
    assert misfit.causes[0].path == "head.mass_kg"
    assert misfit.causes[0].change == pytest.approx(-4e-3, rel=0.15)


def test_how_the_numbers_of_the_parts_are_known() -> None:
    club_state = worked(
        [],
        grip={"mass": "50 g", "cap": "5 mm", "gauges": {"mass": "gram scale"}},
        instrument={"gram scale": {"resolution": "0.1 g", "repeatability": "0.1 g", "bias": "0.1 g"}},
    )
    known = known_of(club_state.ticket, club_state.prior)
    assert "grip.cg_from_cap_m" in known.assumed and "head.cg_from_ground_m" not in known.assumed
    assert known.weighed == {"grip.mass_kg"}
    assert "head.mass_kg" not in known.assumed | known.weighed
    assert known.layers == (2,)


def test_a_reading_off_of_a_club_that_comes_off_its_shaft_is_explained() -> None:
    """The old adhesive in its joint is an unknown too, of which no ticket has a table: nothing but the default is known."""
    made = {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right", "job": "reshaft"}}
    off = {"quantity": "total_weight", "value": "700 g", "stage": "as it came"}
    old = {"old_grip": {"mass": "50 g"}, "old_shaft": {"mass": "110 g"}, "old_ferrule": {"mass": "0.7 g"}}
    club_state = worked([off], **made, **old)
    (misfit, *_) = misfits_of(club_state)
    assert misfit.causes
    assert "came.adhesive.mass_kg" in known_of(club_state.ticket, club_state.prior).assumed
