"""What a drawing's numbers must satisfy before a line is drawn; every finding at once."""

from __future__ import annotations

from math import isfinite, pi

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.labels.sheet.data import ClubDrawing

SLACK_M = 1e-4
"""A tenth of a millimetre: less than a line's width on the paper."""


def check_drawing(club: ClubDrawing) -> None:
    """Refuse a club that cannot be drawn.

    Raises:
        InputError: With a finding for every number that is not finite, out of range, or in the wrong order.
    """
    findings = [
        Finding(where=f"drawing {name}", what=f"{value} is not a number", mend="Give a length in m or an angle in rad.")
        for name, value in _numbers(club)
        if not isfinite(value)
    ]
    if not findings:
        findings = [*_ranges(club), *_order(club)]
    if findings:
        raise InputError(findings)


def _numbers(club: ClubDrawing) -> list[tuple[str, float]]:
    found = [(name, value) for name, value in msgspec.structs.asdict(club).items() if isinstance(value, float | int)]
    for place in (*club.tapes, *club.weights, *((club.cut,) if club.cut else ())):
        kind = type(place).__name__
        fields = msgspec.structs.asdict(place).items()
        found += [(f"{kind}.{name}", v) for name, v in fields if isinstance(v, float | int) and not isinstance(v, bool)]
    return found


def _ranges(club: ClubDrawing) -> list[Finding]:
    limits = [
        ("length_m", club.length_m, 0.3, 2.0),
        ("lie_rad", club.lie_rad, 30 * pi / 180, 90 * pi / 180),
        ("cap_m", club.cap_m, 0.0, 0.05),
        ("grip_length_m", club.grip_length_m, 0.05, 0.8),
        ("fulcrum_m", club.fulcrum_m, 0.0, club.length_m),
        ("balance_point_m", club.balance_point_m, 0.0, club.length_m + 0.1),
        ("hosel_top_from_ground_m", club.hosel_top_from_ground_m, 0.0, 0.3),
        ("head_cg_from_ground_m", club.head_cg_from_ground_m, -0.1, 0.2),
        ("head_cg_off_axis_m", club.head_cg_off_axis_m, -0.1, 0.15),
    ]
    if club.cut:
        limits.append(("cut.raw_butt_from_ground_m", club.cut.raw_butt_from_ground_m, 0.3, 2.5))
    return [
        Finding(
            where=f"drawing {name}",
            what=f"{value:g} is not between {low:g} and {high:g}",
            mend="Give metres and radians, from the place the field says.",
        )
        for name, value, low, high in limits
        if value is not None and not low <= value <= high
    ]


def _order(club: ClubDrawing) -> list[Finding]:
    findings = []

    def must(holds: bool, where: str, what: str, mend: str) -> None:  # noqa: FBT001
        if not holds:
            findings.append(Finding(where=f"drawing {where}", what=what, mend=mend))

    butt, tip = club.shaft_butt_from_ground_m, club.shaft_tip_from_ground_m
    must(
        tip < butt, "shaft", f"the tip ({tip:g} m) is not below the butt ({butt:g} m)", "Measure both from the ground."
    )
    must(
        butt <= club.length_m + SLACK_M,
        "shaft_butt_from_ground_m",
        f"the butt ({butt:g} m) lies beyond the cap ({club.length_m:g} m)",
        "Use the butt of the finished club; the raw butt goes into the cut.",
    )
    low, high = club.ferrule_from_ground_m, club.ferrule_to_ground_m
    must((low is None) == (high is None), "ferrule", "one end is missing", "Give both ends, or none.")
    if low is not None and high is not None:
        must(low < high, "ferrule", f"{low:g} m is not below {high:g} m", "Give the lower end first.")
    for tape in club.tapes:
        must(
            0 <= tape.from_cap_m < tape.to_cap_m <= club.length_m,
            f"tape {tape.name!r}",
            f"{tape.from_cap_m:g} m to {tape.to_cap_m:g} m is no stretch of the club",
            "Measure both ends from the cap.",
        )
    if club.cut:
        mark, raw = club.cut.mark_from_ground_m, club.cut.raw_butt_from_ground_m
        must(
            tip < mark <= raw,
            "cut",
            f"the mark ({mark:g} m) is not between the tip and the raw butt ({raw:g} m)",
            "Check the raw length and the tip trim.",
        )
    return findings
