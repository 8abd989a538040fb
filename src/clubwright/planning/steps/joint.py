"""Steps on the joint: mix, glue, cure, and turn the ferrule."""

from __future__ import annotations

from clubwright.errors import InputError, NotPossible
from clubwright.notation import parse, render_moment
from clubwright.planning.joint.adhesive import WASTE_SHARE, MixPlan, MixRatio, plan_mix
from clubwright.planning.joint.cure import GRAPHITE_CABINET_K, release_time
from clubwright.planning.joint.lines import joint_lines
from clubwright.planning.said.findings import sentence_of
from clubwright.planning.said.phrases import Amount, Listed, Value, Word, at_mark, figure, in_full, phrase, tools
from clubwright.planning.steps.inputs import Bench, Numbers, present
from clubwright.planning.steps.types import Step
from clubwright.state.particulars import in_si, whole_number
from clubwright.ticket.fields.defaults import default_for

SHEET_FIGURES = ("ratio", "per_joint")
"""Figures of the adhesive that nothing is weighed without."""

SCALE = "adhesive.scale_error"


def mix(bench: Bench) -> Step:
    """Weigh both parts of the adhesive into one cup."""
    row = bench.club_state.ticket.club.adhesive
    pot = in_si(row.pot_life)
    plan, said = _mixed(bench)
    what = (
        phrase("mix.gate"),
        phrase("mix.stir"),
        *said,
    )
    return Step(
        key="mix",
        title=phrase("title.mix"),
        what=what,
        act_on=()
        if plan is None
        else ((phrase("label.part A"), _grams(plan.cup_a_kg)), (phrase("label.part B"), _grams(plan.cup_b_kg))),
        numbers=(
            *(() if plan is None else _plan_numbers(bench, plan)),
            *present(
                (phrase("label.pot life"), None if pot is None else figure("duration", pot)),
                (phrase("label.product"), row.name),
            ),
        ),
        instrument=tools("gram scale"),
        done_when=phrase("done.mix"),
        cautions=bench.cautions("mix"),
    )


def _mixed(bench: Bench) -> tuple[MixPlan | None, list[Value]]:
    """Return what to weigh, and what to know; nothing is weighed while the sheet's figures are missing."""
    row = bench.club_state.ticket.club.adhesive
    missing: list[Value] = [f"[adhesive] {key}" for key in SHEET_FIGURES if row.entry(key) is None]
    if row.basis is None:
        missing.append(phrase("mix.basis"))
    ratio, per_joint = row.ratio, row.per_joint
    if missing or ratio is None or per_joint is None:
        return None, [phrase("mix.missing", missing=Listed(tuple(missing)))]
    scale_error_kg, taken = _scale_error(bench)
    try:
        plan = plan_mix(
            MixRatio(
                part_a=ratio.value,
                part_b=1.0,
                basis="volume" if row.basis == "volume" else "weight",
                density_a_kg_m3=in_si(row.density_a),
                density_b_kg_m3=in_si(row.density_b),
            ),
            joints=whole_number(row.joints, 1),
            per_joint_kg=per_joint.value,
            scale_error_kg=scale_error_kg,
            waste_share=row.waste.value if row.waste is not None else WASTE_SHARE,
        )
    except InputError as refused:
        return None, [finding.sentence() for finding in refused.findings]
    return plan, [*taken, *(sentence_of(finding) for finding in plan.findings)]


def _scale_error(bench: Bench) -> tuple[float, list[Value]]:
    """Return what the scale may be wrong by, and what to know where nobody said it: no data sheet of an adhesive has it."""
    ticket = bench.club_state.ticket
    given, usual = ticket.club.adhesive.scale_error, default_for(SCALE, ticket.kind)
    if given is not None or usual is None:
        return (0.0 if given is None else given.value), []
    error = parse("mass", usual.text).value
    return error, [phrase("mix.scale", error=_grams(error), standing=Word("standing", usual.standing))]


def _plan_numbers(bench: Bench, plan: MixPlan) -> Numbers:
    return (
        (phrase("label.ratio"), _ratio(bench)),
        (
            phrase("label.ratio by weight"),
            phrase("figure.to hundred", a=Amount("number", plan.ratio_by_weight, form="per hundred")),
        ),
        (phrase("label.part A"), _grams(plan.cup_a_kg)),
        (phrase("label.part B"), _grams(plan.cup_b_kg)),
        (phrase("label.both"), _grams(plan.cup_a_kg + plan.cup_b_kg)),
        (phrase("label.joints need"), _grams(plan.batch_kg)),
        (phrase("label.smallest batch"), _grams(plan.smallest_batch_kg)),
    )


def _ratio(bench: Bench) -> Value:
    """Return the ratio as it stands on the sheet."""
    row = bench.club_state.ticket.club.adhesive
    typed = row.ratio.typed if row.ratio else "?"
    return phrase("figure.ratio", typed=typed, basis=Word("basis", str(row.basis)))


def _grams(mass_kg: float) -> Amount:
    """Return a mass to 0.01 g: parts of a small cup are weighed finer than a club."""
    return Amount("mass", mass_kg, form="hundredths of grams")


def glue(bench: Bench) -> Step:
    """Close the joint."""
    what = [
        phrase("glue.coat"),
        phrase("glue.wipe"),
        phrase("glue.stand"),
    ]
    if bench.club_state.ticket.kind == "putter":
        what.append(phrase("glue.putter"))
    counts = bench.chosen
    under = [
        row.name
        for row, count in zip(bench.club_state.ticket.weights, counts, strict=True)
        if count and row.seat == "tip"
    ]
    depth_m = float(bench.club_state.club.head.bore_depth_m)
    depth = in_full(depth_m)
    sanity, said = joint_lines(bench.club_state, counts)
    return Step(
        key="glue",
        title=phrase("title.glue"),
        what=(*what, *said),
        act_on=((phrase("label.bore depth"), at_mark(depth_m)),),
        numbers=(
            *present(
                (phrase("label.bore depth"), depth),
                (phrase("label.under the tip"), Listed(tuple(under), "plus") if under else None),
            ),
            *sanity,
            *_checked(bench),
        ),
        done_when=phrase("done.glue"),
        cautions=bench.cautions("glue"),
        gate="glue",
    )


def _checked(bench: Bench) -> Numbers:
    """What the gate has looked at, each check with its figures."""
    checks = [check for gate in bench.gates if gate.step == "glue" for check in gate.checks]
    return tuple(
        (phrase("label.checked", what=Word("check", check.key)), check.said)
        for check in checks
        if check.met and check.figures
    )


def cure(bench: Bench) -> Step:
    """Let the joint cure by its own table."""
    act_on, numbers, said = _release(bench)
    return Step(
        key="cure",
        title=phrase("title.cure"),
        what=(phrase("cure.rack"), *said),
        act_on=act_on,
        numbers=numbers,
        instrument=tools("thermometer and clock"),
        done_when=phrase("done.cure"),
        cautions=bench.cautions("release"),
    )


def _release(bench: Bench) -> tuple[Numbers, Numbers, list[Value]]:
    """Return the figure to act on, all figures, and what to know.

    Once the joint is closed its own temperature counts, and the release has a time of day; before, the ticket's plans it.
    """
    ticket, joint = bench.club_state.ticket, bench.joint
    table = tuple((in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in ticket.club.release)
    rows: Numbers = tuple(
        (phrase("label.table row", at=figure("temperature", at)), figure("duration", time)) for at, time in table
    )
    warm = in_si(ticket.club.adhesive.temperature) if joint is None else joint.temperature_k
    if not table:
        return (), (), [phrase("cure.no table")]
    if warm is None:
        return (), rows, [phrase("cure.no temperature")]
    if ticket.material == "graphite":
        limit = figure("temperature", GRAPHITE_CABINET_K)
        rows = (*rows, (phrase("label.cabinet"), limit))
    try:
        found = release_time(table, warm, shaft_material=ticket.material)
    except NotPossible as refused:
        return (), rows, [f"{refused.what}.", refused.instead]
    except InputError as refused:
        return (), rows, [finding.sentence() for finding in refused.findings]
    after: Numbers = ((phrase("label.release after", at=figure("temperature", warm)), _whole_minutes(found.time_s)),)
    act_on: Numbers = after
    if joint is not None and joint.release_at is not None:
        act_on = ((phrase("label.release from", zone=joint.zone), render_moment(joint.release_at)),)
        after = ((phrase("label.that is after", at=figure("temperature", warm)), _whole_minutes(found.time_s)),)
    numbers = (
        *(() if act_on == after else act_on),
        *after,
        (phrase("label.colder row"), figure("duration", found.colder_row_s)),
        *rows,
    )
    return act_on, numbers, [finding.sentence() for finding in found.findings]


def _whole_minutes(time_s: float) -> Amount:
    """Return a waiting time, to be rounded up: a joint is never called ready early."""
    return Amount("duration", time_s, form="whole minutes")


def ferrule_finish(bench: Bench) -> Step:
    """Turn the ferrule to the hosel."""
    return Step(
        key="ferrule finish",
        title=phrase("title.ferrule finish"),
        what=(
            phrase("ferrule finish.shield"),
            phrase("ferrule finish.turn"),
            phrase("ferrule finish.wipe"),
            phrase("ferrule finish.before"),
        ),
        numbers=present((phrase("label.ferrule length"), bench.measured_length("ferrule", "length"))),
        done_when=phrase("done.ferrule finish"),
        cautions=bench.cautions("ferrule finish"),
    )
