"""Simulated clubs: right at the first fit, fewer misses than the trade's rules, and promises that come true.

A small run of benchmarks/virtual_bench.py. The true clubs are worked by mechanics written out there a second time; the
chances are held against how often the true club was right.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))

from virtual.benches import CAREFUL, CLUBS_OF_A_SHOP, PLAIN, UNCHECKED, Bench
from virtual.drawing import draw, letters
from virtual.mechanics import weighed
from virtual.methods import by_belief, right
from virtual.report import calibration, shares
from virtual.running import COLUMNS, Run, work, work_all

from clubwright.club.parts import KINDS, Kind
from clubwright.club.stages import STAGES
from clubwright.notation import parse
from clubwright.planning.club_state import club_state_of
from clubwright.ticket.read import read_ticket

CLUBS = 300
SEED = 1


def run_of(bench: Bench, *, wider: float = 1.0, stop: int = CLUBS) -> Run:
    return Run(kind="wedge", bench=bench, seed=SEED, start=0, stop=stop, wider=wider)


@pytest.fixture(scope="module")
def careful() -> np.ndarray:
    return work(run_of(CAREFUL))


def test_wedges_on_a_careful_bench_are_right_at_the_first_fit(careful: np.ndarray) -> None:
    found = shares(careful)

    assert found["right"]["clubwright"] >= 0.95
    assert found["misses_to_rule"] <= 1 / 3
    assert found["swaps_per_club"]["clubwright"] < found["swaps_per_club"]["rule"]


def test_the_promised_chance_comes_true(careful: np.ndarray) -> None:
    found = calibration(careful)
    error = np.sqrt(found["brier_if_honest"] / found["clubs"])

    assert abs(found["delivered"] - found["promised"]) <= 3 * error


def test_a_promise_made_on_parts_worse_than_stated_is_seen_to_fail() -> None:
    found = calibration(work(replace(run_of(PLAIN, wider=2.0, stop=200), only_belief=True)))
    error = np.sqrt(found["brier_if_honest"] / found["clubs"])

    assert found["delivered"] < found["promised"] - 3 * error


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("stage", ["dry, no grip", "dry, taped", "dry, gripped", "finished"])
def test_the_second_mechanics_agrees_with_the_package(kind: Kind, stage: str) -> None:
    case = draw(kind, replace(PLAIN, readings=0), 1.0, np.random.default_rng(SEED))
    ticket, findings = read_ticket(case.document)
    assert ticket is not None, findings
    sets = np.zeros((2, len(case.labels_g)))
    sets[1, 3] = 1

    ours = club_state_of(ticket).predict(["total_weight", "swing_weight"], STAGES[stage], sets).mean

    for row, fitted in zip(ours, (None, 3), strict=True):
        assert row == pytest.approx(weighed(case.nominal, stage, fitted), rel=1e-9)


def test_no_club_depends_on_how_the_work_is_shared_out() -> None:
    whole = work(run_of(PLAIN, stop=6))
    (shared,) = work_all([replace(run_of(PLAIN), start=3, stop=6)], jobs=2)

    np.testing.assert_array_equal(whole[3:], shared)


def test_a_reading_set_aside_is_kept_when_the_clubmaker_says_so() -> None:
    bench = replace(CAREFUL, name="far head")
    case = draw("wedge", bench, 1.0, np.random.default_rng(SEED))
    # A head whose centre of gravity lies five standard uncertainties from its kind's default.
    case.truth.head_cg_m = case.nominal.head_cg_m - 0.030
    points = weighed(case.truth, bench.stage, None)[1]
    case.document["reading"][0]["value"] = letters(points)
    case.target = round(weighed(case.truth, "finished", 6)[1], 1)
    case.document["target"]["swing_weight"] = letters(case.target)

    chosen = by_belief(case.document)

    assert right(case, chosen.fitted)
    assert chosen.chance > 0.9


@pytest.mark.parametrize("points", [29.96, 30.0, 34.25, 39.99, 61.5, 72.0])
def test_points_are_written_as_the_ticket_reads_them(points: float) -> None:
    assert parse("swing_weight", letters(points)).value == pytest.approx(points)


def test_tenths_count_every_club_once_and_compare_promise_with_delivery() -> None:
    rows = np.zeros((1000, len(COLUMNS)))
    rows[:, COLUMNS.index("chance")] = np.repeat([0.25, 1.0], 500)
    rows[:100, COLUMNS.index("clubwright")] = 1
    rows[500:, COLUMNS.index("clubwright")] = 1

    found = calibration(rows)

    assert [tenth["clubs"] for tenth in found["tenths"]] == [0, 0, 500, 0, 0, 0, 0, 0, 0, 500]
    assert found["tenths"][2]["promised"] == pytest.approx(0.25)
    assert found["tenths"][2]["delivered"] == pytest.approx(0.2)
    assert found["tenths"][9]["delivered"] == 1.0
    assert found["brier"] == pytest.approx((100 * 0.75**2 + 400 * 0.25**2) / 1000)


def test_where_a_shops_errors_are_common_to_its_clubs_the_defaults_promise_no_more_than_is_kept() -> None:
    """The errors of one shop are one draw for five clubs, so that shops are counted, not clubs."""
    found = calibration(work(Run(kind="wedge", bench=UNCHECKED, seed=SEED, start=0, stop=400, only_belief=True)))
    error = np.sqrt(found["brier_if_honest"] / (found["clubs"] / CLUBS_OF_A_SHOP))

    assert found["promised"] - found["delivered"] <= 0.02 + error
