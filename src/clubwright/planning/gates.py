"""Gates: the irreversible steps (cut, glue, release to play) stay closed until what they need is known.

A gate that is closed says every reason at once, each with the next thing to do.
"""

from __future__ import annotations

import msgspec

from clubwright.club.length import length_change_from_lie_m, plane_length_change_from_lie_m
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED
from clubwright.errors import InputError
from clubwright.notation import render
from clubwright.planning.cure import released
from clubwright.planning.cut import CUT_JOBS, Cut
from clubwright.planning.situation import Situation
from clubwright.planning.tray import names_of
from clubwright.planning.weights import Choice

DRY_STAGES = frozenset({DRY_NO_GRIP.name, DRY_TAPED.name, DRY_GRIPPED.name})
LEAST_CHANCE = 0.5
"""A build with a smaller chance than this of reading as ordered is not glued (estimate of ours)."""

CORE_SLACK_M = 0.021 * 0.0254
"""A grip whose core misses the butt by more than one size step (.020 in) is the wrong grip (common practice, no source)."""


class Gate(msgspec.Struct, frozen=True, kw_only=True):
    """One gate: the step it guards, whether it is open, and why."""

    step: str
    open: bool
    why: str


class Progress(msgspec.Struct, frozen=True, kw_only=True):
    """What the journal knows beyond the ticket.

    Attributes:
        glued: Whether the joint is glued.
        cure: How long the joint has been at which temperature: (seconds, kelvin) in order.
    """

    glued: bool = False
    cure: tuple[tuple[float, float], ...] = ()


def gates_of(situation: Situation, cut: Cut | None, best: Choice, progress: Progress) -> tuple[Gate, ...]:
    """Return the gates of a build or re-shaft; other work has none."""
    if situation.ticket.job not in CUT_JOBS:
        return ()
    return (
        _gate("cut", _cut_reasons(situation, cut), "bore, cap and lie are measured; the shaft is long enough"),
        _gate("glue", _glue_reasons(situation, best), "hand, loft, grip core, length and dry reading agree"),
        _gate("release", _release_reasons(situation, progress), "cured by the adhesive's own table"),
    )


def _gate(step: str, reasons: list[str], fine: str) -> Gate:
    return Gate(step=step, open=not reasons, why="; ".join(reasons) if reasons else fine)


def _cut_reasons(situation: Situation, cut: Cut | None) -> list[str]:
    head, grip = situation.ticket.row("head").numbers, situation.ticket.row("grip").numbers
    needs = (
        (
            head,
            "bore_to_ground",
            "the bore is not measured: seat a straight test shaft and write [head] bore_to_ground",
        ),
        (head, "bore_depth", "the bore's depth is not measured: write [head] bore_depth"),
        (grip, "cap", "the cap of this grip is not measured: write [grip] cap"),
        (head, "lie", "the lie is not measured: write [head] lie"),
    )
    reasons = [why for numbers, key, why in needs if key not in numbers]
    if cut is None:
        return ["no target length on the ticket", *reasons]
    if cut.short_by_m > 0:
        reasons.append(f"the shaft is {render('length', cut.short_by_m)} too short: pull another")
    if situation.ticket.taper_trim:
        reasons.append("the ticket trims a taper tip, which is not done: take tip_trim off, or correct tip")
    reasons += bend_first_reasons(situation)
    return reasons


def bend_first_reasons(situation: Situation) -> list[str]:
    """Say why the lie is bent before the cut: a bend after it would use up half of the length tolerance."""
    goal, length = situation.goal("lie"), situation.goal("length")
    if goal is None or length is None or "lie" not in situation.ticket.row("head").numbers:
        return []
    bend = goal.target - situation.belief.mean_of("head.lie_rad")
    head = situation.club.head
    change = float(length_change_from_lie_m(bend, head.lie_rad))
    if situation.prior.conventions.length_method == "60 degree plane":
        change = float(plane_length_change_from_lie_m(bend, head.lie_rad, head.sole_camber_m, head.sole_contact_m))
    if abs(change) <= length.half_width / 2 or abs(bend) <= goal.half_width:
        return []
    words = f"bending the lie by {render('angle', bend)} changes the measured length by {render('length', change)}"
    return [f"{words}: bend first, then mark the cut"]


def _glue_reasons(situation: Situation, best: Choice) -> list[str]:
    ticket = situation.ticket
    reasons = []
    said = ticket.row("head").words.get("hand")
    if said is not None and said != ticket.hand:
        reasons.append(f"wrong hand: the ticket is {ticket.hand}, the head is {said}")
    reasons += _loft_reasons(situation) + _core_reasons(situation) + _length_reasons(situation)
    reasons += _reading_reasons(situation, best)
    return reasons


def _loft_reasons(situation: Situation) -> list[str]:
    goal = situation.goal("loft")
    if goal is None:
        return []
    if "loft" not in situation.ticket.row("head").numbers:
        return ["the loft of the head is not measured: write [head] loft"]
    off = goal.target - situation.belief.mean_of("head.loft_rad")
    within_reach = 4.0 * 0.017453292519943295 + goal.half_width
    if abs(off) > within_reach:
        return [f"the head's loft is {render('angle', abs(off))} away from the target: this is another head"]
    return []


def _core_reasons(situation: Situation) -> list[str]:
    core = situation.ticket.row("grip").value("core")
    butt = situation.ticket.row("shaft").value("butt_diameter")
    if core is None or butt is None or abs(core - butt) <= CORE_SLACK_M:
        return []
    return [
        f"grip core {render('diameter', core)} does not suit a butt of {render('diameter', butt)}: pull another grip"
    ]


def _length_reasons(situation: Situation) -> list[str]:
    goal = situation.goal("length")
    if goal is None:
        return []
    prediction = situation.predict(["length"])
    mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
    if goal.low <= mean <= goal.high:
        return []
    return [f"the finished length is believed to be {render('length', mean, sd)}, ordered {goal.typed}"]


def _reading_reasons(situation: Situation, best: Choice) -> list[str]:
    aside = situation.learned.set_aside
    reasons = [
        f"the reading at {item.reading.where} does not fit and nobody has decided about it"
        for item in aside
        if item.reading.keep is None
    ]
    dry = [
        item
        for item in situation.learned.judged
        if item.taken and item.reading.quantity == "swing_weight" and item.reading.stage.name in DRY_STAGES
    ]
    if situation.goal("swing_weight") is not None and not dry:
        reasons.append("no dry swing-weight reading yet: read it before gluing")
    if best.chance < LEAST_CHANCE:
        moved = " and ".join(QUANTITIES[key].name for key in best.keys)
        reasons.append(f"the best that can be fitted has a {best.chance:.0%} chance for {moved}")
    tip = _tip_names(situation, best)
    if best.changed and tip:
        reasons.append("fit " + " + ".join(tip) + " before gluing: it sits under the tip")
    return reasons


def _tip_names(situation: Situation, best: Choice) -> list[str]:
    """Tip weights of the best choice that are not on yet."""
    ticket = situation.ticket
    more = (best.counts - situation.fitted_now[0]).clip(min=0)
    return [name for name in names_of(ticket, more) if ticket.weights[ticket.weight_place(name)].words["seat"] == "tip"]


def _release_reasons(situation: Situation, progress: Progress) -> list[str]:
    if not progress.glued:
        return ["the joint is not glued yet"]
    table = tuple((row.value("temperature") or 0.0, row.value("time") or 0.0) for row in situation.ticket.release)
    if not table:
        return ["no release times on the ticket: copy the rows of the data sheet into [[adhesive.release]]"]
    try:
        done = released(table, progress.cure, shaft_material=situation.ticket.material).released
    except InputError as refused:
        return [finding.sentence() for finding in refused.findings]
    return [] if done else ["not cured yet by the adhesive's own table"]
