"""Where to cut the shaft: the mark from the tip and from the ground, the offcut, and which side the saw goes.

S = target length along the axis - bore to ground - lift of a tip weight - cap of this grip. Derivation:
docs/theory/length.md; checked in tests/bench and against a worked example in tests/published.
"""

from __future__ import annotations

import msgspec

from clubwright.club.build import Build, Conventions
from clubwright.club.cut import shaft_length_m
from clubwright.club.length import plane_minus_axis_m
from clubwright.club.parts import Club
from clubwright.errors import Finding
from clubwright.notation import length_in_full, parse
from clubwright.planning.club_state import ClubState
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import CUT_JOBS

__all__ = ["CUT_JOBS", "DEFAULT_KERF", "Cut", "LiftedCut", "cut_of"]

DEFAULT_KERF = "1/16 in"
"""Width of a cut-off wheel's kerf (common practice, no source)."""


class LiftedCut(msgspec.Struct, frozen=True, kw_only=True):
    """The cut if a weight that lifts the shaft goes under the tip."""

    weight: str
    shaft_length_m: float
    text: str


class Cut(msgspec.Struct, frozen=True, kw_only=True):
    """The cut, in m and in words.

    Attributes:
        shaft_length_m: Tip end to butt end after trims.
        butt_cut_m: What comes off the butt; None when the raw length is not known, negative when the shaft is too short.
        mark_from_tip_m: The mark, from the tip end after the tip trim.
        mark_from_ground_m: The mark on the dry-fitted club, along the axis from its ground point.
        tip_trim_m: What comes off the tip first.
        kerf_m: Width of the saw cut, which lies wholly on the waste side.
        short_by_m: By how much the raw shaft is too short; 0 when it is long enough.
        lifted: The cut with each weight of the tray that lifts the shaft, when none is fitted.
        text: All of it for the bench, with the waste side.
    """

    shaft_length_m: float
    butt_cut_m: float | None
    mark_from_tip_m: float
    mark_from_ground_m: float
    tip_trim_m: float
    kerf_m: float
    short_by_m: float
    lifted: tuple[LiftedCut, ...]
    text: str


def cut_of(club_state: ClubState) -> tuple[Cut | None, tuple[Finding, ...]]:
    """Plan the cut of a build or a re-shaft; None for other work or without a target length."""
    ticket = club_state.ticket
    target = in_si(ticket.order.targets.length)
    if ticket.job not in CUT_JOBS or target is None:
        return None, ()
    club, conventions = club_state.prior.club, club_state.prior.conventions
    axis = target - plane_correction_m(club, conventions)
    build = Build(club=club, fitted=ticket.fitted_now)
    bore, cap = float(club.head.bore_to_ground_m), float(club.grip.cap_m)
    length = float(shaft_length_m(axis, bore, build.lift_m, cap))
    trim = 0.0 if ticket.taper_trim else in_si(ticket.club.shaft.tip_trim) or 0.0
    kerf = in_si(ticket.shop.kerf)
    kerf = parse("length", DEFAULT_KERF, where="defaults").value if kerf is None else kerf
    raw = in_si(ticket.club.shaft.raw_length)
    off = None if raw is None else raw - trim - length
    short = 0.0 if off is None or off >= 0 else -off
    cut = Cut(
        shaft_length_m=length,
        butt_cut_m=off,
        mark_from_tip_m=length,
        mark_from_ground_m=axis - cap,
        tip_trim_m=trim,
        kerf_m=kerf,
        short_by_m=short,
        lifted=_lifted(ticket, axis, bore, cap) if float(build.lift_m) == 0.0 else (),
        text="",
    )
    return msgspec.structs.replace(cut, text=_text(cut)), _findings(ticket, cut)


def _lifted(ticket: Ticket, axis: float, bore: float, cap: float) -> tuple[LiftedCut, ...]:
    found = []
    for row in ticket.weights:
        lift = in_si(row.lifts_shaft) or 0.0
        if lift > 0 and row.seat == "tip":
            length = float(shaft_length_m(axis, bore, lift, cap))
            text = f"with {row.name} under the tip: mark {length_in_full(length)} from the tip"
            found.append(LiftedCut(weight=row.name, shaft_length_m=length, text=text))
    return tuple(found)


def _text(cut: Cut) -> str:
    lines = []
    if cut.tip_trim_m > 0:
        lines.append(f"Cut {length_in_full(cut.tip_trim_m)} off the TIP first.")
    lines.append(f"Mark {length_in_full(cut.mark_from_tip_m)} from the tip end;")
    lines.append(f"that is {length_in_full(cut.mark_from_ground_m)} from the ground along the shaft, head dry-fitted.")
    if cut.short_by_m > 0:
        lines.append(f"STOP: this shaft is {length_in_full(cut.short_by_m)} too short.")
    elif cut.butt_cut_m is None:
        lines.append("The raw length is not on the ticket, so the offcut is not known.")
    elif cut.butt_cut_m > 0:
        lines.append(
            f"Offcut {length_in_full(cut.butt_cut_m)}. Saw on the waste side, towards the butt: "
            f"the whole kerf ({length_in_full(cut.kerf_m)}) comes out of the offcut."
        )
    return " ".join(lines)


def _findings(ticket: Ticket, cut: Cut) -> tuple[Finding, ...]:
    where = ticket.club.shaft.where
    if cut.short_by_m > 0:
        what = f"the raw shaft is {length_in_full(cut.short_by_m)} too short for the target length"
        mend = "Pull a longer shaft, trim less off the tip, or agree a shorter club."
        return (Finding(where=where.at("raw_length"), what=what, mend=mend, severity="warning"),)
    if cut.butt_cut_m is None:
        mend = "Measure the raw shaft and write raw_length."
        return (
            Finding(
                where=where.at("raw_length"),
                what="not given, so the offcut is not known",
                mend=mend,
                severity="warning",
            ),
        )
    if 0 < cut.butt_cut_m < cut.kerf_m:
        what = f"the offcut of {length_in_full(cut.butt_cut_m)} is less than the saw's kerf"
        mend = "Grind to the mark instead of sawing."
        return (Finding(where=where.at("raw_length"), what=what, mend=mend, severity="warning"),)
    return ()


def plane_correction_m(club: Club, conventions: Conventions) -> float:
    """Return length by the method in use minus length along the axis to the ground, for this head, in m."""
    if conventions.length_method == "axis to ground":
        return 0.0
    head = club.head
    return float(plane_minus_axis_m(head.lie_rad, head.sole_camber_m, head.sole_contact_m))
