"""What went wrong, named first, all readings of the club taken together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec
import numpy as np
import pytest

from clubwright.belief.causes.cause import LETTER, MISREAD, OFTEN, SLIP_SIZE, Cause, Explanation, Known
from clubwright.belief.causes.explain import STILL_RIGHT, Told, explain
from clubwright.belief.causes.slips import GROSS, USUAL
from clubwright.belief.readings import Reading
from clubwright.belief.update import learn, predict_readings, with_biases
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED, FINISHED, Stage
from worked_beliefs import CONVENTIONS, NONE_ON, PRIOR, TEMPLATE, prior, reading, shown
from worked_clubs import GRAM

SIX = (0.0, 1.0)
LAID = Known(layers=(2,))


def told_of(*readings: Reading, known: Known = LAID, at: str = "") -> Told:
    """Explain the first reading that was set aside, or the one at a place."""
    learned = learn(prior(), TEMPLATE, CONVENTIONS, readings)
    where = at or learned.set_aside[0].reading.where
    return explain(prior(), TEMPLATE, CONVENTIONS, readings, [where], known)[where]


def first_of(*readings: Reading, known: Known = LAID) -> tuple[Cause, ...]:
    return told_of(*readings, known=known).ranked[0].causes


def taken(
    *what: tuple[str, Stage],
    truth: Mapping[str, float] | None = None,
    fitted: Sequence[float] = NONE_ON,
    really: Mapping[str, Stage] | None = None,
) -> list[Reading]:
    """Read a club in which something went wrong; `really` says at which stage what was booked under another."""
    return [
        reading(
            quantity,
            stage,
            shown(quantity, (really or {}).get(stage.name, stage), fitted, truth),
            where=f"[[reading]] {number}",
        )
        for number, (quantity, stage) in enumerate(what, start=1)
    ]


BOTH = (("swing_weight", DRY_GRIPPED), ("total_weight", DRY_GRIPPED), ("length", DRY_GRIPPED))
ALL = (("swing_weight", DRY_NO_GRIP), ("total_weight", DRY_NO_GRIP), *BOTH)


def test_a_grip_four_grams_heavier_than_its_label() -> None:
    """Dry without grip all is well; with it, the total weight is 4 g up and the swing weight nearly a point down."""
    (cause,) = first_of(*taken(*ALL, truth={"grip.mass_kg": 4 * GRAM}))
    assert (cause.kind, cause.what) == ("figure", "grip.mass_kg")
    assert cause.change == pytest.approx(4 * GRAM, rel=0.1)


def test_a_head_that_is_another_head_is_not_blamed_on_the_grip() -> None:
    """The total weight alone, which is set aside, does not tell head from grip; the swing weight that rose with it does."""
    readings = taken(*BOTH, truth={"head.mass_kg": 3 * GRAM})
    (cause,) = first_of(*readings)
    assert (cause.kind, cause.what) == ("figure", "head.mass_kg")
    assert cause.change == pytest.approx(3 * GRAM, rel=0.15)
    together, alone = (
        {item.causes[0].what: item.chance for item in told_of(*these).ranked if len(item.causes) == 1}
        for these in (readings, readings[1:2])
    )
    assert together["grip.mass_kg"] < 0.05 < 0.15 < alone["grip.mass_kg"]


@pytest.mark.parametrize("really", [DRY_NO_GRIP, DRY_TAPED])
def test_a_slip_of_stage_is_of_all_readings_of_that_stage(really: Stage) -> None:
    readings = taken(*BOTH[:2], truth=None, really={DRY_GRIPPED.name: really})
    (cause,) = first_of(*readings)
    assert cause.kind == "stage" and cause.what == really.name
    assert cause.readings == ("[[reading]] 1", "[[reading]] 2")


def test_one_reading_of_a_stage_may_be_of_another_by_itself() -> None:
    odd = reading("total_weight", DRY_GRIPPED, shown("total_weight", DRY_NO_GRIP), where="[[reading]] 9")
    (cause,) = first_of(*taken(*BOTH), odd)
    assert (cause.kind, cause.what, cause.readings) == ("stage", "dry, no grip", ("[[reading]] 9",))


def test_a_weight_left_in_a_port_is_of_all_readings_and_is_named_by_the_total_weight_alone() -> None:
    ranked = told_of(*taken(("total_weight", DRY_GRIPPED), ("length", DRY_GRIPPED), fitted=SIX)).ranked
    assert ("weights", "port 6") in [(cause.kind, cause.what) for item in ranked[:2] for cause in item.causes]
    (cause,) = first_of(*taken(*ALL, fitted=SIX))
    assert (cause.kind, cause.what, len(cause.readings)) == ("weights", "port 6", 4)


def test_a_weight_booked_but_left_out() -> None:
    bare, booked = taken(*BOTH[:1]), taken(*BOTH[:2])
    lost = [msgspec.structs.replace(item, fitted=SIX, where=f"lost {place}") for place, item in enumerate(booked)]
    (cause,) = first_of(*bare, *lost)
    assert (cause.kind, cause.what, cause.readings) == ("weights", "", ("lost 0", "lost 1"))


def test_a_length_read_to_the_butt_lacks_just_the_cap() -> None:
    ok = taken(*BOTH[:2])
    short = taken(("length", DRY_GRIPPED), really={DRY_GRIPPED.name: DRY_NO_GRIP})
    short = [msgspec.structs.replace(item, where="short") for item in short]
    (cause,) = first_of(*ok, *short)
    assert cause.kind == "to the butt"
    assert told_of(*short).ranked[0].causes[0].kind == "to the butt", "the length alone says so as well"


@pytest.mark.parametrize("letter", [-LETTER, LETTER])
def test_a_letter_is_ten_points(letter: float) -> None:
    good = taken(*BOTH)
    readings = [msgspec.structs.replace(good[0], value=good[0].value + letter), *good[1:]]
    (cause,) = first_of(*readings)
    assert (cause.kind, cause.change, cause.readings) == ("letter", letter, ("[[reading]] 1",))


def test_one_of_two_layers_is_missing() -> None:
    told = told_of(*taken(*ALL, truth={"tapes.0.mass_kg": -1.25 * GRAM}), at="[[reading]] 4")
    (cause,) = told.ranked[0].causes
    assert (cause.kind, cause.what, cause.change) == ("layer", "tapes.0.mass_kg", -1.0)


def test_shaft_and_grip_both_off_are_named_together() -> None:
    ranked = told_of(*taken(*ALL, truth={"shaft.mass_kg": 5 * GRAM, "grip.mass_kg": -6 * GRAM})).ranked
    pairs = [{cause.what: cause.change for cause in item.causes} for item in ranked[:2]]
    named = next(pair for pair in pairs if set(pair) == {"shaft.mass_kg", "grip.mass_kg"})
    assert named["shaft.mass_kg"] == pytest.approx(5 * GRAM, rel=0.2)
    assert named["grip.mass_kg"] == pytest.approx(-6 * GRAM, rel=0.2)


def test_two_digits_of_a_mass_were_changed_when_it_was_typed() -> None:
    """106.2 g stands there for 160.2 g: 54 g, which no slip of a shaft's usual size explains."""
    (cause,) = first_of(*taken(*ALL, truth={"shaft.mass_kg": 54 * GRAM}))
    assert (cause.kind, cause.what) == ("typed", "shaft.mass_kg")
    assert cause.change == pytest.approx(54 * GRAM)


def test_what_was_assumed_is_blamed_before_what_was_weighed() -> None:
    """The same readings, the same grip: assumed it is likelier than entered, and that than weighed by a named gauge."""
    readings = taken(*BOTH[:2], truth={"grip.mass_kg": 3 * GRAM})

    def chance(known: Known) -> float:
        ranked = told_of(*readings, known=known).ranked
        return next((item.chance for item in ranked if [c.what for c in item.causes] == ["grip.mass_kg"]), 0.0)

    assumed, entered = chance(Known(assumed=frozenset({"grip.mass_kg"}))), chance(Known())
    assert assumed > entered > chance(Known(weighed=frozenset({"grip.mass_kg"})))


def test_an_angle_has_nothing_to_do_with_a_mass_and_is_explained_apart() -> None:
    odd = reading("loft", DRY_GRIPPED, shown("loft", DRY_GRIPPED) + 0.06, where="loft")
    readings = [*taken(*ALL, truth={"grip.mass_kg": 4 * GRAM}), odd]
    told = told_of(*readings, at="loft")
    assert {cause.what for item in told.ranked for cause in item.causes} == {"head.loft_rad", "loft gauge"}
    assert set(told.ranked[0].off_by_sd) == {"loft"}


def test_the_gauge_is_named_when_nothing_else_does_it() -> None:
    """A swing weight 4.4 points off the way of no part: weighed and measured twice it is right."""
    good = [*taken(*ALL), *taken(("swing_weight", DRY_GRIPPED))]
    readings = [*good[:-1], msgspec.structs.replace(good[-1], value=good[-1].value + 4.4, where="odd")]
    (cause,) = first_of(*readings)
    assert (cause.kind, cause.readings) == ("reading", ("odd",))
    assert cause.change == pytest.approx(4.4, rel=0.1)


def test_a_stage_that_reads_the_same_is_no_cause() -> None:
    """The loft does not know whether a grip is on, nor which weights are."""
    ranked = told_of(reading("loft", FINISHED, shown("loft", FINISHED) + 0.035)).ranked
    assert {cause.kind for item in ranked for cause in item.causes} == {"figure", "reading"}


def test_a_weighed_part_has_no_stage() -> None:
    ranked = told_of(reading("grip.mass_kg", FINISHED, 54 * GRAM)).ranked
    assert ranked[0].causes[0].what == "grip.mass_kg"
    assert not {cause.kind for item in ranked for cause in item.causes} & {"stage", "weights"}


def test_chances_are_shares_of_one_and_fall() -> None:
    told = told_of(*taken(*ALL, truth={"head.mass_kg": 3 * GRAM}))
    chances = [item.chance for item in told.ranked]
    assert chances == sorted(chances, reverse=True)
    assert 0.97 < told.nothing + sum(chances) <= 1 + 1e-12


def test_nothing_wrong_is_likely_where_a_reading_is_a_little_further_off_than_usual() -> None:
    """3.4 of its standard deviations, with all others right: chance; seven of them: never."""
    good = taken(*ALL)
    spread = learn(prior(), TEMPLATE, CONVENTIONS, good).judged[-1].expected_sd
    for deviations, likely in ((3.4, True), (7.0, False)):
        odd = msgspec.structs.replace(good[-1], value=good[-1].value + deviations * spread)
        assert (told_of(*good[:-1], odd, at=odd.where).nothing > 0.1) is likely


def density(off: np.ndarray, spread: np.ndarray) -> float:
    """Of a normal distribution, by hand."""
    square = float(off @ np.linalg.inv(spread) @ off)
    return float(np.exp(-square / 2) / np.sqrt(np.linalg.det(2 * np.pi * spread)))


def test_posterior_of_one_part_in_closed_form() -> None:
    """A grip weighed 5 g off: nothing wrong, another grip, and a misread scale are three normals of one number."""
    item = reading("grip.mass_kg", FINISHED, 55 * GRAM)
    told = told_of(item)
    rest = PRIOR["grip.mass_kg"][1] ** 2 + item.instrument.uncertainty() ** 2
    size, off, often = SLIP_SIZE["grip.mass_kg"], np.array([5 * GRAM]), OFTEN["another grip"]
    each = {
        times: often * share * density(off, np.array([[rest + (times * size) ** 2]])) for times, share in (USUAL, GROSS)
    }
    weights = {"figure": sum(each.values()), "reading": OFTEN["reading"] * density(off, np.array([[rest + size**2]]))}
    single = {item.causes[0].kind: item for item in told.ranked if len(item.causes) == 1}
    assert single["figure"].chance / single["reading"].chance == pytest.approx(weights["figure"] / weights["reading"])
    nothing = STILL_RIGHT * density(off, np.array([[rest]]))
    assert told.nothing / single["figure"].chance == pytest.approx(nothing / weights["figure"])
    share = size**2 / (size**2 + rest)
    assert single["figure"].causes[0].change == pytest.approx(5 * GRAM * share)


def test_joint_posterior_against_scipy() -> None:
    """Two readings, the head against one misread scale: scipy's multivariate normal gives the same odds."""
    stats = pytest.importorskip("scipy.stats")
    readings = taken(*BOTH[:2], truth={"head.mass_kg": 2 * GRAM})
    wide = with_biases(prior(), readings)
    values, slope = predict_readings(TEMPLATE, CONVENTIONS, wide.names, wide.mean, readings)
    noise = np.diag([item.instrument.noise() ** 2 for item in readings])
    base = slope @ wide.covariance @ slope.T + noise
    off = np.array([item.value for item in readings]) - values
    head = slope[:, wide.index("head.mass_kg")] * SLIP_SIZE["head.mass_kg"]
    scale = np.array([0.0, MISREAD * readings[1].instrument.uncertainty()])

    def odds(column: np.ndarray, often: float) -> float:
        spread = base + np.outer(column, column)
        return often * float(stats.multivariate_normal(np.zeros(2), spread, allow_singular=True).pdf(off))

    def of_sizes(column: np.ndarray, often: float) -> float:
        return sum(odds(column * times, often * share) for times, share in (USUAL, GROSS))

    told = explain(prior(), TEMPLATE, CONVENTIONS, readings, ["[[reading]] 1"])["[[reading]] 1"]
    ours = {item.causes[0].what: item.chance for item in told.ranked if len(item.causes) == 1}
    theirs = of_sizes(head, OFTEN["another head"]) / odds(scale, OFTEN["reading"])
    assert ours["head.mass_kg"] / ours["gram scale"] == pytest.approx(theirs, rel=1e-6)


def test_what_a_cause_leaves_unexplained_stands_beside_it() -> None:
    readings = taken(*ALL, truth={"grip.mass_kg": 4 * GRAM})
    best: Explanation = told_of(*readings).ranked[0]
    assert max(map(abs, best.off_by_sd.values())) < 1.5
    misread = next(
        item for item in told_of(*readings).ranked if item.causes[0].kind == "reading" and len(item.causes) == 1
    )
    assert max(map(abs, misread.off_by_sd.values())) > 2
