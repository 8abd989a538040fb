"""The sanity figure of the joint for the glue step: bond area, pull of the swing, and the reserve, with what they lack.

Derivation and sources: docs/theory/adhesive.md; the formulas are those of `clubwright.planning.joint.stress`.
"""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.errors import InputError
from clubwright.planning.club_state import ClubState
from clubwright.planning.joint.fit import TIP, JointFit, fine, fit_of
from clubwright.planning.joint.stress import DEGREASED_STEEL_STRENGTH_PA, bond_line_volume_m3, joint_sanity
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket

SWING: dict[str, tuple[float, float]] = {
    "driver": (45.0, 1.7),
    "fairway": (43.0, 1.6),
    "hybrid": (41.0, 1.6),
    "iron": (38.0, 1.5),
    "wedge": (34.0, 1.4),
}
"""Speed of the head in m/s and radius of its path in m, by kind of club: estimates of ours for a strong player. A putter
has none: its swing pulls by next to nothing."""

STRENGTH_SOURCE = "epoxy to degreased steel, The Structural Engineer 58(1), 1980"

Numbers = tuple[tuple[str, str], ...]


def joint_lines(club_state: ClubState, fitted: Sequence[float]) -> tuple[Numbers, tuple[str, ...]]:
    """Return the figures of the joint, and the sentences that belong to them; or what the ticket lacks for them.

    Args:
        club_state: Where the club stands.
        fitted: Counts of the weights that will be on; one under the tip takes its thickness off the glued length.
    """
    ticket = club_state.ticket
    if ticket.kind not in SWING:
        return (), ()
    needed = {("shaft", "tip_diameter"), ("head", "bore_depth"), ("head", "mass")}
    missing = sorted(f"[{section}] {key}" for section, key in needed if ticket.row(section).entry(key) is None)
    tip = ticket.club.shaft.tip_diameter
    if missing or tip is None:
        return (), (f"No sanity figure for the joint; not on the ticket: {', '.join(missing)}.",)
    speed_m_s, radius_m = SWING[ticket.kind]
    try:
        found = joint_sanity(
            diameter_m=club_state.number(TIP)[0],
            depth_m=float(club_state.club.head.bore_depth_m) - _lifted_m(ticket, fitted),
            head_mass_kg=float(club_state.club.head.mass_kg),
            head_speed_m_s=speed_m_s,
            radius_m=radius_m,
        )
    except InputError as refused:
        return (), tuple(finding.sentence() for finding in refused.findings)
    fit = fit_of(club_state)
    if fit is not None and fit.verdict != "fits":
        return (), ("No sanity figure for the joint: tip and bore do not leave a bond line as it may be.",)
    strength = f"{DEGREASED_STEEL_STRENGTH_PA / 1e6:.0f} MPa"
    numbers = (
        ("bond area", f"{found.area_m2 * 1e6:.0f} mm2"),
        ("pull of the head in the swing", f"{found.swing_load_n:.0f} N (taken: {speed_m_s:.0f} m/s on {radius_m} m)"),
        ("pull that meets its strength", f"{found.axial_capacity_n / 1e3:.1f} kN at {strength} ({STRENGTH_SOURCE})"),
        ("reserve", f"{found.reserve:.0f} times"),
        *(() if fit is None else _filled(fit, float(club_state.club.head.bore_depth_m) - _lifted_m(ticket, fitted))),
    )
    other = ("The strength is that of a bond to steel: a graphite tip is not covered by it.",)
    return numbers, (found.meaning, *(other if ticket.material == "graphite" else ()))


def _filled(fit: JointFit, depth_m: float) -> Numbers:
    """The ring of adhesive that fills the clearance, all its bond lines together; what stays elsewhere comes on top."""
    gap_m = fit.clearance_m / 2
    volume_m3 = bond_line_volume_m3((fit.bore_m + fit.tip_m) / 2, gap_m, depth_m)
    return (
        ("bond line a side", fine(fit.line_m)),
        ("adhesive that fills it", f"{volume_m3 * 1e6:.2f} cm3"),
    )


def _lifted_m(ticket: Ticket, fitted: Sequence[float]) -> float:
    """Add up the thickness under the tip. From the ticket: the club's own parts lift nothing while the cut allows for it."""
    return sum(
        (in_si(row.lifts_shaft) or 0.0) * count
        for row, count in zip(ticket.weights, fitted, strict=True)
        if row.seat == "tip"
    )
