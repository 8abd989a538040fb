"""The register of quantities: everything a ticket can ask for, a gauge can read and a sheet can show.

To add a quantity: write its module here in `clubwright.club`, and add one entry. Belief, ticket, sheet and glossary pick
it up from this register.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec

from clubwright.club.balance_point import balance_point_m
from clubwright.club.build import Build
from clubwright.club.frequency import frequency_hz
from clubwright.club.grip_size import outside_diameter_m
from clubwright.club.length import plane_minus_axis_m
from clubwright.club.moi import moi_about_cg_kg_m2, moi_kg_m2
from clubwright.club.pendulum import pendulum_period_s
from clubwright.club.swing_weight import swing_weight_12in_oz, swing_weight_points
from clubwright.club.total_weight import total_weight_kg
from clubwright.errors import NotPossible
from clubwright.units import Number

Steered = Literal["weights", "bends", "tapes", "shaft"]


class Quantity(msgspec.Struct, frozen=True, kw_only=True):
    """One measured quantity of a club.

    Attributes:
        key: Its name in tickets and answers.
        name: Its name in a sentence.
        short: Its name where room is scarce, such as a label; empty where `name` is short enough.
        symbol: For formulas and sheets.
        unit: SI unit of the answer (``pt`` for points above A0).
        kind: Kind of notation it is written in.
        tolerance: The shop's default half-width, in trade notation, with its standing in `tolerance_source`.
        tolerance_kind: Kind of notation of the half-width.
        steered_by: What at the bench moves it.
        read_by: What reads it.
        theory: Page with its derivation.
        function: Computes it from a build; None while the program cannot.
    """

    key: str
    name: str
    symbol: str
    unit: str
    kind: str
    tolerance: str
    tolerance_kind: str
    tolerance_source: str = "estimate of ours for a careful custom shop; replace with the shop's own"
    steered_by: Steered
    read_by: str
    theory: str
    function: Callable[[Build], Number] | None
    short: str = ""

    def of(self, build: Build) -> Number:
        """Compute it for a build, in SI.

        Raises:
            NotPossible: for a quantity that this version cannot compute.
        """
        if self.function is None:
            raise NotPossible(f"{self.name} is not computed by this version", "Leave it out of the ticket for now.")
        return self.function(build)


def length_m(build: Build) -> Number:
    """Return the length from the butt stop to the ground, in m, by the method in ``conventions.length_method``.

    At the stage "bare shaft" it is the length of the shaft itself. See `clubwright.club.length` for the two methods.
    """
    if "head" not in build.stage.parts:
        return build.club.shaft.length_m
    if build.conventions.length_method == "60 degree plane":
        head = build.club.head
        return build.stop_m + plane_minus_axis_m(head.lie_rad, head.sole_camber_m, head.sole_contact_m)
    return build.stop_m


def loft_rad(build: Build) -> Number:
    """Return the loft of the head as it stands, in rad."""
    return build.club.head.loft_rad


def lie_rad(build: Build) -> Number:
    """Return the lie of the head as it stands, in rad."""
    return build.club.head.lie_rad


def bounce_rad(build: Build) -> Number:
    """Return the bounce of the head as it stands, in rad."""
    return build.club.head.bounce_rad


def grip_diameter_2in_m(build: Build) -> Number:
    """Return the outside diameter of the grip 2 in below the cap, in m."""
    club = build.club
    build_up: Number = 0.0
    for tape in club.tapes:
        build_up = build_up + tape.build_up_2in_m
    grip, butt = club.grip, club.shaft.butt_diameter_m
    return outside_diameter_m(grip.core_m, grip.nominal_2in_m, butt, build_up, grip.build_up_blend)


def grip_diameter_6in_m(build: Build) -> Number:
    """Return the outside diameter of the grip 6 in below the cap, in m."""
    club = build.club
    build_up: Number = 0.0
    for tape in club.tapes:
        build_up = build_up + tape.build_up_6in_m
    grip, butt = club.grip, club.shaft.lower_diameter_m
    return outside_diameter_m(grip.core_m, grip.nominal_6in_m, butt, build_up, grip.build_up_blend)


_ENTRIES = (
    Quantity(
        key="length",
        name="length",
        symbol="L",
        unit="m",
        kind="length",
        tolerance="1/32 in",
        tolerance_kind="length",
        steered_by="shaft",
        read_by="rule",
        theory="length.md",
        function=length_m,
    ),
    Quantity(
        key="loft",
        name="loft",
        symbol="λ",
        unit="rad",
        kind="loft",
        tolerance="1/2 deg",
        tolerance_kind="angle",
        steered_by="bends",
        read_by="loft gauge",
        theory="loft-lie-bounce.md",
        function=loft_rad,
    ),
    Quantity(
        key="lie",
        name="lie",
        symbol="α",
        unit="rad",
        kind="lie",
        tolerance="1/2 deg",
        tolerance_kind="angle",
        steered_by="bends",
        read_by="lie gauge",
        theory="loft-lie-bounce.md",
        function=lie_rad,
    ),
    Quantity(
        key="bounce",
        name="bounce",
        symbol="β",
        unit="rad",
        kind="angle",
        tolerance="1/2 deg",
        tolerance_kind="angle",
        steered_by="bends",
        read_by="bounce gauge",
        theory="loft-lie-bounce.md",
        function=bounce_rad,
    ),
    Quantity(
        key="swing_weight",
        name="swing weight",
        short="swing",
        symbol="SW",
        unit="pt",
        kind="swing_weight",
        tolerance="1/2 pt",
        tolerance_kind="points",
        steered_by="weights",
        read_by="swing-weight scale",
        theory="swing-weight.md",
        function=swing_weight_points,
    ),
    Quantity(
        key="total_weight",
        name="total weight",
        short="total",
        symbol="m",
        unit="kg",
        kind="mass",
        tolerance="2 g",
        tolerance_kind="mass",
        steered_by="weights",
        read_by="gram scale",
        theory="statics.md",
        function=total_weight_kg,
    ),
    Quantity(
        key="balance_point",
        name="balance point",
        short="balance",
        symbol="b",
        unit="m",
        kind="length",
        tolerance="1/8 in",
        tolerance_kind="length",
        steered_by="weights",
        read_by="balance edge and rule",
        theory="statics.md",
        function=balance_point_m,
    ),
    Quantity(
        key="moi",
        name="moment of inertia about the butt",
        short="MOI",
        symbol="I",
        unit="kg m2",
        kind="moi",
        tolerance="5 kg cm2",
        tolerance_kind="moi",
        steered_by="weights",
        read_by="MOI gauge",
        theory="moi.md",
        function=moi_kg_m2,
    ),
    Quantity(
        key="moi_cg",
        name="moment of inertia about the centre of gravity",
        short="MOI about c.g.",
        symbol="I_cg",
        unit="kg m2",
        kind="moi",
        tolerance="5 kg cm2",
        tolerance_kind="moi",
        steered_by="weights",
        read_by="two-cord suspension",
        theory="moi.md",
        function=moi_about_cg_kg_m2,
    ),
    Quantity(
        key="pendulum_period",
        name="pendulum period",
        symbol="T",
        unit="s",
        kind="duration",
        tolerance="2 ms",
        tolerance_kind="duration",
        steered_by="weights",
        read_by="pendulum stand",
        theory="moi.md",
        function=pendulum_period_s,
    ),
    Quantity(
        key="swing_weight_12in",
        name="12-inch swing weight",
        symbol="t12",
        unit="in oz",
        kind="number",
        tolerance="1",
        tolerance_kind="number",
        steered_by="weights",
        read_by="12-inch scale",
        theory="swing-weight.md",
        function=swing_weight_12in_oz,
    ),
    Quantity(
        key="frequency",
        name="frequency",
        symbol="f",
        unit="Hz",
        kind="frequency",
        tolerance="2 cpm",
        tolerance_kind="frequency",
        steered_by="shaft",
        read_by="frequency meter",
        theory="frequency.md",
        function=frequency_hz,
    ),
    Quantity(
        key="grip_diameter_2in",
        name="grip diameter at 2 in",
        short="grip 2 in",
        symbol="d2",
        unit="m",
        kind="diameter",
        tolerance="0.010 in",
        tolerance_kind="diameter",
        steered_by="tapes",
        read_by="caliper",
        theory="grip-size.md",
        function=grip_diameter_2in_m,
    ),
    Quantity(
        key="grip_diameter_6in",
        name="grip diameter at 6 in",
        short="grip 6 in",
        symbol="d6",
        unit="m",
        kind="diameter",
        tolerance="0.010 in",
        tolerance_kind="diameter",
        steered_by="tapes",
        read_by="caliper",
        theory="grip-size.md",
        function=grip_diameter_6in_m,
    ),
)

QUANTITIES: dict[str, Quantity] = {entry.key: entry for entry in _ENTRIES}
TARGETS: tuple[str, ...] = (
    "length",
    "loft",
    "lie",
    "bounce",
    "swing_weight",
    "total_weight",
    "balance_point",
    "moi",
    "frequency",
    "grip_diameter_2in",
    "grip_diameter_6in",
)
"""What a ticket's [target] may ask for, in the order every view lists it."""
