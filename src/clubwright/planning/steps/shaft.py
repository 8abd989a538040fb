"""Steps on the shaft: trim and prepare the tip, fit the ferrule, dry-fit, mark and cut."""

from __future__ import annotations

import numpy as np

from clubwright.planning.gates.fit_checks import fit_numbers
from clubwright.planning.joint.fit import fit_of
from clubwright.planning.said.phrases import Value, at_mark, figure, in_full, phrase, tools
from clubwright.planning.steps.inputs import Bench, Numbers, present
from clubwright.planning.steps.types import Step
from clubwright.state.particulars import in_si
from clubwright.ticket.priors.shaft_weighed import is_measured_raw


def _glued_length_m(bench: Bench) -> float:
    """How deep the tip goes in: the bore's depth less what a weight under the tip takes up."""
    return float(bench.club_state.club.head.bore_depth_m) - float(bench.build().lift_m)


def tip_trim(bench: Bench) -> Step:
    """Cut the ticket's own figure off the tip; look whether it is off, where the ticket says so."""
    off_already = bench.club_state.ticket.club.shaft.tip_trimmed == "yes" and "tip trim" not in bench.done
    trim = in_si(bench.club_state.ticket.club.shaft.tip_trim) or 0.0
    left = None
    raw = in_si(bench.club_state.ticket.club.shaft.raw_length)
    if raw is not None:
        left = in_full(raw - trim)
    return Step(
        key="tip trim",
        title=phrase("title.tip trim check" if off_already else "title.tip trim"),
        what=(
            phrase("tip trim.off"),
            phrase("tip trim.left"),
        )
        if off_already
        else (
            phrase("tip trim.sheet"),
            phrase("tip trim.bore"),
            phrase("tip trim.mark"),
            phrase("tip trim.weigh"),
        ),
        act_on=((phrase("label.off the tip"), at_mark(trim)),),
        numbers=present(
            (phrase("label.off the tip"), in_full(trim)),
            (phrase("label.left"), left),
            (phrase("label.trim frequency"), _finished_frequency(bench)),
        ),
        instrument=tools("rule", "cut-off saw", "gram scale"),
        done_when=phrase("done.tip trim"),
        cautions=bench.cautions("cut"),
        gate="cut",
    )


def _finished_frequency(bench: Bench) -> Value | None:
    """Return what is believed of the finished club's frequency; None when it cannot be predicted."""
    if not bench.club_state.can_predict("frequency"):
        return None
    prediction = bench.club_state.predict(["frequency"], fitted=np.array([bench.chosen]))
    return figure("frequency", float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))


def tip_prep(bench: Bench) -> Step:
    """Make the tip ready for adhesive."""
    row = bench.club_state.ticket.club.shaft
    graphite = bench.club_state.ticket.material == "graphite"
    if graphite:
        what = [
            phrase("tip prep.paint"),
            phrase("tip prep.countersunk"),
        ]
    else:
        what = [
            phrase("tip prep.plating"),
            phrase("tip prep.short"),
        ]
    what.append(phrase("tip prep.wipe"))
    if row.tip == "taper":
        what.append(phrase("tip prep.taper"))
        if bench.club_state.ticket.taper_trim and row.tip_trim is not None:
            what.append(phrase("tip prep.taper asked", trim=row.tip_trim.typed))
    elif row.tip_trim is None:
        what.append(phrase("tip prep.no trim"))
    return Step(
        key="tip prep",
        title=phrase("title.tip prep"),
        what=tuple(what),
        numbers=((phrase("label.glued length from the tip"), in_full(_glued_length_m(bench))),),
        instrument=tools("rule"),
        done_when=phrase("done.tip prep"),
        cautions=bench.cautions("tip prep"),
    )


def ferrule(bench: Bench) -> Step:
    """Put the ferrule on to its depth."""
    depth = in_full(_glued_length_m(bench))
    return Step(
        key="ferrule",
        title=phrase("title.ferrule"),
        what=(
            phrase("ferrule.mark"),
            phrase("ferrule.tight"),
            phrase("ferrule.light sleeve" if bench.has_sleeve else "ferrule.light"),
        ),
        numbers=(
            (phrase("label.lower edge"), depth),
            *present((phrase("label.ferrule length"), bench.measured_length("ferrule", "length"))),
        ),
        instrument=tools("rule"),
        done_when=phrase("done.ferrule sleeve" if bench.has_sleeve else "done.ferrule"),
    )


def dry_fit(bench: Bench) -> Step:
    """Put head and shaft together without adhesive."""
    what: list[Value] = [
        phrase("dry fit.seat"),
        phrase("dry fit.marks"),
    ]
    what.append(phrase("dry fit.measure"))
    what.append(phrase("dry fit.loose"))
    if bench.club_state.ticket.club.shim.given:
        what.append(phrase("dry fit.shim"))
    fit, said = fit_numbers(bench.club_state)
    what += said
    if bench.club_state.ticket.kind == "putter":
        what.append(phrase("dry fit.putter"))
    if bench.has_sleeve:
        what.append(phrase("dry fit.sleeve"))
    cut = bench.cut
    ground = None if cut is None else in_full(cut.mark_from_ground_m)
    return Step(
        key="dry fit",
        title=phrase("title.dry fit"),
        what=tuple(what),
        act_on=fit[:1] if fit_of(bench.club_state) is not None else (),
        numbers=(
            *fit,
            *present(
                (phrase("label.glued length"), in_full(_glued_length_m(bench))),
                (phrase("label.mark along"), ground),
            ),
        ),
        instrument=tools("rule", "callipers or plug gauge and micrometer"),
        done_when=phrase("done.dry fit"),
        cautions=bench.cautions("fit"),
    )


def mark_and_cut(bench: Bench) -> Step:
    """Mark the shaft twice, compare, and cut on the waste side."""
    cut = bench.cut
    what = [
        phrase("mark and cut.agree"),
        phrase("mark and cut.aloud"),
        phrase("mark and cut.waste"),
    ]
    if cut is None:
        what = [phrase("mark and cut.no target")]
        numbers: Numbers = ()
    else:
        if cut.short_by_m > 0:
            what.insert(0, phrase("mark and cut.stop"))
        off = None if cut.butt_cut_m is None or cut.short_by_m > 0 else in_full(cut.butt_cut_m)
        numbers = present(
            (phrase("label.mark from the tip"), in_full(cut.mark_from_tip_m)),
            (phrase("label.mark along fitted"), in_full(cut.mark_from_ground_m)),
            (phrase("label.off before"), in_full(cut.tip_trim_m) if cut.tip_trim_m > 0 else None),
            (phrase("label.offcut"), off),
            (phrase("label.too short"), in_full(cut.short_by_m) if cut.short_by_m > 0 else None),
            (phrase("label.kerf"), in_full(cut.kerf_m)),
            (phrase("label.cap off"), in_full(float(bench.club_state.club.grip.cap_m))),
            *((phrase("label.mark lifted", weight=item.weight), in_full(item.shaft_length_m)) for item in cut.lifted),
        )
    known = is_measured_raw(bench.club_state.ticket)
    what.append(phrase("mark and cut.weigh" if known else "mark and cut.weigh unmeasured"))
    figures = (bench.expect_part(f"shaft.{key}") for key in ("cut_length", "cut_mass", "cut_balance_from_tip"))
    return Step(
        key="mark and cut",
        title=phrase("title.mark and cut"),
        what=tuple(what),
        act_on=()
        if cut is None
        else (
            (phrase("label.mark from the tip"), at_mark(cut.mark_from_tip_m)),
            (phrase("label.mark from the ground"), at_mark(cut.mark_from_ground_m)),
        ),
        numbers=numbers,
        instrument=tools("rule", "cut-off saw", "gram scale"),
        expected=tuple(item for item in figures if item is not None),
        done_when=phrase("done.mark and cut"),
        cautions=bench.cautions("cut"),
        gate="cut",
    )
