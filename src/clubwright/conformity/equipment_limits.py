"""Limits of the Equipment Rules that a clubmaker's work can break, as data with clause, source and the date it was seen.

The governing bodies publish them in imperial units; the metric figure is printed for information, and the imperial one
decides (1 in = 25.4 mm exactly). Nothing here is a ruling: a part must also be designed to meet the limit, and only the
governing bodies rule. Each limit is checked in tests/published/test_published_equipment_rules.py.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

import msgspec

from clubwright.club.parts import KINDS
from clubwright.units import DEGREE_RAD, INCH_EXACT_M

Sense = Literal["at most", "at least"]

SEEN = "2026-11-25"
"""Day on which the sources below were read. Rules change: read the current text before a competition."""

NOT_PUTTERS = tuple(kind for kind in KINDS if kind != "putter")
GROOVED = ("iron", "wedge", "hybrid", "fairway", "driver")
PUTTERS = ("putter",)

_RULES = "Equipment Rules (The R&A and USGA), Part 2"
_GUIDE = "A Guide to the Rules on Clubs and Balls (The R&A), Appendix II numbering, before 2019"


class Limit(msgspec.Struct, frozen=True, kw_only=True):
    """One limit, in the unit in which it is binding.

    Attributes:
        key: Our short name.
        quantity: What is measured; the unit is in the name.
        name: What is measured, in words.
        clause: Section of the source.
        sense: Which side is allowed.
        value: The limit, exact, in `unit`.
        unit: ``in`` or ``deg``.
        scope: Kinds of club it binds.
        source: Where it was read.
        seen: Day it was read.
        standing: ``seen``, or ``derived`` where it restates a seen limit.
        local_rule: Name of the local rule that brings it into force; None when it always binds.
        note: What the reader should know before relying on it.
    """

    key: str
    quantity: str
    name: str
    clause: str
    sense: Sense
    value: Fraction
    unit: Literal["in", "deg"]
    scope: tuple[str, ...]
    source: str
    seen: str = SEEN
    standing: str = "seen"
    local_rule: str | None = None
    note: str = ""

    @property
    def value_si(self) -> float:
        """The limit in metres or radians; exact fractions until the last step."""
        return float(self.value * INCH_EXACT_M) if self.unit == "in" else float(self.value) * DEGREE_RAD

    def text(self) -> str:
        """Say the limit with its clause, e.g. ``at most 48 in (Part 2 s.1c)``."""
        return f"{self.sense} {float(self.value):g} {self.unit} ({self.clause})"


_ANGLES = ("off_vertical_toe_heel_rad", "off_vertical_forward_rad", "off_vertical_backward_rad", "loft_rad")


def _limit(
    key: str,
    quantity: str,
    name: str,
    clause: str,
    sense: Sense,
    value: str,
    scope: tuple[str, ...],
    source: str,
    *,
    note: str = "",
    standing: str = "seen",
    local_rule: str | None = None,
) -> Limit:
    """Write one limit on a few lines; the unit follows from the quantity's name."""
    return Limit(
        key=key,
        quantity=quantity,
        name=name,
        clause=clause,
        sense=sense,
        value=Fraction(value),
        unit="deg" if quantity in _ANGLES else "in",
        scope=scope,
        source=source,
        note=note,
        standing=standing,
        local_rule=local_rule,
    )


LIMITS: tuple[Limit, ...] = (
    _limit(
        "length-max", "rule_length_m", "length", "Part 2 s.1c", "at most", "48", NOT_PUTTERS,
        f"{_RULES} s.1c; club length protocol rev. 1.1 (2 January 2007), 4.1",
        note="Measured with the sole against a plane at 60 degrees, to the end of the grip. No test tolerance was seen.",
    ),
    _limit(
        "length-max-local", "rule_length_m", "length", "Model Local Rule G-10", "at most", "46", NOT_PUTTERS,
        "Model Local Rule G-10 as announced for 1 January 2022 (secondary)", local_rule="G-10",
        note="Only where the competition has adopted it.",
    ),
    _limit(
        "length-min", "rule_length_m", "length", "Part 2 s.1c", "at least", "18", KINDS,
        f"{_RULES} s.1c (quoted in a secondary source)",
    ),
    _limit(
        "upright", "off_vertical_toe_heel_rad", "angle of the shaft from vertical, seen along the line of play",
        "Part 2 s.1d(i)", "at least", "10", KINDS, f"{_GUIDE}, ch. 4 s.3",
        note="A lie of at most 80 degrees. More can be asked for if the club can be used nearly upright.",
    ),
    _limit(
        "forward", "off_vertical_forward_rad", "forward tilt of the shaft in the line of play",
        "Part 2 s.1d(ii)", "at most", "20", KINDS, f"{_GUIDE}, ch. 4 s.3",
    ),
    _limit(
        "backward", "off_vertical_backward_rad", "backward tilt of the shaft in the line of play",
        "Part 2 s.1d(ii)", "at most", "10", KINDS, f"{_GUIDE}, ch. 4 s.3",
    ),
    _limit("putter-loft", "loft_rad", "loft", "Part 2 s.1a", "at most", "10", PUTTERS, f"{_RULES} s.1a"),
    _limit(
        "putter-negative-loft", "loft_rad", "loft", "Part 2 s.1a(1)", "at least", "-15", PUTTERS,
        f"{_RULES}, interpretation 1.a(1)", note="A negative loft of up to 15 degrees is taken as customary.",
    ),
    _limit(
        "straight", "bend_above_sole_m", "height of the lowest straight point of the shaft above the sole, along the bend",
        "Part 2 s.2a", "at most", "5", KINDS, f"{_RULES} s.2a",
    ),
    _limit(
        "neck", "neck_m", "top of the neck or socket to the sole, along its axis",
        "Part 2 s.2c", "at most", "5", KINDS, f"{_RULES} s.2c",
    ),
    _limit("grip-length", "grip_length_m", "grip length", "Part 2 s.3a", "at least", "7", KINDS, f"{_RULES} s.3a"),
    _limit(
        "grip-size", "grip_section_m", "largest dimension of the grip's section",
        "Part 2 s.3b(iii)", "at most", "1.75", KINDS, f"{_RULES} s.3b(iii)",
        note="Tape and build-up count. No smallest size was seen.",
    ),
    _limit(
        "rib", "grip_rib_m", "largest less smallest grip diameter at one section",
        "Part 2 s.3b(i)", "at most", "0.040", NOT_PUTTERS, f"{_GUIDE}, ch. 6 s.1",
    ),
    _limit(
        "two-grips", "grip_gap_m", "gap between two grips", "Part 2 s.3c", "at least", "1.5", PUTTERS, f"{_RULES} s.3c",
        note="Only with two grips, both circular.",
    ),
    _limit(
        "upper-grip", "upper_grip_m", "length of the upper of two grips",
        "Part 2 s.3c", "at least", "5", PUTTERS, f"{_GUIDE}, ch. 6 s.2",
    ),
    _limit(
        "groove-width", "groove_width_m", "groove width by the 30 degree method", "Part 2 s.5c(i)", "at most", "0.035",
        GROOVED, f"{_RULES} s.5c(i)", note="0.889 mm: the printed 0.9 mm is rounded up. Face work counts.",
    ),
    _limit(
        "groove-separation", "groove_separation_m", "distance between edges of neighbouring grooves",
        "Part 2 s.5c(i)", "at least", "0.075", GROOVED, f"{_RULES} s.5c(i)",
        note="It must also be at least three groove widths.",
    ),
    _limit(
        "groove-depth", "groove_depth_m", "groove depth", "Part 2 s.5c(i)", "at most", "0.020", GROOVED,
        f"{_RULES} s.5c(i)",
    ),
)  # fmt: skip
"""Every limit we check. Heads, balls and flexibility tests are the maker's, not the bench's."""


def limits_for(kind: str, local_rules: frozenset[str] = frozenset()) -> tuple[Limit, ...]:
    """Return the limits that bind a kind of club.

    Args:
        kind: One of `clubwright.club.parts.KINDS`.
        local_rules: Names of the local rules in force, e.g. ``{"G-10"}``.
    """
    return tuple(
        limit
        for limit in LIMITS
        if kind in limit.scope and (limit.local_rule is None or limit.local_rule in local_rules)
    )


def off_vertical_from_lie_rad(lie_rad: float) -> float:
    """Return the angle of the shaft from vertical for a lie angle, both in radians: they add up to a right angle."""
    return math.pi / 2 - lie_rad
