"""What speaks against a bend: numbers that cannot be, a metal that is not known, a limit, a bounce that does not fit."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import get_args

from clubwright.club.bounce import loft_minus_bounce_rad
from clubwright.club.parts import KINDS, Hand
from clubwright.errors import DocumentPlace, Finding
from clubwright.planning.bending.metals import METALS, UNKNOWN, MetalLimit
from clubwright.planning.bending.request import BendRequest, BentSoFar
from clubwright.planning.bending.words import Angle, amount_words, degrees, quarter_degrees
from clubwright.planning.number_checks import not_negative, positive, refuse
from clubwright.planning.said.findings import SaidFinding
from clubwright.planning.said.phrases import phrase
from clubwright.units import DEGREE_RAD

RANGES_DEG: dict[str, tuple[float, float]] = {"loft": (-5, 75), "lie": (40, 85), "bounce": (-10, 40)}
"""Angles outside these belong to no head (estimates of ours); a number in degrees taken for radians lands outside too."""

_SAME = 1e-9
"""Angles this near, in rad, are the same: a bend up to the limit itself is within it."""


def check_request(request: BendRequest) -> None:
    """Refuse a request with numbers that cannot be, all findings at once.

    Raises:
        InputError: With every finding.
    """
    findings: list[Finding] = []
    if request.kind not in KINDS:
        findings.append(_no_such("kind", request.kind, KINDS))
    if request.hand not in get_args(Hand):
        findings.append(_no_such("hand", request.hand, get_args(Hand)))
    for angle, (low, high) in RANGES_DEG.items():
        now, target = getattr(request.now, f"{angle}_rad"), getattr(request.target, f"{angle}_rad")
        for where, value in ((f"{angle} as measured", now), (f"{angle} as ordered", target)):
            if value is not None and not (low * DEGREE_RAD <= value <= high * DEGREE_RAD):
                what = f"{value!r} rad is no {angle} between {low} and {high} deg"
                findings.append(Finding(where=where, what=what, mend="Measure again, and mind degrees and radians."))
        if target is not None and now is None and angle != "bounce":
            what = f"{degrees(target)} is ordered, and nobody has measured what it is"
            findings.append(Finding(where=f"{angle} as measured", what=what, mend=f"Measure the {angle} first."))
    so_far = request.bent_so_far or BentSoFar()
    for angle, used in (("loft", so_far.loft_rad), ("lie", so_far.lie_rad)):
        findings += not_negative(f"{angle} bent so far", used, "Add up the bends without their signs, in radians.")
    findings += positive("bounce tolerance", request.bounce_tolerance_rad, "Give a half-width in radians.")
    for where, length in (
        ("centre of gravity from the ground", request.cg_from_ground_m),
        ("centre of gravity off the axis", request.cg_off_axis_m),
        ("contact of the sole", request.sole_contact_m),
        ("camber of the sole", request.sole_camber_m),
    ):
        if length is not None and not isfinite(length):
            findings.append(Finding(where=where, what=f"{length!r} is not a number", mend="Give it in metres."))
    refuse(findings)


def _no_such(where: str, value: object, known: Sequence[str]) -> Finding:
    return Finding(where=where, what=f"there is no {where} {value!r}", mend=f"Use one of {', '.join(known)}.")


def limit_findings(request: BendRequest, limit: MetalLimit, wanted: Sequence[tuple[Angle, float]]) -> list[Finding]:
    """Return what the metal says to the bends wanted: an error for each that is beyond its limit."""
    if not wanted:
        return []
    if not limit.may_bend:
        return [_no_bend(request, limit, wanted)]
    findings = [finding for angle, amount in wanted for finding in _beyond(request, limit, angle, amount)]
    if request.bent_so_far is None and not findings:
        what = "earlier bends of this head are not recorded and count as none"
        mend = "Ask whether it was bent before; the limit holds for all bends together."
        said = phrase("bend.not recorded")
        findings.append(SaidFinding(where="bend", what=what, mend=mend, severity="note", said=said))
    return findings


def _no_bend(request: BendRequest, limit: MetalLimit, wanted: Sequence[tuple[Angle, float]]) -> Finding:
    asked = " and ".join(f"{angle} {amount_words(angle, amount)}" for angle, amount in wanted)
    if limit is UNKNOWN:
        said = "no metal is stated" if not request.metal else f"{request.metal!r} names no metal that is known here"
        mend = f"Ask the maker or read the ticket: one of {', '.join(METALS)}. Until then nothing is bent."
        return Finding(where=DocumentPlace("head", ("metal",)), what=f"{asked} is asked for, and {said}", mend=mend)
    what = f"{asked} is asked for, and a {limit.name} head is not bent: {limit.why}"
    another = f"Take a head that measures {_ordered(request)}, or get the maker's word on this one."
    sleeve = (
        "Turn the sleeve to the setting that its maker's chart gives for that, and measure again. Where none does: "
    )
    mend = f"{sleeve}{another[0].lower()}{another[1:]}" if request.sleeve else another
    return Finding(where="bend", what=what, mend=mend)


def _ordered(request: BendRequest) -> str:
    pairs = (("loft", request.target.loft_rad), ("lie", request.target.lie_rad))
    return " and ".join(f"{angle} {degrees(value)}" for angle, value in pairs if value is not None)


def _beyond(request: BendRequest, limit: MetalLimit, angle: Angle, amount: float) -> list[Finding]:
    loft = angle == "loft"
    so_far = request.bent_so_far or BentSoFar()
    used = so_far.loft_rad if loft else so_far.lie_rad
    routine = limit.loft_limit_rad if loft else limit.lie_limit_rad
    most = limit.expert_loft_limit_rad if loft else limit.expert_lie_limit_rad
    total = used + abs(amount)
    if total <= routine + _SAME:
        return []
    before = f" after {quarter_degrees(used)} of earlier bends" if used > _SAME else ""
    what = f"{amount_words(angle, amount)}{before}, and {limit.name} is usually bent {degrees(routine)} in all"
    if request.expert and total <= most + _SAME:
        mend = f"An expert's bend, up to {degrees(most)} in all: small pulls, and look for cracks after each."
        return [Finding(where=angle, what=what, mend=mend, severity="warning")]
    allowed = most if request.expert else routine
    if request.expert:
        what += f", by experts {degrees(most)}"
    left = max(0.0, allowed - used)
    now, target = _pair(request, angle)
    mend = (
        f"Take another head with a {angle} nearer to {degrees(target)}, measured within {degrees(allowed)} of it when it "
        f"was never bent; this one reaches {degrees(now - left)} to {degrees(now + left)}."
    )
    return [Finding(where=angle, what=what, mend=mend)]


def _pair(request: BendRequest, angle: Angle) -> tuple[float, float]:
    now, target = getattr(request.now, f"{angle}_rad"), getattr(request.target, f"{angle}_rad")
    return float(now), float(target)


def bounce_findings(request: BendRequest, loft_change: float) -> list[Finding]:
    """Return what the bounce ordered says to the loft bend: the two cannot be bent apart."""
    now, target = request.now.bounce_rad, request.target.bounce_rad
    if target is None:
        return []
    if now is None:
        mend = "Measure the bounce before the bend."
        return [Finding(where="bounce", what="nobody has measured it", mend=mend, severity="warning")]
    ends = now + loft_change
    if abs(ends - target) <= request.bounce_tolerance_rad + _SAME:
        return []
    what = f"it ends at {degrees(ends)} and {degrees(target)} is ordered; bounce goes with loft, degree for degree"
    if request.target.loft_rad is None:
        loft = "" if request.now.loft_rad is None else f", to {degrees(request.now.loft_rad + target - now)}"
        mend = f"Order the loft too: a bend to this bounce would take the loft along{loft}."
    else:
        difference = degrees(float(loft_minus_bounce_rad(request.target.loft_rad, target)))
        mend = f"Take a head whose loft less its bounce is {difference}, or order one of the two differently."
    return [Finding(where="bounce", what=what, mend=mend, severity="warning")]
