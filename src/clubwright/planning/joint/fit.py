"""Does the tip fit the bore: the clearance between them, the bond line that it leaves, and what the adhesive's sheet allows.

The clearance is bore less tip less twice the wall of a shim; each side of the tip has one bond line, or two with a shim, one
inside it and one outside, taken as equally thick. The verdict is the shop's decision rule with the gauges' uncertainty.
Derivation and sources: docs/theory/adhesive.md; checked in tests/published/test_published_joint_fit.py.
"""

from __future__ import annotations

import math
from typing import Literal

import msgspec

from clubwright.notation import parse
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import GUARD_FACTORS
from clubwright.planning.said.phrases import Amount
from clubwright.planning.said.phrases import fine as fine_said
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import SHIM
from clubwright.ticket.rows.measured import doubt_of
from clubwright.units import INCH_M

FitVerdict = Literal["fits", "too tight", "too loose", "cannot tell"]

TIP, BORE = "shaft.tip_diameter_m", "head.bore_diameter_m"

STARVED_M = 0.05e-3
"""A bond line thinner than this: a thick epoxy may be pushed out of a joint of two cylinders (an engineers' public guide to
adhesive bonding of small parts)."""


class BondLine(msgspec.Struct, frozen=True, kw_only=True):
    """What one bond line may be, in m, and where that is from.

    Attributes:
        low_m, high_m: Thinnest and thickest.
        low_from, high_from: ``data sheet``, or the standing of the default.
    """

    low_m: float
    high_m: float
    low_from: str
    high_from: str


class JointFit(msgspec.Struct, frozen=True, kw_only=True):
    """A tip in its bore.

    Attributes:
        tip_m, bore_m: Diameters as measured.
        shim_m: Wall of the shim; 0 without one.
        clearance_m: What is left of the diameter for adhesive; below zero when it does not go in.
        u_m: Standard uncertainty of the clearance.
        lines: Glue lines on each side of the tip: 1, or 2 with a shim.
        guard_m: Guard band of the shop's rule, on the clearance.
        allowed: What one bond line may be.
    """

    tip_m: float
    bore_m: float
    shim_m: float
    clearance_m: float
    u_m: float
    lines: int
    guard_m: float
    allowed: BondLine

    @property
    def line_m(self) -> float:
        """Thickness of one bond line."""
        return self.clearance_m / (2 * self.lines)

    @property
    def low_m(self) -> float:
        """Least clearance that the bond lines may have."""
        return 2 * self.lines * self.allowed.low_m

    @property
    def high_m(self) -> float:
        """Most clearance that the bond lines may have."""
        return 2 * self.lines * self.allowed.high_m

    @property
    def verdict(self) -> FitVerdict:
        """``fits`` or a refusal only where the guard band leaves no doubt; else ``cannot tell``."""
        if self.low_m + self.guard_m <= self.clearance_m <= self.high_m - self.guard_m:
            return "fits"
        if self.clearance_m < self.low_m - self.guard_m:
            return "too tight"
        return "too loose" if self.clearance_m > self.high_m + self.guard_m else "cannot tell"

    def shim_range_m(self) -> tuple[float, float] | None:
        """Return the walls of a shim, thinnest and thickest, with which this tip would fit; None where none would."""
        gap = self.bore_m - self.tip_m
        thin = max((gap - 4 * self.allowed.high_m + self.guard_m) / 2, 0.0)
        thick = (gap - 4 * self.allowed.low_m - self.guard_m) / 2
        return (thin, thick) if thick > 0.0 and thin < thick else None


def bond_line_of(ticket: Ticket) -> BondLine:
    """Return what the ticket's adhesive allows, else the documented defaults."""
    row = ticket.club.adhesive
    found = []
    for key in ("bond_line_min", "bond_line_max"):
        entry = row.entry(key)
        if entry is not None:
            found.append((entry.value, "data sheet"))
        else:
            default = default_for(f"adhesive.{key}", ticket.kind)
            assert default is not None, key  # the list of defaults has both
            found.append((parse("length", default.text, where="defaults").value, default.standing))
    (low, low_from), (high, high_from) = found
    return BondLine(low_m=low, high_m=high, low_from=low_from, high_from=high_from)


def fit_of(club_state: ClubState) -> JointFit | None:
    """Return how the tip fits the bore, by all that was measured of both; None while one of them is not measured."""
    ticket = club_state.ticket
    if ticket.club.shaft.tip_diameter is None or ticket.club.head.bore_diameter is None:
        return None
    tip, bore = (club_state.number(path) for path in (TIP, BORE))
    shim = _wall(ticket)
    wall, u_wall = shim or (0.0, 0.0)
    u = math.sqrt(tip[1] ** 2 + bore[1] ** 2 + (2 * u_wall) ** 2)
    return JointFit(
        tip_m=tip[0],
        bore_m=bore[0],
        shim_m=wall,
        clearance_m=bore[0] - tip[0] - 2 * wall,
        u_m=u,
        lines=1 if shim is None else 2,
        guard_m=GUARD_FACTORS[ticket.rule] * u,
        allowed=bond_line_of(ticket),
    )


def _wall(ticket: Ticket) -> tuple[float, float] | None:
    """Return the wall of a shim with its standard uncertainty; None without one."""
    row, field = ticket.club.shim, SHIM.field("thickness")
    assert field is not None  # of the register
    return None if row.thickness is None else (row.thickness.value, doubt_of(ticket, row, field, row.thickness))


def shown(value_m: float | None) -> Amount | None:
    """Return a diameter of the joint, to be said; nothing while it is not measured."""
    return None if value_m is None else fine_said(value_m)


def fine(value_m: float) -> str:
    """Write a small length as the gauges of a joint show it: to a ten-thousandth of an inch, and in mm."""
    return f"{value_m / INCH_M:.4f} in ({value_m * 1e3:.3f} mm)"
