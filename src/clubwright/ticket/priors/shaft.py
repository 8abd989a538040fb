"""What is believed of a shaft that was not fully measured: its cut length, its balance and the densities of its ends."""

from __future__ import annotations

from typing import Any

from clubwright.club.beam.stiffness import StiffnessPiece, StiffnessProfile
from clubwright.club.build import Conventions
from clubwright.club.cut import shaft_length_m
from clubwright.club.frequency import SHORTEST_FREE_M
from clubwright.club.length import plane_minus_axis_m
from clubwright.club.parts import Club
from clubwright.club.shaft import straight_line_densities
from clubwright.errors import Finding, InputError
from clubwright.notation import parse, render
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.units import INCH_M

UNCUT_SD_M = 8e-3
"""How well the length of a club that comes in for other work is known before it is read (estimate of ours)."""

BALANCE_SHARE = {"steel": (0.52, 0.015), "graphite": (0.53, 0.02)}
"""Balance point of a raw shaft from its tip, as a share of its length, and its uncertainty (estimates of ours)."""

DENSITY_SHARE = 0.1
"""Uncertainty of an end's density that follows from mass and balance alone, as a share (estimate of ours)."""


COVERED_SDS = 6.0
"""So many standard deviations of its length beyond the likeliest the profile of a shaft is run on."""


def cut_prior(
    ticket: Ticket, club: Club, conventions: Conventions, lift_m: float, cut_sd_m: float
) -> tuple[float, float, str]:
    """Return length of the cut shaft, its uncertainty, and what it rests on when that is an assumption.

    For a build or a re-shaft it is the length the target asks for, cut to the mark. For a club that comes in finished it
    is what the target or the usual length for its kind leaves.
    """
    target = in_si(ticket.order.targets.length)
    head, cap = club.head, float(club.grip.cap_m)
    usual = default_for("length", ticket.kind)
    assert usual is not None, ticket.kind  # every kind has one
    understood = parse("length", usual.text, where="defaults")
    wanted = understood.value if target is None else target
    if conventions.length_method == "60 degree plane":
        wanted -= float(plane_minus_axis_m(head.lie_rad, head.sole_camber_m, head.sole_contact_m))
    length = float(shaft_length_m(wanted, head.bore_to_ground_m, lift_m, cap))
    if ticket.job in ("build", "reshaft") and target is not None:
        return length, cut_sd_m, ""
    if target is not None:
        return length, UNCUT_SD_M, "what the target length leaves"
    return length, understood.sd or UNCUT_SD_M, "usual length of its kind, trade estimate"


def density_prior(given: dict[str, Any], material: str) -> dict[str, tuple[float, float]]:
    """Return balance and end densities that the ticket does not give: attribute -> (mean, uncertainty)."""
    found: dict[str, tuple[float, float]] = {}
    raw, mass = float(given["raw_length_m"]), float(given["mass_kg"])
    balance = given.get("balance_from_tip_m")
    if balance is None:
        share, spread = BALANCE_SHARE[material]
        balance = share * raw
        found["balance_from_tip_m"] = (balance, spread * raw)
    tip, butt = straight_line_densities(mass, float(balance), raw)
    if "tip_density_kg_m" not in given:
        found["tip_density_kg_m"] = (tip, DENSITY_SHARE * tip)
    if "butt_density_kg_m" not in given:
        found["butt_density_kg_m"] = (butt, DENSITY_SHARE * butt)
    return found


def covering(profile: StiffnessProfile, given: dict[str, Any], length_sd_m: float) -> StiffnessProfile:
    """Return a profile that covers the shaft wherever its butt may be: a plain piece goes on behind one that ends short.

    A shaft too short for its club is told elsewhere; all other quantities go on with it, and so does the frequency.
    """
    needed = float(given["tip_trim_m"]) + float(given["length_m"]) + COVERED_SDS * length_sd_m
    if needed <= profile.end_m:
        return profile
    last = profile.pieces[-1]
    ei, gj, density = last.end_ei_n_m2, last.end_gj_n_m2, last.end_density_kg_m
    plain = StiffnessPiece(profile.end_m, needed, ei, ei, gj, gj, density, density)
    return StiffnessProfile(pieces=(*profile.pieces, plain))


def check_clamped(
    ticket: Ticket, given: dict[str, Any], length_sd_m: float, bore_depth_m: float, clamp_m: float
) -> None:
    """Refuse a shaft of which the clamp leaves too little free for a frequency, wherever its butt may be.

    Raises:
        InputError: when it does; without a stiffness nobody asks.
    """
    left = float(given["length_m"]) - COVERED_SDS * length_sd_m - clamp_m - max(bore_depth_m, 2 * INCH_M)
    if left >= SHORTEST_FREE_M:
        return
    row = ticket.club.shaft
    length, held = render("length", float(given["length_m"])), render("length", clamp_m)
    what = f"a shaft of {length} in a clamp of {held} has too little free for a frequency"
    mend = "Look at the length, the bore and [shop] clamp, or leave the stiffness out."
    raise InputError([Finding(where=row.where.at("stiffness"), what=what, mend=mend)])
