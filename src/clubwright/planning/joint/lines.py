"""The sanity figure of the joint for the glue step: bond area, pull of the swing, and the reserve, with what they lack.

Derivation and sources: docs/theory/adhesive.md; the formulas are those of `clubwright.planning.joint.stress`.
"""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.club.build import Build
from clubwright.errors import InputError
from clubwright.planning.club_state import ClubState
from clubwright.planning.joint.fit import TIP, JointFit, fit_of
from clubwright.planning.joint.stress import DEGREASED_STEEL_STRENGTH_PA, bond_line_volume_m3, joint_sanity
from clubwright.planning.said.phrases import Amount, Listed, Value, fine, phrase

SWING: dict[str, tuple[float, float]] = {
    "driver": (45.0, 1.7),
    "fairway": (43.0, 1.6),
    "hybrid": (41.0, 1.6),
    "iron": (38.0, 1.5),
    "wedge": (34.0, 1.4),
}
"""Speed of the head in m/s and radius of its path in m, by kind of club: estimates of ours for a strong player. A putter
has none: its swing pulls by next to nothing."""

STRENGTH_SOURCE = phrase("source.strength")

Numbers = tuple[tuple[Value, Value], ...]


def joint_lines(club_state: ClubState, fitted: Sequence[float]) -> tuple[Numbers, tuple[Value, ...]]:
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
        return (), (phrase("joint.missing", missing=Listed(tuple(missing))),)
    speed_m_s, radius_m = SWING[ticket.kind]
    try:
        found = joint_sanity(
            diameter_m=club_state.number(TIP)[0],
            depth_m=_depth_m(club_state, fitted),
            head_mass_kg=float(club_state.club.head.mass_kg),
            head_speed_m_s=speed_m_s,
            radius_m=radius_m,
        )
    except InputError as refused:
        return (), tuple(finding.sentence() for finding in refused.findings)
    fit = fit_of(club_state)
    if fit is not None and fit.verdict != "fits":
        return (), (phrase("joint.no line"),)
    strength = phrase(
        "figure.strength",
        pull=Amount("number", found.axial_capacity_n, form="kilonewton"),
        strength=Amount("number", DEGREASED_STEEL_STRENGTH_PA, form="megapascal"),
        source=STRENGTH_SOURCE,
    )
    pull = phrase(
        "figure.pull taken",
        pull=Amount("number", found.swing_load_n, form="newton"),
        speed=Amount("number", speed_m_s, form="metres per second"),
        radius=Amount("number", radius_m, form="metres"),
    )
    numbers: Numbers = (
        (phrase("label.bond area"), Amount("number", found.area_m2, form="mm2")),
        (phrase("label.pull of the head"), pull),
        (phrase("label.pull that meets"), strength),
        (phrase("label.reserve"), phrase("figure.times", times=Amount("number", found.reserve, form="times"))),
        *(() if fit is None else _filled(fit, _depth_m(club_state, fitted))),
    )
    other = (phrase("joint.graphite"),)
    return numbers, (found.meaning, *(other if ticket.material == "graphite" else ()))


def _filled(fit: JointFit, depth_m: float) -> Numbers:
    """The ring of adhesive that fills the clearance, all its bond lines together; what stays elsewhere comes on top."""
    gap_m = fit.clearance_m / 2
    volume_m3 = bond_line_volume_m3((fit.bore_m + fit.tip_m) / 2, gap_m, depth_m)
    return (
        (phrase("label.bond line"), fine(fit.line_m)),
        (phrase("label.fills"), Amount("number", volume_m3, form="cm3")),
    )


def _depth_m(club_state: ClubState, fitted: Sequence[float]) -> float:
    """How far the tip sits in the bore over the weights under it."""
    club = club_state.club
    return float(club.head.bore_depth_m - Build(club=club, fitted=tuple(fitted)).lift_m)
