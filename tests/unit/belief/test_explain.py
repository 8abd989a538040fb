"""What went wrong, named first: a part, a stage, a weight, an earlier reading, the gauge."""

from __future__ import annotations

import pytest

from clubwright.belief.explain import GAUGE_SLIP, SLIP_SIZE, STAGE_SLIP, Cause, causes
from clubwright.belief.readings import Reading
from clubwright.belief.update import learn
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, FINISHED
from worked_beliefs import CONVENTIONS, PRIOR, TEMPLATE, prior, reading, shown
from worked_clubs import GRAM


def explained(*readings: Reading, most: int = 5) -> list[Cause]:
    """Learn all, and rank the causes of the one that was set aside."""
    learned = learn(prior(), TEMPLATE, CONVENTIONS, readings)
    (odd,) = (item.reading for item in learned.set_aside)
    taken = [item.reading for item in learned.judged if item.taken]
    return causes(prior(), TEMPLATE, CONVENTIONS, taken, odd, most=most)


def test_a_grip_four_grams_heavier_than_its_label() -> None:
    """Dry without grip all is well; with it, the total weight is 4 g up and the swing weight nearly a point down."""
    truth = {"grip.mass_kg": 4 * GRAM}
    first, *_ = explained(
        reading("total_weight", DRY_NO_GRIP, shown("total_weight", DRY_NO_GRIP)),
        reading("total_weight", DRY_GRIPPED, shown("total_weight", DRY_GRIPPED, truth=truth), where="[[reading]] 2"),
    )
    assert first.unknown == "grip.mass_kg"
    assert first.change == pytest.approx(4 * GRAM, rel=0.1)


def test_a_head_that_is_another_head() -> None:
    """3 g in the head show in swing weight and total weight before anything else is on."""
    truth = {"head.mass_kg": 3 * GRAM}
    first, *_ = explained(
        reading("swing_weight", DRY_NO_GRIP, shown("swing_weight", DRY_NO_GRIP, truth=truth)),
        reading("total_weight", DRY_NO_GRIP, shown("total_weight", DRY_NO_GRIP, truth=truth), where="[[reading]] 2"),
    )
    assert first.unknown == "head.mass_kg"
    assert first.change == pytest.approx(3 * GRAM, rel=0.15)


def test_the_wrong_stage() -> None:
    """Read without a grip, booked as gripped: ten points off, which no part's slip explains as cheaply."""
    first, *_ = explained(reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_NO_GRIP)))
    assert first.unknown == "stage"
    assert first.detail == "dry, no grip"
    assert first.left_over == pytest.approx(STAGE_SLIP, abs=0.5)


def test_the_wrong_weight() -> None:
    """Read bare, which fits; read again with the 6 g piece in and booked as the 2 g one: 1.8 points up."""
    two, six = (1.0, 0.0), (0.0, 1.0)
    first, *_ = explained(
        reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED)),
        reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED, six), where="2", fitted=two),
    )
    assert (first.unknown, first.detail) == ("weights", "port 6")
    assert first.left_over == pytest.approx(STAGE_SLIP, abs=0.5)


def test_a_weight_booked_but_left_out() -> None:
    six = (0.0, 1.0)
    first, *_ = explained(
        reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED)),
        reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED), where="2", fitted=six),
    )
    assert (first.unknown, first.detail) == ("weights", "")


def test_one_reading_alone_cannot_tell_a_weight_from_a_longer_shaft() -> None:
    """Without the bare reading a slip in a part is as good an explanation; the weight is still named."""
    found = explained(reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED, (0.0, 1.0))), most=20)
    assert found[0].unknown in PRIOR
    assert any(cause.unknown == "weights" and cause.detail == "port 6" for cause in found)


def test_an_earlier_reading_at_fault() -> None:
    """A grip weighed a gram heavy passed, three deviations off; the club then weighs what the parts said."""
    readings = [
        reading("grip.mass_kg", DRY_GRIPPED, 50.96 * GRAM, where="[[reading]] 1"),
        reading("total_weight", DRY_GRIPPED, shown("total_weight", DRY_GRIPPED), where="[[reading]] 2"),
    ]
    found = causes(prior(), TEMPLATE, CONVENTIONS, readings[:1], readings[1], most=20)
    earlier = next(cause for cause in found if cause.unknown == "earlier reading")
    gauge = next(cause for cause in found if cause.unknown == "gauge")
    assert earlier.detail == "[[reading]] 1"
    assert earlier.left_over == pytest.approx(GAUGE_SLIP, abs=0.5)
    assert earlier.left_over < gauge.left_over


def test_the_gauge_is_named_when_nothing_else_does_it() -> None:
    """Loft ten degrees off: more than a head's loft ever is, so the gauge stays the likeliest."""
    found = explained(reading("loft", FINISHED, shown("loft", FINISHED) + 0.175))
    assert found[0].unknown == "gauge"
    assert found[0].change == pytest.approx(0.175)


def test_a_stage_that_reads_the_same_is_no_cause() -> None:
    """The loft does not know whether a grip is on, nor which weights are."""
    found = explained(reading("loft", FINISHED, shown("loft", FINISHED) + 0.035), most=20)
    assert {cause.unknown for cause in found} == {"head.loft_rad", "gauge"}
    assert found[0].unknown == "head.loft_rad"


def test_a_weighed_part_has_no_stage() -> None:
    found = explained(reading("grip.mass_kg", FINISHED, 54 * GRAM), most=20)
    assert found[0].unknown == "grip.mass_kg"
    assert "stage" not in {cause.unknown for cause in found}


def test_most_is_kept_and_the_likeliest_come_first() -> None:
    found = explained(reading("swing_weight", DRY_GRIPPED, shown("swing_weight", DRY_GRIPPED) + 4), most=3)
    assert len(found) == 3
    assert [cause.left_over for cause in found] == sorted(cause.left_over for cause in found)


def test_change_and_price_of_one_part_in_closed_form() -> None:
    """A direct reading off by d: the slip takes its share size^2 of all variances, and d^2 over all of them is the price."""
    off, size, sd = 5 * GRAM, SLIP_SIZE["grip.mass_kg"], PRIOR["grip.mass_kg"][1]
    item = reading("grip.mass_kg", FINISHED, 50 * GRAM + off)
    rest = sd**2 + item.instrument.uncertainty() ** 2
    found = causes(prior(), TEMPLATE, CONVENTIONS, [], item, most=20)
    grip = next(cause for cause in found if cause.unknown == "grip.mass_kg")
    assert grip.change == pytest.approx(off * size**2 / (size**2 + rest))
    assert grip.left_over == pytest.approx(off**2 / (size**2 + rest))
