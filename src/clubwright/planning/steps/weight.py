"""Steps that settle mass: lay the tape, read the dry club, choose the weight."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES, WEIGHING
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED, FINISHED
from clubwright.notation import length_in_full, render
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.cautions import weight_cautions
from clubwright.planning.gates.glue_checks import DRY_STAGES
from clubwright.planning.grip.tape_advice import build_up_of, layer_thickness_m
from clubwright.planning.steps.inputs import Bench, Numbers, counted
from clubwright.planning.steps.types import Expected, Step
from clubwright.state.particulars import whole_number

_ALTERNATIVES = 3


def tape(bench: Bench) -> Step:
    """Weigh and lay the tape that goes under the grip."""
    club_state = bench.club_state
    worth = bench.mean("swing_weight", DRY_TAPED) - bench.mean("swing_weight", DRY_NO_GRIP)
    laid = tuple(
        (
            f"{row.name or 'tape'}, {counted(whole_number(row.layers, 1), 'layer')}",
            row.mass.typed if row.mass is not None else "not weighed",
        )
        for row in club_state.ticket.tapes
    )
    what = [
        "Weigh the strips before they are laid: after that nobody can.",
        "Build-up tape goes on first, the double-sided base layer over it, with 1/2 in to tuck into the butt.",
    ]
    if club_state.ticket.job != "regrip":
        what.append("For a dry reading lay the same strips loosely under the grip, where they will end up.")
    numbers: Numbers = (*laid, ("all of it, on the swing weight", f"{worth:+.2f} pt"))
    return Step(
        key="tape",
        title="Weigh and lay the tape",
        what=tuple(what),
        numbers=(*numbers, *build_up_numbers(bench)),
        instrument="gram scale, caliper",
        done_when="The strips' mass and layers are on the record.",
    )


def build_up_numbers(bench: Bench) -> Numbers:
    """Return the build-up for the ordered diameters; nothing when none is ordered or the parts are not measured."""
    plan = build_up_of(bench.club_state)
    if plan is None:
        return ()
    layers = f"{plan.full_layers} full length"
    if plan.lower_hand_layers:
        layers += f", {plan.lower_hand_layers} more under the lower hand"
    numbers = [("layers of build-up tape", layers), ("one layer", _thickness(layer_thickness_m(bench.club_state)))]
    for name, forecast in (("2 in", plan.at_2in), ("6 in", plan.at_6in)):
        if forecast is not None:
            text = (
                f"{render('diameter', forecast.diameter_m)} (between {render('diameter', forecast.low_m)} "
                f"and {render('diameter', forecast.high_m)})"
            )
            numbers.append((f"diameter at {name} with these layers", text))
    return tuple(numbers)


def _thickness(value_m: float) -> str:
    return f"{render('diameter', value_m)} ({value_m * 1e3:.2f} mm)"


def dry_reading(bench: Bench) -> Step:
    """Read swing weight and total weight before anything is glued."""
    sprung = bench.club_state.can_predict("frequency")
    keys = (*WEIGHING, *(("frequency",) if sprung else ()))
    numbers = (
        ("fitted now", bench.names(bench.fitted)),
        *_missing_grip(bench),
        ("swing weight of the adhesive still to come", f"{_adhesive_points(bench):+.2f} pt"),
        *_read_so_far(bench),
    )
    return Step(
        key="dry reading",
        title="Read the dry club",
        what=(
            "Best: slide the grip on over the same tape and read; the stop then touches the cap.",
            "Without the grip the stop touches the bare butt; the prediction below counts that.",
            "Write down which of the two it was: the readings are not interchangeable.",
            *(_clamped(bench) if sprung else ()),
        ),
        numbers=numbers,
        instrument="swing-weight scale and gram scale" + (", frequency meter" if sprung else ""),
        expected=(*bench.expect_all(keys, DRY_GRIPPED), *bench.expect_all(keys, DRY_NO_GRIP)),
        done_when="Both readings are kept with their stage; one that does not fit was explained or read again.",
    )


def _clamped(bench: Bench) -> tuple[str, ...]:
    """Say how the frequency is read, since a reading means nothing without it."""
    held = length_in_full(bench.club_state.prior.conventions.meter.clamp_length_m)
    return (
        f"For the frequency clamp {held} of the butt, shim the head so that it does not rattle, and let it swing toe up.",
        "What is predicted counts the head as fast on its shaft: a loose dry fit reads low.",
    )


def _missing_grip(bench: Bench) -> Numbers:
    """Take apart what the missing grip is worth; the cap gives back about a point (docs/theory/plan.md)."""
    scale = bench.club_state.prior.conventions.scale
    without = bench.mean("swing_weight", DRY_NO_GRIP)
    whole = without - bench.mean("swing_weight", DRY_GRIPPED)
    shift = bench.mean("total_weight", DRY_NO_GRIP) * float(bench.club_state.club.grip.cap_m) / scale.point_kg_m
    return (
        ("grip and tape by themselves", f"{-(whole + shift):+.2f} pt"),
        ("cap: with a grip the fulcrum stands that much nearer the butt", f"{shift:+.2f} pt"),
        ("so a reading without grip and tape is too high by", f"{whole:.2f} pt"),
    )


def _adhesive_points(bench: Bench) -> float:
    return bench.mean("swing_weight", FINISHED) - bench.mean("swing_weight", DRY_GRIPPED)


def _read_so_far(bench: Bench) -> Numbers:
    return tuple(
        (f"read: {QUANTITIES[entry.quantity].name}, {entry.stage}", entry.entry.typed)
        for entry in bench.club_state.ticket.readings
        if entry.quantity in (*WEIGHING, "frequency") and entry.stage in DRY_STAGES
    )


def choose_weight(bench: Bench) -> Step:
    """Fit the set of weights with the best chance."""
    ranked = [choice for choice in choices(bench.club_state) if not _same(choice, bench.best)]
    what = ["Order of preference: another head from the lot, a port weight, a tip pin of a few grams, lead tape."]
    what.append("That order is common practice, no source; the chances below are this club's own.")
    if not bench.best.keys:
        what = ["The ticket sets no target that a weight would move: fit nothing."]
    numbers = [("best", _said(bench, bench.best)), ("fitted now", bench.names(bench.fitted))]
    numbers += [
        (f"alternative {place}", _said(bench, choice)) for place, choice in enumerate(ranked[:_ALTERNATIVES], 1)
    ]
    return Step(
        key="choose weight",
        title="Choose and fit the weight",
        what=tuple(what),
        numbers=tuple(numbers) if bench.best.keys else (),
        instrument="gram scale",
        expected=_expected_choice(bench),
        done_when="What is fitted is on the record, and each piece was weighed.",
        cautions=weight_cautions(
            (bench.names([float(count) for count in bench.best.counts]), bench.names(bench.fitted)),
            bench.cautions("weight"),
        ),
    )


def _expected_choice(bench: Bench) -> tuple[Expected, ...]:
    stage = FINISHED if bench.club_state.ticket.job == "weight" else DRY_GRIPPED
    return bench.expect_all(WEIGHING, stage, bench.chosen)


def _same(one: Choice, other: Choice) -> bool:
    return bool((one.counts == other.counts).all())


def _said(bench: Bench, choice: Choice) -> str:
    figures = ", ".join(
        f"{QUANTITIES[key].name} {render(QUANTITIES[key].kind, float(mean), float(sd))}"
        for key, mean, sd in zip(choice.keys, choice.mean, choice.sd, strict=True)
    )
    return f"{bench.names([float(count) for count in choice.counts])}: {choice.chance:.0%}; {figures}"
