"""Steps that settle mass: lay the tape, read the dry club, choose the weight."""

from __future__ import annotations

from clubwright.club.quantities import WEIGHING
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED, FINISHED
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.cautions import weight_cautions
from clubwright.planning.gates.glue_checks import DRY_STAGES
from clubwright.planning.grip.tape_advice import build_up_of, layer_thickness_m
from clubwright.planning.said.phrases import (
    Amount,
    Listed,
    Value,
    Word,
    figure,
    in_full,
    percent,
    phrase,
    points,
    quantity,
    reads,
    tools,
)
from clubwright.planning.steps.inputs import Bench, Numbers
from clubwright.planning.steps.types import Expected, Step
from clubwright.state.particulars import whole_number

_ALTERNATIVES = 3


def tape(bench: Bench) -> Step:
    """Weigh and lay the tape that goes under the grip."""
    club_state = bench.club_state
    worth = bench.mean("swing_weight", DRY_TAPED) - bench.mean("swing_weight", DRY_NO_GRIP)
    laid = tuple(
        (
            phrase(
                "label.tape",
                name=row.name or phrase("word.tape"),
                layers=phrase("count.layers", count=whole_number(row.layers, 1)),
            ),
            row.mass.typed if row.mass is not None else phrase("figure.not weighed"),
        )
        for row in club_state.ticket.tapes
    )
    what = [
        phrase("tape.weigh"),
        phrase("tape.order"),
    ]
    if club_state.ticket.job != "regrip":
        what.append(phrase("tape.loose"))
    numbers: Numbers = (*laid, (phrase("label.all tape"), points(worth)))
    return Step(
        key="tape",
        title=phrase("title.tape"),
        what=tuple(what),
        numbers=(*numbers, *build_up_numbers(bench)),
        instrument=tools("gram scale", "caliper"),
        done_when=phrase("done.tape"),
    )


def build_up_numbers(bench: Bench) -> Numbers:
    """Return the build-up for the ordered diameters; nothing when none is ordered or the parts are not measured."""
    plan = build_up_of(bench.club_state)
    if plan is None:
        return ()
    layers = phrase("figure.full layers", count=plan.full_layers)
    if plan.lower_hand_layers:
        layers = phrase("figure.full and lower layers", count=plan.full_layers, lower=plan.lower_hand_layers)
    one = Amount("diameter", layer_thickness_m(bench.club_state), form="with mm")
    numbers: list[tuple[Value, Value]] = [(phrase("label.layers"), layers), (phrase("label.one layer"), one)]
    for name, forecast in (("2 in", plan.at_2in), ("6 in", plan.at_6in)):
        if forecast is not None:
            diameter, low, high = (
                figure("diameter", value) for value in (forecast.diameter_m, forecast.low_m, forecast.high_m)
            )
            text = phrase("figure.between", figure=diameter, low=low, high=high)
            numbers.append((phrase("label.diameter with layers", place=name), text))
    return tuple(numbers)


def dry_reading(bench: Bench) -> Step:
    """Read swing weight and total weight before anything is glued."""
    sprung = bench.club_state.can_predict("frequency")
    keys = (*WEIGHING, *(("frequency",) if sprung else ()))
    numbers = (
        (phrase("label.fitted now"), bench.weights(bench.fitted)),
        *_missing_grip(bench),
        (phrase("label.adhesive to come"), points(_adhesive_points(bench))),
        *_read_so_far(bench),
    )
    return Step(
        key="dry reading",
        title=phrase("title.dry reading"),
        what=(
            phrase("dry reading.best"),
            phrase("dry reading.without"),
            phrase("dry reading.which"),
            *(_clamped(bench) if sprung else ()),
        ),
        numbers=numbers,
        instrument=tools("swing-weight scale and gram scale", *(("frequency meter",) if sprung else ())),
        expected=(*bench.expect_all(keys, DRY_GRIPPED), *bench.expect_all(keys, DRY_NO_GRIP)),
        done_when=phrase("done.dry reading"),
    )


def _clamped(bench: Bench) -> tuple[Value, ...]:
    """Say how the frequency is read, since a reading means nothing without it."""
    held = in_full(bench.club_state.prior.conventions.meter.clamp_length_m)
    return (
        phrase("dry reading.clamp", held=held),
        phrase("dry reading.loose"),
    )


def _missing_grip(bench: Bench) -> Numbers:
    """Take apart what the missing grip is worth; the cap gives back about a point (docs/theory/plan.md)."""
    scale = bench.club_state.prior.conventions.scale
    without = bench.mean("swing_weight", DRY_NO_GRIP)
    whole = without - bench.mean("swing_weight", DRY_GRIPPED)
    shift = bench.mean("total_weight", DRY_NO_GRIP) * float(bench.club_state.club.grip.cap_m) / scale.point_kg_m
    return (
        (phrase("label.grip and tape"), points(-(whole + shift))),
        (phrase("label.cap fulcrum"), points(shift)),
        (phrase("label.too high"), points(whole, "points")),
    )


def _adhesive_points(bench: Bench) -> float:
    return bench.mean("swing_weight", FINISHED) - bench.mean("swing_weight", DRY_GRIPPED)


def _read_so_far(bench: Bench) -> Numbers:
    return tuple(
        (
            phrase("label.read", what=quantity(entry.quantity), stage=Word("stage", entry.stage)),
            entry.entry.typed,
        )
        for entry in bench.club_state.ticket.readings
        if entry.quantity in (*WEIGHING, "frequency") and entry.stage in DRY_STAGES
    )


def choose_weight(bench: Bench) -> Step:
    """Fit the set of weights with the best chance."""
    ranked = [choice for choice in choices(bench.club_state) if not _same(choice, bench.best)]
    what = [phrase("choose weight.order")]
    what.append(phrase("choose weight.practice"))
    if not bench.best.keys:
        what = [phrase("choose weight.nothing")]
    numbers: list[tuple[Value, Value]] = [
        (phrase("label.best"), _said(bench, bench.best)),
        (phrase("label.fitted now"), bench.weights(bench.fitted)),
    ]
    numbers += [
        (phrase("label.alternative", place=place), _said(bench, choice))
        for place, choice in enumerate(ranked[:_ALTERNATIVES], 1)
    ]
    return Step(
        key="choose weight",
        title=phrase("title.choose weight"),
        what=tuple(what),
        act_on=_needed_at_the_head(bench),
        numbers=tuple(numbers) if bench.best.keys else (),
        instrument=tools("gram scale"),
        expected=_expected_choice(bench),
        done_when=phrase("done.choose weight"),
        cautions=weight_cautions(
            (*bench.names([float(count) for count in bench.best.counts]), *bench.names(bench.fitted)),
            bench.cautions("weight"),
        ),
    )


def _needed_at_the_head(bench: Bench) -> Numbers:
    """Say how many grams at the head bring each ordered mass target to its middle, with what is fitted now.

    The grams are what is missing of the target by the slope of the quantity in the head's mass: docs/theory/swing-weight.md.
    """
    club_state = bench.club_state
    keys = [key for key in WEIGHING if club_state.goal(key) is not None and club_state.can_predict(key)]
    if not keys or "head.mass_kg" not in club_state.belief.names:
        return ()
    prediction, place = club_state.predict(keys), club_state.belief.index("head.mass_kg")
    found: list[tuple[Value, Value]] = []
    for column, goal in enumerate(filter(None, map(club_state.goal, keys))):
        slope = float(prediction.slope[0, column, place])
        grams = Amount("mass", (goal.target - float(prediction.mean[0, column])) / slope, form="change of grams")
        found.append((phrase("label.at the head", what=quantity(goal.key)), grams))
    return tuple(found)


def _expected_choice(bench: Bench) -> tuple[Expected, ...]:
    stage = FINISHED if bench.club_state.ticket.job == "weight" else DRY_GRIPPED
    return bench.expect_all(WEIGHING, stage, bench.chosen)


def _same(one: Choice, other: Choice) -> bool:
    return bool((one.counts == other.counts).all())


def _said(bench: Bench, choice: Choice) -> Value:
    figures = tuple(
        reads(key, float(mean), float(sd)) for key, mean, sd in zip(choice.keys, choice.mean, choice.sd, strict=True)
    )
    weights = bench.weights([float(count) for count in choice.counts])
    return phrase("figure.choice", weights=weights, chance=percent(choice.chance), figures=Listed(figures))
