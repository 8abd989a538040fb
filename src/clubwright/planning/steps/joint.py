"""Steps on the joint: mix, glue, cure, and turn the ferrule."""

from __future__ import annotations

import math

from clubwright.errors import InputError, NotPossible
from clubwright.notation import length_at_mark, length_in_full, render, render_moment
from clubwright.planning.joint.adhesive import WASTE_SHARE, MixPlan, MixRatio, plan_mix
from clubwright.planning.joint.cure import GRAPHITE_CABINET_K, release_time
from clubwright.planning.joint.lines import joint_lines
from clubwright.planning.steps.inputs import Bench, Numbers, present
from clubwright.planning.steps.types import Step
from clubwright.state.particulars import in_si, whole_number

_NEEDED = ("ratio", "per_joint", "scale_error")


def mix(bench: Bench) -> Step:
    """Weigh both parts of the adhesive into one cup."""
    row = bench.club_state.ticket.club.adhesive
    pot = in_si(row.pot_life)
    plan, said = _mixed(bench)
    what = (
        "Do not mix before the gate of the glue step is open: the cup does not wait.",
        "Weigh both parts into one cup on one scale, then stir sides and bottom until no streak is left.",
        *said,
    )
    return Step(
        key="mix",
        title="Mix the adhesive",
        what=what,
        act_on=() if plan is None else (("part A", _grams(plan.cup_a_kg)), ("part B", _grams(plan.cup_b_kg))),
        numbers=(
            *(() if plan is None else _plan_numbers(bench, plan)),
            *present(("pot life", None if pot is None else render("duration", pot)), ("product", row.name)),
        ),
        instrument="gram scale",
        done_when="Both masses, the batch and the time are on the record, and the mix has one colour.",
        cautions=bench.cautions("mix"),
    )


def _mixed(bench: Bench) -> tuple[MixPlan | None, list[str]]:
    """Return what to weigh, and what to know; nothing is weighed while the sheet's figures are missing."""
    row = bench.club_state.ticket.club.adhesive
    missing = [f"[adhesive] {key}" for key in _NEEDED if row.entry(key) is None]
    if row.basis is None:
        missing.append("[adhesive] basis (by weight or by volume)")
    ratio, per_joint, scale_error = row.ratio, row.per_joint, row.scale_error
    if missing or ratio is None or per_joint is None or scale_error is None:
        return None, ["No masses without the data sheet's figures; not on the ticket: " + ", ".join(missing) + "."]
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
            scale_error_kg=scale_error.value,
            waste_share=row.waste.value if row.waste is not None else WASTE_SHARE,
        )
    except InputError as refused:
        return None, [finding.sentence() for finding in refused.findings]
    return plan, [finding.sentence() for finding in plan.findings]


def _plan_numbers(bench: Bench, plan: MixPlan) -> Numbers:
    row = bench.club_state.ticket.club.adhesive
    return (
        ("ratio on the sheet", f"{row.ratio.typed if row.ratio else '?'} by {row.basis}"),
        ("ratio by weight, A to B", f"{plan.ratio_by_weight * 100:.0f}:100"),
        ("part A", _grams(plan.cup_a_kg)),
        ("part B", _grams(plan.cup_b_kg)),
        ("both", _grams(plan.cup_a_kg + plan.cup_b_kg)),
        ("the joints need, waste included", _grams(plan.batch_kg)),
        ("smallest batch on this scale", _grams(plan.smallest_batch_kg)),
    )


def _grams(mass_kg: float) -> str:
    """Write a mass to 0.01 g: parts of a small cup are weighed finer than a club."""
    return f"{mass_kg * 1e3:.2f} g"


def glue(bench: Bench) -> Step:
    """Close the joint."""
    what = [
        "Coat the wall of the bore and the tip; push in slowly while turning, down to the bottom.",
        "Wipe off what comes out; check that the ferrule is down and the witness marks meet.",
        "Stand the club upright and look at marks and ferrule again after 5 and after 10 minutes.",
    ]
    if bench.club_state.ticket.kind == "putter":
        what.append("Hold face and grip flat square in the fixture until the adhesive has set.")
    counts = bench.chosen
    under = [
        row.name
        for row, count in zip(bench.club_state.ticket.weights, counts, strict=True)
        if count and row.seat == "tip"
    ]
    depth_m = float(bench.club_state.club.head.bore_depth_m)
    depth = length_in_full(depth_m)
    sanity, said = joint_lines(bench.club_state, counts)
    return Step(
        key="glue",
        title="Glue head and shaft",
        what=(*what, *said),
        act_on=(("depth of the bore", length_at_mark(depth_m)),),
        numbers=(
            *present(("depth of the bore", depth), ("weight under the tip", " + ".join(under) or None)),
            *sanity,
            *_checked(bench),
        ),
        done_when="The joint is closed at its marks, and the time and the temperature of the part are on the record.",
        cautions=bench.cautions("glue"),
        gate="glue",
    )


def _checked(bench: Bench) -> Numbers:
    """What the gate has looked at, each check with its figures."""
    checks = [check for gate in bench.gates if gate.step == "glue" for check in gate.checks]
    return tuple((f"checked: {check.name}", check.text) for check in checks if check.met and check.text)


def cure(bench: Bench) -> Step:
    """Let the joint cure by its own table."""
    act_on, numbers, said = _release(bench)
    return Step(
        key="cure",
        title="Let the joint cure",
        what=("Rack the club so that nothing loads the joint; what counts is the temperature of the part.", *said),
        act_on=act_on,
        numbers=numbers,
        instrument="thermometer and clock",
        done_when="The gate \"release\" is open: the table's time at the part's own temperature is over.",
        cautions=bench.cautions("release"),
    )


def _release(bench: Bench) -> tuple[Numbers, Numbers, list[str]]:
    """Return the figure to act on, all figures, and what to know.

    Once the joint is closed its own temperature counts, and the release has a time of day; before, the ticket's plans it.
    """
    ticket, joint = bench.club_state.ticket, bench.joint
    table = tuple((in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in ticket.club.release)
    rows: Numbers = tuple((f"table, {render('temperature', at)}", render("duration", time)) for at, time in table)
    warm = in_si(ticket.club.adhesive.temperature) if joint is None else joint.temperature_k
    if not table:
        return (), (), ["The ticket has no release times: copy the data sheet's rows into [[adhesive.release]]."]
    if warm is None:
        return (), rows, ["The ticket has no bench temperature: write [adhesive] temperature."]
    if ticket.material == "graphite":
        limit = render("temperature", GRAPHITE_CABINET_K)
        rows = (*rows, ("warmest cabinet for graphite (common practice, no source)", limit))
    try:
        found = release_time(table, warm, shaft_material=ticket.material)
    except NotPossible as refused:
        return (), rows, [f"{refused.what}.", refused.instead]
    except InputError as refused:
        return (), rows, [finding.sentence() for finding in refused.findings]
    after = ((f"release after, at {render('temperature', warm)}", _whole_minutes(found.time_s)),)
    act_on = after
    if joint is not None and joint.release_at is not None:
        act_on = ((f"release from ({joint.zone})", render_moment(joint.release_at)),)
        after = ((f"that is, after closing the joint at {render('temperature', warm)}", _whole_minutes(found.time_s)),)
    numbers = (
        *(() if act_on == after else act_on),
        *after,
        ("time of the next colder row, to be safe", render("duration", found.colder_row_s)),
        *rows,
    )
    return act_on, numbers, [finding.sentence() for finding in found.findings]


def _whole_minutes(time_s: float) -> str:
    """Write a waiting time, rounded up: a joint is never called ready early."""
    return render("duration", 60.0 * math.ceil(time_s / 60.0 - 1e-6))


def ferrule_finish(bench: Bench) -> Step:
    """Turn the ferrule to the hosel."""
    return Step(
        key="ferrule finish",
        title="Finish the ferrule",
        what=(
            "Shield hosel and shaft with tape.",
            "Turn the ferrule down to the hosel's diameter on a fine belt, touching lightly.",
            "Belt off and sparks out, then one wipe with solvent for the gloss.",
            "This comes before the grip: its solvent is opened after the last spark.",
        ),
        numbers=present(("length of the ferrule", bench.measured_length("ferrule", "length"))),
        done_when="A fingernail runs over hosel, ferrule and shaft without catching.",
        cautions=bench.cautions("ferrule finish"),
    )
