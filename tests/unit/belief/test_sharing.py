"""Readings of one club in the belief: full correlated noise, who shares with whom, and what a further reading is worth."""

from __future__ import annotations

from typing import Any

import msgspec
import numpy as np
import pytest

from clubwright.belief.causes.explain import explain
from clubwright.belief.gaussian import condition
from clubwright.belief.instruments import Instrument
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import already_read, groups_of, together
from clubwright.belief.update import learn, predict_readings, with_biases
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, FINISHED
from clubwright.planning.advice.read_again import _value, read_again
from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import ClubState
from clubwright.services.answer.club_answer import work_document
from clubwright.services.report.reading_back import read_back
from worked_beliefs import CONVENTIONS, TEMPLATE, prior, reading, shown

COARSE = Instrument(name="swing-weight scale", resolution=0.5, repeatability=0.12, bias=0.1)
STILL = msgspec.structs.replace(COARSE, repeatability=0.0)
ONE, TWO = (1.0, 0.0), (0.0, 1.0)


def read(off: float, stage: Any = FINISHED, gauge: Instrument = COARSE, **more: Any) -> Reading:
    item = reading("swing_weight", stage, shown("swing_weight", stage) + off, **more)
    return msgspec.structs.replace(item, instrument=gauge)


def test_the_belief_is_that_of_the_full_noise_matrix() -> None:
    """Conditioned on every reading by itself, with each pair's covariance written out: the same mean and covariance."""
    items = [read(0.1), read(0.3, DRY_GRIPPED), read(-0.1), read(0.2, DRY_GRIPPED), read(0.2)]
    items[4] = msgspec.structs.replace(items[4], repeats=3)
    shared, own = COARSE.shared_variance, COARSE.own_variance
    noise = np.zeros((5, 5))
    for row, one in enumerate(items):
        for column, other in enumerate(items):
            noise[row, column] = shared * (one.stage is other.stage) + own / one.repeats * (row == column)
    before = with_biases(prior(), items)
    seen = np.array([item.value for item in items])
    written_out = condition(
        before, lambda at: predict_readings(TEMPLATE, CONVENTIONS, before.names, at, items), seen, noise
    )
    ours = learn(prior(), TEMPLATE, CONVENTIONS, items).belief
    sd = np.sqrt(np.diag(before.covariance))
    assert np.max(np.abs(ours.mean - written_out.mean) / sd) < 1e-8
    assert np.max(np.abs(ours.covariance - written_out.covariance) / np.outer(sd, sd)) < 1e-8


def test_who_shares_with_whom() -> None:
    other = msgspec.structs.replace(COARSE, name="other scale")
    items = [
        read(0.0),
        read(0.5),
        read(0.0, DRY_GRIPPED),
        read(0.0, fitted=ONE),
        read(0.0, gauge=other),
        reading("total_weight", FINISHED, 0.46),
        read(0.0, fitted=TWO),
        read(0.1, DRY_GRIPPED),
        reading("loft", DRY_NO_GRIP, 0.96, fitted=ONE),
        reading("loft", FINISHED, 0.96),
        reading("grip.mass_kg", FINISHED, 0.05),
        reading("grip.mass_kg", DRY_NO_GRIP, 0.05),
    ]
    assert groups_of(prior(), TEMPLATE, CONVENTIONS, items) == (0, 0, 2, 3, 4, 5, 6, 2, 8, 8, 10, 10)


def test_stated_figures_share_the_smaller_of_what_either_shares() -> None:
    gauges = [Instrument(name="scale", resolution=0.0, repeatability=0.0, stated=each) for each in (0.2, 0.1, 0.2)]
    means, noise = together([read(0.0, gauge=each) for each in gauges], (0, 0, 0))
    assert means.tolist() == [[0.5, 0.0, 0.5], [0.0, 1.0, 0.0]]
    assert noise == pytest.approx(np.array([[0.04, 0.01], [0.01, 0.01]]))


@pytest.mark.parametrize(("before", "repeats"), [(0, 2), (1, 1), (2, 3), (9, 1)])
def test_what_more_readings_teach_adds_up(before: int, repeats: int) -> None:
    more = COARSE.noise_of_more(repeats, before)
    precision = (1 / COARSE.noise(before) ** 2 if before else 0.0) + 1 / more**2
    assert precision == pytest.approx(1 / COARSE.noise(before + repeats) ** 2)
    assert STILL.noise_of_more(repeats, 1) == np.inf


def test_how_often_a_club_was_read() -> None:
    taken = [read(0.0), read(0.0, DRY_GRIPPED), msgspec.structs.replace(read(0.0), repeats=3), read(0.0, gauge=STILL)]
    assert already_read(prior(), TEMPLATE, CONVENTIONS, taken, read(0.0), {}) == 4
    assert already_read(prior(), TEMPLATE, CONVENTIONS, taken, read(0.0, DRY_NO_GRIP), {}) == 0


def test_the_first_weighing_of_a_part_is_one_of_its_weighings() -> None:
    """It stands in the table of the part, no reading; by another gauge, or of the part before a change, it is none."""
    scale = Instrument(name="gram scale", resolution=1e-4, repeatability=5e-5)
    again = msgspec.structs.replace(reading("grip.mass_kg", DRY_NO_GRIP, 0.05), instrument=scale)
    for taken, measured, count in (
        ([], {}, 0),
        ([], {"grip.mass_kg": scale}, 1),
        ([again, msgspec.structs.replace(again, repeats=2)], {"grip.mass_kg": scale}, 4),
        ([again], {"grip.mass_kg": msgspec.structs.replace(scale, name="other")}, 1),
        ([again], {"head.mass_kg": scale}, 1),
    ):
        assert already_read(prior(), TEMPLATE, CONVENTIONS, taken, again, measured) == count
    then = msgspec.structs.replace(again, then=0)
    assert already_read(prior(), TEMPLATE, CONVENTIONS, [], then, {"grip.mass_kg": scale}) == 0


def test_a_misfit_beside_two_equal_readings_is_explained() -> None:
    """Without scatter two equal readings have one noise between them, which no matrix of theirs could be inverted with."""
    items = [read(0.0, gauge=STILL), read(0.0, gauge=STILL), read(4.0, gauge=STILL, where="[[reading]] 3")]
    learned = learn(prior(), TEMPLATE, CONVENTIONS, items)
    assert [item.taken for item in learned.judged] == [True, True, False]
    where = "[[reading]] 3"
    told = explain(prior(), TEMPLATE, CONVENTIONS, items, [where])[where]
    assert (told.ranked[0].causes[0].kind, told.ranked[0].causes[0].readings) == ("reading", (where,))
    assert all(np.isfinite(item.chance) for item in told.ranked)


def test_a_step_between_two_readings_is_no_misfit() -> None:
    learned = learn(prior(), TEMPLATE, CONVENTIONS, [read(0.0, gauge=STILL), read(0.5, gauge=STILL)])
    assert [item.taken for item in learned.judged] == [True, True]


def coarse_bench(repeatability: str) -> ClubState:
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"swing_weight": "D4"},
        "tolerance": {"swing_weight": "1/4 pt"},
        "weight": [
            {"name": f"port {grams}", "mass": f"{grams} g", "seat": "port", "from_ground": "10 mm ± 0.1 mm"}
            for grams in range(1, 13)
        ],
        "instrument": {"scale": {"resolution": "1 pt", "repeatability": repeatability}},
        "reading": [{"quantity": "swing_weight", "value": "D2", "stage": "finished", "instrument": "scale"}],
    }
    return work_document(document).club_state


def test_reading_a_still_scale_again_is_worth_nothing() -> None:
    """It would show the same again, and would be advised if it counted as new; a scale that scatters over its step gains."""
    still, lively = coarse_bench("0.001 pt"), coarse_bench("0.5 pt")
    for club_state, least, most in ((still, -1e-3, 1e-3), (lively, 0.05, 1.0)):
        gained = _value(club_state, "swing_weight")[0] - choices(club_state)[0].steered
        assert least < gained < most
    advised = read_again(still, choices(still)[0])
    assert advised is None or msgspec.to_builtins(advised.data)["quantity"] != "swing_weight"


def test_a_reading_is_far_only_beyond_what_its_gauge_may_err() -> None:
    """The belief is narrow after many readings, and the next one may still stand a step off."""
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"swing_weight": "D4"},
        "instrument": {"scale": {"resolution": "1/2 pt", "repeatability": "0.4 pt"}},
        "reading": [
            {"quantity": "swing_weight", "value": "D4", "instrument": "scale", "repeats": "30"},
        ],
    }
    worked = work_document(document)
    assert float(worked.club_state.predict(["swing_weight"]).sd()[0, 0]) < 0.1
    assert not read_back(worked, "swing_weight", "D4.5", "finished").far
    assert read_back(worked, "swing_weight", "D6", "finished").far
