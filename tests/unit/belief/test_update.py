"""Taking readings in: what is kept, what is set aside, and that one reading speaks of every stage."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest

from clubwright.belief.gaussian import Gaussian, condition
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import predict
from clubwright.belief.unknowns import bias_name
from clubwright.belief.update import INNOVATION_LIMIT, learn, with_biases
from clubwright.club.build import Build
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, FINISHED
from clubwright.club.swing_weight import swing_weight_points
from clubwright.errors import NotPossible
from worked_beliefs import CONVENTIONS, GAUGES, NONE_ON, TEMPLATE, club_at, prior, reading, shown
from worked_clubs import GRAM

FITTED = np.array([NONE_ON])


def finished(belief: Gaussian, key: str = "swing_weight") -> tuple[float, float]:
    found = predict(belief, TEMPLATE, CONVENTIONS, [key], FINISHED, FITTED)
    return float(found.mean[0, 0]), float(found.sd()[0, 0])


def test_no_reading_leaves_the_prior() -> None:
    learned = learn(prior(), TEMPLATE, CONVENTIONS, [])
    assert learned.belief.names == prior().names
    assert np.array_equal(learned.belief.mean, prior().mean)
    assert learned.judged == ()


def test_a_dry_reading_speaks_of_the_finished_club() -> None:
    before, before_sd = finished(prior())
    value = shown("swing_weight", DRY_NO_GRIP) + 0.4
    learned = learn(prior(), TEMPLATE, CONVENTIONS, [reading("swing_weight", DRY_NO_GRIP, value)])
    after, after_sd = finished(learned.belief)
    assert 0.2 < after - before < 0.4
    assert after_sd < 0.6 * before_sd


def test_the_belief_says_again_what_was_read() -> None:
    """A nearly perfect gauge: the club at the belief's mean reads it."""
    fine = Instrument(name="fine", resolution=0.0, repeatability=1e-4)
    value = shown("swing_weight", DRY_NO_GRIP) + 0.3
    item = msgspec.structs.replace(reading("swing_weight", DRY_NO_GRIP, value), instrument=fine)
    learned = learn(prior(), TEMPLATE, CONVENTIONS, [item])
    build = Build(club=club_at(learned.belief), stage=DRY_NO_GRIP, fitted=NONE_ON)
    assert swing_weight_points(build) == pytest.approx(value, abs=1e-5)


@pytest.mark.parametrize(("share", "taken"), [(0.99, True), (1.01, False), (-0.99, True), (-1.01, False)])
def test_the_limit(share: float, taken: bool) -> None:
    """Just inside the limit it is in the belief, just outside it is set aside."""
    expected = shown("swing_weight", DRY_NO_GRIP)
    probe = learn(prior(), TEMPLATE, CONVENTIONS, [reading("swing_weight", DRY_NO_GRIP, expected)]).judged[0]
    value = expected + share * INNOVATION_LIMIT * probe.expected_sd
    learned = learn(prior(), TEMPLATE, CONVENTIONS, [reading("swing_weight", DRY_NO_GRIP, value)])
    assert learned.judged[0].taken is taken
    assert learned.judged[0].off_by_sd == pytest.approx(share * INNOVATION_LIMIT)
    assert len(learned.set_aside) == (0 if taken else 1)
    if not taken:
        assert finished(learned.belief) == pytest.approx(finished(prior()))


def test_the_expectation_has_the_gauge_in_it() -> None:
    gauge = GAUGES["swing_weight"]
    item = learn(
        prior(), TEMPLATE, CONVENTIONS, [reading("swing_weight", DRY_NO_GRIP, shown("swing_weight", DRY_NO_GRIP))]
    ).judged[0]
    parts = predict(prior(), TEMPLATE, CONVENTIONS, ["swing_weight"], DRY_NO_GRIP, FITTED).sd()[0, 0]
    assert item.expected_sd == pytest.approx(np.hypot(parts, gauge.uncertainty()))


@pytest.mark.parametrize(("keep", "taken"), [(True, True), (False, False)])
def test_a_person_decides(keep: bool, taken: bool) -> None:
    far = shown("total_weight", DRY_GRIPPED) + 4 * GRAM
    near = shown("total_weight", DRY_GRIPPED)
    for value in (far, near):
        item = reading("total_weight", DRY_GRIPPED, value, keep=keep)
        assert learn(prior(), TEMPLATE, CONVENTIONS, [item]).judged[0].taken is taken


def test_a_reading_set_aside_does_not_spoil_the_next() -> None:
    good = shown("total_weight", DRY_GRIPPED)
    readings = [
        reading("total_weight", DRY_GRIPPED, good + 9 * GRAM, where="[[reading]] 1"),
        reading("total_weight", DRY_GRIPPED, good, where="[[reading]] 2"),
    ]
    learned = learn(prior(), TEMPLATE, CONVENTIONS, readings)
    assert [item.taken for item in learned.judged] == [False, True]
    alone = learn(prior(), TEMPLATE, CONVENTIONS, readings[1:])
    assert finished(learned.belief, "total_weight") == pytest.approx(finished(alone.belief, "total_weight"))


def test_one_gauge_has_one_bias_for_each_quantity() -> None:
    items = [
        reading("swing_weight", DRY_NO_GRIP, 1.0),
        reading("swing_weight", DRY_GRIPPED, 1.0),
        reading("total_weight", DRY_GRIPPED, 0.4),
        reading("length", DRY_GRIPPED, 0.9),
    ]
    added = with_biases(prior(), items).names[len(prior().names) :]
    assert added == (bias_name("swing-weight scale", "swing_weight"), bias_name("gram scale", "total_weight"))


def test_a_bias_is_learnt_from_a_second_gauge() -> None:
    """One scale says 0.3 more than a checked one: the belief lays most of it on the first scale's bias."""
    checked = Instrument(name="checked", resolution=0.0, repeatability=0.02, bias=0.0)
    value = shown("swing_weight", DRY_NO_GRIP)
    items = [
        reading("swing_weight", DRY_NO_GRIP, value + 0.3),
        msgspec.structs.replace(reading("swing_weight", DRY_NO_GRIP, value), instrument=checked),
    ]
    belief = learn(prior(), TEMPLATE, CONVENTIONS, items).belief
    # Closed form: 0.3 is shared between the bias (0.1) and the noise of the first scale and of the checked one.
    noise = GAUGES["swing_weight"].noise()
    expected = 0.3 * 0.1**2 / (0.1**2 + noise**2 + 0.02**2)
    assert belief.mean_of(bias_name("swing-weight scale", "swing_weight")) == pytest.approx(expected, rel=0.02)


def test_readings_that_cannot_be_reconciled_are_refused() -> None:
    """A square cannot read -4: the passes never settle, and the error says what to do."""
    before = Gaussian.independent({"x": (1.0, 1.0)})
    with pytest.raises(NotPossible, match="cannot be reconciled"):
        condition(before, lambda at: (at**2, np.array([[2 * at[0]]])), np.array([-4.0]), np.array([[1e-6]]))


def test_two_perfect_readings_of_one_thing_are_refused() -> None:
    before = Gaussian.independent({"x": (1.0, 1.0)})
    slope = np.ones((2, 1))
    with pytest.raises(NotPossible, match="without any noise"):
        condition(before, lambda at: (slope @ at, slope), np.array([1.0, 1.0]), np.zeros((2, 2)))


def test_repeats_average_repeatability_and_the_step_as_far_as_readings_scatter() -> None:
    gauge = Instrument(name="scale", resolution=0.1, repeatability=0.2, bias=0.3)
    assert gauge.noise() == pytest.approx((0.2**2 + 0.1**2 / 12) ** 0.5)
    assert gauge.noise(4) == pytest.approx((0.1**2 + 0.05**2 / 12) ** 0.5)
    assert gauge.uncertainty(10_000) > 0.3
    still = Instrument(name="scale", resolution=0.1, repeatability=0.04, bias=0.3)
    shared = 0.1**2 / (2 * np.pi**2) * sum(np.exp(-((2 * np.pi * k * 0.4) ** 2)) / k**2 for k in range(1, 9))
    assert still.noise(4) == pytest.approx((shared + (0.04**2 + 0.1**2 / 12 - shared) / 4) ** 0.5)
    assert Instrument(name="scale", resolution=0.1, repeatability=0.0).noise(400) == pytest.approx(0.1 / 12**0.5)
