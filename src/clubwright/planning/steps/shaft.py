"""Steps on the shaft: trim and prepare the tip, fit the ferrule, dry-fit, mark and cut."""

from __future__ import annotations

import numpy as np

from clubwright.notation import length_at_mark, length_in_full, render
from clubwright.planning.gates.fit_checks import fit_numbers
from clubwright.planning.joint.fit import fit_of
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
        left = length_in_full(raw - trim)
    return Step(
        key="tip trim",
        title="Check the tip trim" if off_already else "Trim the tip",
        what=(
            "The ticket says that this is off the tip already: measure the shaft, and cut nothing if it is.",
            "What is left must be the raw length less the trim; if it is not, put the ticket right first.",
        )
        if off_already
        else (
            "The figure is the ticket's, from this shaft's own sheet; no other shaft's sheet will do.",
            "If the sheet is written for another bore, the difference in bore to ground must be in the figure already.",
            "Mark from the TIP end, check which end is which, then cut on the waste side.",
            "Weigh the piece that came off: its mass by its length is tip_density. The raw shaft's mass stays as it was.",
        ),
        act_on=(("off the tip", length_at_mark(trim)),),
        numbers=present(
            ("off the tip", length_in_full(trim)),
            ("left of the uncut shaft", left),
            ("frequency of the finished club with this trim", _finished_frequency(bench)),
        ),
        instrument="rule, cut-off saw, gram scale",
        done_when="The length that is left is what it should be, and the piece that came off was weighed.",
        cautions=bench.cautions("cut"),
        gate="cut",
    )


def _finished_frequency(bench: Bench) -> str | None:
    """Say what is believed of the finished club's frequency; None when it cannot be predicted."""
    if not bench.club_state.can_predict("frequency"):
        return None
    prediction = bench.club_state.predict(["frequency"], fitted=np.array([bench.chosen]))
    return render("frequency", float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))


def tip_prep(bench: Bench) -> Step:
    """Make the tip ready for adhesive."""
    row = bench.club_state.ticket.club.shaft
    graphite = bench.club_state.ticket.material == "graphite"
    if graphite:
        what = [
            "Take off all paint over the glued length, and no fibre: stop at the first dull grey.",
            "A countersunk hosel mouth spares the fibre; do not round or thin the tip.",
        ]
    else:
        what = [
            "Take the plating to a dull grey over the glued length; keep turning, so that no flat is ground.",
            "Stop just short of the hosel top: bare steel above it rusts.",
        ]
    what.append("Wipe the tip and the bore clean and let them dry.")
    if row.tip == "taper":
        what.append("A taper tip is not trimmed: take length off the butt only.")
        if bench.club_state.ticket.taper_trim and row.tip_trim is not None:
            what.append(f"The ticket asks for {row.tip_trim.typed} off this taper tip: not planned. Ask first.")
    elif row.tip_trim is None:
        what.append("The ticket gives no tip trim, so none is planned: if the shaft's sheet has one, enter it first.")
    return Step(
        key="tip prep",
        title="Prepare the tip",
        what=tuple(what),
        numbers=(("glued length, from the tip", length_in_full(_glued_length_m(bench))),),
        instrument="rule",
        done_when="The glued length is evenly dull, clean and dry, and the tip still fits the bore.",
        cautions=bench.cautions("tip prep"),
    )


def ferrule(bench: Bench) -> Step:
    """Put the ferrule on to its depth."""
    depth = length_in_full(_glued_length_m(bench))
    where = "top of the sleeve" if bench.has_sleeve else "hosel"
    return Step(
        key="ferrule",
        title="Fit the ferrule",
        what=(
            "Mark the depth on the tip and push or tap the ferrule on until its lower edge stands there.",
            "A tight one goes on after a bath in hot water; never force it with the head.",
            f"Seat the head and look for light between ferrule and {where}.",
        ),
        numbers=(
            ("lower edge, from the tip", depth),
            *present(("length of the ferrule", bench.measured_length("ferrule", "length"))),
        ),
        instrument="rule",
        done_when=f"It sits flat on the {where} all around while the tip stands on the bottom of the bore.",
    )


def dry_fit(bench: Bench) -> Step:
    """Put head and shaft together without adhesive."""
    what = [
        "Seat the tip on the bottom of the bore; shim it with thin line so that it neither turns nor slides.",
        "Turn the shaft's graphics to where they belong and put witness marks across hosel and shaft.",
    ]
    what.append(
        "Measure the prepared tip and the bore, both where the tip sits: for a taper at one and the same depth."
    )
    what.append(
        "A loose tip gets a shim over the full glued length, never a part of it; a tight one is never driven in."
    )
    if bench.club_state.ticket.club.shim.given:
        what.append("Read the dry club with the shim in: it may weigh a gram. Roughen and wipe it on both faces.")
    fit, said = fit_numbers(bench.club_state)
    what += said
    if bench.club_state.ticket.kind == "putter":
        what.append("Set the face square on a plate, turn a bent shaft until the face error is zero, then mark.")
    if bench.has_sleeve:
        what.append("Fit the sleeve to its setting and its screw to the torque that the head's maker gives.")
    cut = bench.cut
    ground = None if cut is None else length_in_full(cut.mark_from_ground_m)
    return Step(
        key="dry fit",
        title="Dry-fit head and shaft",
        what=tuple(what),
        act_on=fit[:1] if fit_of(bench.club_state) is not None else (),
        numbers=(
            *fit,
            *present(
                ("glued length", length_in_full(_glued_length_m(bench))),
                ("mark, from the ground along the shaft", ground),
            ),
        ),
        instrument="rule, callipers or plug gauge and micrometer",
        done_when="It seats with no gap, tip and bore fit each other by their figures, and the witness marks are on.",
        cautions=bench.cautions("fit"),
    )


def mark_and_cut(bench: Bench) -> Step:
    """Mark the shaft twice, compare, and cut on the waste side."""
    cut = bench.cut
    what = [
        "Mark from the tip end and, head dry-fitted, from the ground: the two marks must agree.",
        "Read the ticket and both marks aloud once more before the saw runs.",
        "Saw on the waste side, towards the butt: the whole kerf comes out of the offcut.",
    ]
    if cut is None:
        what = ["The ticket has no target length, so there is nothing to mark: write [target] length."]
        numbers: Numbers = ()
    else:
        if cut.short_by_m > 0:
            what.insert(0, "STOP: this shaft is too short.")
        off = None if cut.butt_cut_m is None or cut.short_by_m > 0 else length_in_full(cut.butt_cut_m)
        numbers = present(
            ("mark, from the tip", length_in_full(cut.mark_from_tip_m)),
            ("mark, from the ground along the shaft, head dry-fitted", length_in_full(cut.mark_from_ground_m)),
            ("off the tip, before this", length_in_full(cut.tip_trim_m) if cut.tip_trim_m > 0 else None),
            ("offcut", off),
            ("too short by", length_in_full(cut.short_by_m) if cut.short_by_m > 0 else None),
            ("kerf, out of the offcut", length_in_full(cut.kerf_m)),
            ("cap of this grip, left off the mark", length_in_full(float(bench.club_state.club.grip.cap_m))),
            *(
                (f"mark, from the tip, if {item.weight} goes under it", length_in_full(item.shaft_length_m))
                for item in cut.lifted
            ),
        )
    ask = "Weigh the cut shaft, and balance it from its tip: one easy reading that narrows weight and swing weight much"
    known = is_measured_raw(bench.club_state.ticket)
    what.append(f"{ask}." if known else f"{ask}, since the raw shaft was not measured.")
    figures = (bench.expect_part(f"shaft.{key}") for key in ("cut_length", "cut_mass", "cut_balance_from_tip"))
    return Step(
        key="mark and cut",
        title="Mark, check, and cut the butt",
        what=tuple(what),
        act_on=()
        if cut is None
        else (
            ("mark, from the tip", length_at_mark(cut.mark_from_tip_m)),
            ("mark, from the ground", length_at_mark(cut.mark_from_ground_m)),
        ),
        numbers=numbers,
        instrument="rule, cut-off saw, gram scale",
        expected=tuple(item for item in figures if item is not None),
        done_when="The cut shaft was measured tip to butt, the burr is off, and the length is on the record.",
        cautions=bench.cautions("cut"),
        gate="cut",
    )
