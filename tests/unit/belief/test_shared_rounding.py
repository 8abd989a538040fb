"""Reading the same club again on a gauge whose step does not scatter teaches nothing, wherever it is asked."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest

from clubwright.planning.goals import goals_of
from clubwright.services.answer.club_answer import ClubAnswer, work_document
from clubwright.services.answer.inspection import inspect
from clubwright.services.answer.strips import strips_of

STILL = {"resolution": "1/2 pt", "repeatability": "0.001 pt"}
"""Steps of half a point, and no scatter to speak of."""


def worked(
    *values: str,
    gauge: dict[str, str] | None = None,
    quantity: str = "swing_weight",
    target: str = "D4",
    tolerance: str = "1/4 pt",
    stages: tuple[str, ...] = (),
    **more: Any,
) -> ClubAnswer:
    """Work an invented wedge with these readings; `more` goes into every reading."""
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {quantity: target},
        "tolerance": {quantity: tolerance},
        "shop": {"decision_rule": "guard 2u"},
        "instrument": {"gauge": gauge or STILL},
        "reading": [
            {
                "quantity": quantity,
                "value": value,
                "stage": stages[place] if stages else "finished",
                "instrument": "gauge",
                "keep": "yes",
                **more,
            }
            for place, value in enumerate(values)
        ],
    }
    return work_document(document)


def sd_of(found: ClubAnswer, quantity: str = "swing_weight") -> float:
    return float(found.club_state.predict([quantity]).sd()[0, 0])


@pytest.mark.parametrize("count", [2, 9])
def test_retyping_proves_no_verdict(count: int) -> None:
    once, again = inspect(worked("D4").club_state), inspect(worked(*["D4"] * count).club_state)
    assert once["swing_weight"].verdict == "cannot tell"
    assert again["swing_weight"].verdict == "cannot tell"
    assert again["swing_weight"].u == pytest.approx(0.5 / sqrt(12), rel=0.01)


def test_retyping_teaches_the_belief_nothing() -> None:
    once, nine = sd_of(worked("D4")), sd_of(worked(*["D4"] * 9))
    assert once == pytest.approx(0.5 / sqrt(12), rel=0.02)
    assert nine == pytest.approx(once, rel=0.01)


def test_a_gauge_without_any_scatter_may_be_read_twice() -> None:
    """Two readings then say the same thing twice, and a step apart they are not refused either."""
    still = {"resolution": "1/2 pt"}
    assert sd_of(worked("D4", "D4", gauge=still)) == pytest.approx(sd_of(worked("D4", gauge=still)), rel=1e-9)
    apart = worked("D4", "D4.5", gauge=still).club_state
    assert all(item.taken for item in apart.learned.judged)


def test_an_uncertainty_typed_behind_the_value_is_not_averaged_away() -> None:
    """Nobody knows what it is made of: typing it again makes the reading no better, another figure does not either."""
    once, nine = worked("D4 ± 0.15"), worked(*["D4 ± 0.15"] * 9)
    assert inspect(once.club_state)["swing_weight"].verdict == "cannot tell"
    assert inspect(nine.club_state)["swing_weight"].verdict == "cannot tell"
    assert sd_of(nine) == pytest.approx(sd_of(once), rel=1e-6)
    assert sd_of(worked("D4 ± 0.15", "D4 ± 0.16", "D4 ± 0.17")) == pytest.approx(sd_of(once), rel=1e-6)


@pytest.mark.parametrize(
    "gauge",
    [STILL, {"resolution": "1/2 pt", "repeatability": "0.1 pt", "bias": "0.05 pt"}, {"resolution": "0.1 pt"}],
    ids=["still", "some scatter", "none"],
)
def test_typed_one_by_one_is_as_the_mean_of_so_many(gauge: dict[str, str]) -> None:
    one_by_one = worked("D3.8", "D4", "D4.2", gauge=gauge)
    together = worked("D4", gauge=gauge, repeats="3")
    for quantity in ("swing_weight", "total_weight"):
        assert sd_of(one_by_one, quantity) == pytest.approx(sd_of(together, quantity), rel=1e-9)
        means = [float(found.club_state.predict([quantity]).mean[0, 0]) for found in (one_by_one, together)]
        assert means[0] == pytest.approx(means[1], rel=1e-9)
    verdicts = [inspect(found.club_state)["swing_weight"] for found in (one_by_one, together)]
    assert verdicts[0].u == pytest.approx(verdicts[1].u)
    assert verdicts[0].verdict == verdicts[1].verdict


def test_the_order_of_readings_does_not_matter() -> None:
    stages = ("finished", "dry, gripped", "finished", "dry, gripped")
    values = ("D4", "D3.5", "D4.5", "D3.5")
    for turned in ((0, 1, 2, 3), (3, 2, 1, 0), (1, 0, 3, 2)):
        found = worked(*[values[k] for k in turned], stages=tuple(stages[k] for k in turned))
        first = worked(*values, stages=stages)
        assert sd_of(found) == pytest.approx(sd_of(first), rel=1e-7)
        assert float(found.club_state.predict(["swing_weight"]).mean[0, 0]) == pytest.approx(
            float(first.club_state.predict(["swing_weight"]).mean[0, 0]), rel=1e-7
        )


def test_what_the_quantity_cannot_tell_apart_shares_its_rounding() -> None:
    """The loft does not know whether a grip is on; the swing weight does."""
    gauge = {"resolution": "1/2 deg"}
    loft = {"quantity": "loft", "target": "54 deg", "tolerance": "1/2 deg"}
    once = sd_of(worked("54 deg", gauge=gauge, **loft), "loft")
    twice = sd_of(worked("54 deg", "54 deg", gauge=gauge, stages=("dry, gripped", "finished"), **loft), "loft")
    assert twice == pytest.approx(once, rel=1e-6)
    apart = sd_of(worked("D4", "D4", stages=("dry, gripped", "finished")))
    assert apart < 0.95 * sd_of(worked("D4"))


@pytest.mark.parametrize("values", [("D4",), ("D4", "D4"), ("D4", "D4", "D4.5")])
def test_a_strip_s_tick_is_as_wide_as_its_verdict_is_unsure(values: tuple[str, ...]) -> None:
    found = worked(*values)
    (strip,) = strips_of(found)
    verdict = inspect(found.club_state)["swing_weight"]
    assert strip.tick is not None
    assert verdict.u is not None
    span = 2 * 0.25 / (strip.window[1] - strip.window[0])
    assert strip.tick.width * span == pytest.approx(verdict.u)
    assert verdict.measured is not None
    assert (strip.tick.place - strip.middle) * span == pytest.approx(verdict.measured - 34.0)


@pytest.mark.parametrize("target", ["D4", "D4.1", "D6"])
def test_a_strip_s_chance_is_the_answer_s(target: str) -> None:
    found = worked("D4", target=target)
    (strip,) = strips_of(found)
    assert strip.belief.chance == pytest.approx(found.answer()["finished"]["swing_weight"]["chance"], abs=1e-9)


def test_a_belief_without_spread_has_a_chance_too() -> None:
    (goal,) = goals_of(worked("D4").club_state.ticket)
    assert (goal.chance(34.0, 0.0), goal.chance(35.0, 0.0)) == (1.0, 0.0)


def test_what_settles_it_does_settle_it() -> None:
    """So many readings are asked for as the verdict, by its own uncertainty, then needs."""
    gauge = {"resolution": "1/4 pt", "repeatability": "0.12 pt"}
    asked = inspect(worked("D4.1", gauge=gauge).club_state)["swing_weight"]
    assert asked.verdict == "cannot tell"
    count = next(int(word) for word in asked.settle.split() if word.isdigit())
    assert inspect(worked(*["D4.1"] * count, gauge=gauge).club_state)["swing_weight"].verdict == "within"
    assert inspect(worked(*["D4.1"] * (count - 1), gauge=gauge).club_state)["swing_weight"].verdict == "cannot tell"
    still = inspect(worked("D4").club_state)["swing_weight"]
    assert "More readings do not help" in still.settle
