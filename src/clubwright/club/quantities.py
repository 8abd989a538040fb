"""The register of quantities: everything a ticket can ask for, a gauge can read and a sheet can show.

To add a quantity: write its module here in `clubwright.club`, and add one entry. Ticket, belief, advice, verdict, page,
sheet and tag take what they need from this register.
"""

from __future__ import annotations

from clubwright.club.balance_point import balance_point_m
from clubwright.club.bounds import Bounds, millimetres
from clubwright.club.build import Build
from clubwright.club.frequency import frequency_hz
from clubwright.club.grip_size import outside_diameter_m
from clubwright.club.length import plane_minus_axis_m
from clubwright.club.moi import moi_about_cg_kg_m2, moi_kg_m2
from clubwright.club.pendulum import pendulum_period_s
from clubwright.club.quantity import Asked, Change, Offered, Quantity, UsualGauge
from clubwright.club.swing_weight import swing_weight_12in_oz, swing_weight_points
from clubwright.club.total_weight import total_weight_kg
from clubwright.units import CPM_HZ, GRAM_KG, INCH_M, KG_CM2_KG_M2, Number


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
    return outside_diameter_m(grip.core_m - grip.core_taper_m, grip.nominal_6in_m, butt, build_up, grip.build_up_blend)


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
        gauge=UsualGauge("1/64 in", "0.2 mm", "0.2 mm", "rule"),
        asked=Asked(
            meaning="length of the finished club to the outer face of the cap",
            example="35 1/4 in",
            half_width="1/32 in",
            base="35 in",
            base_meaning="length counted from",
            bounds=millimetres(
                0, 457, 1220, 2000, "a club is 18 to 48 in long by the Rules of Golf (48 in: not for putters)"
            ),  # from memory
            rank=1,
        ),
        always_shown=True,
        told=Change(INCH_M, "in", 2, rank=4),
        positive=True,
        offered={"as it came": 3, "dry": 4},
        theory="length.md",
        equation="L = bore to ground + lift + shaft + cap, along the axis; on the 60 degree plane + (R (1 - "
        "cos t) - c sin t) / sin 60 deg, t = lie - 60 deg",
        section="the-two-conventions",
        checks=("tests/published/test_published_length.py",),
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
        gauge=UsualGauge("0.25 deg", "0.15 deg", "0.2 deg", "angle gauge"),
        shown="angle",
        asked=Asked(
            meaning="loft",
            example="54 deg",
            half_width="1/4 deg",
            base="54 deg",
            base_meaning="loft counted from",
            rank=3,
        ),
        parts=frozenset({"head"}),
        theory="loft-lie-bounce.md",
        equation="loft of the head as it was measured; after a loft bend, loft + bend",
        section="bounce",
        checks=("tests/published/test_published_loft_lie.py", "tests/published/test_published_bending.py"),
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
        gauge=UsualGauge("0.25 deg", "0.15 deg", "0.2 deg", "angle gauge"),
        shown="angle",
        asked=Asked(
            meaning="lie",
            example="63 1/2 deg",
            half_width="1/4 deg",
            base="64 deg",
            base_meaning="lie counted from",
            rank=4,
        ),
        parts=frozenset({"head"}),
        theory="loft-lie-bounce.md",
        equation="lie of the head as it was measured; after a lie bend, lie + bend",
        checks=("tests/published/test_published_loft_lie.py", "tests/published/test_published_bending.py"),
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
        gauge=UsualGauge("0.5 deg", "0.25 deg", "0.25 deg", "angle gauge"),
        asked=Asked(meaning="bounce", example="10 deg", half_width="1/2 deg", rank=10),
        parts=frozenset({"head"}),
        theory="loft-lie-bounce.md",
        equation="bounce after a bend = bounce + change of loft",
        section="bounce",
        checks=("tests/published/test_published_loft_lie.py",),
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
        gauge=UsualGauge("0.1 pt", "0.1 pt", "0.2 pt", "swing scale"),
        asked=Asked(meaning="swing weight", example="D4", half_width="1/4 pt", rank=2),
        always_shown=True,
        told=Change(1.0, "pt", 1, rank=2),
        weighs=True,
        offered={"as it came": 2, "dry": 1},
        adds_up=True,
        theory="swing-weight.md",
        equation="p = (sum m_i (x_i - 14 in) - zero) / point",
        section="definition",
        checks=(
            "tests/published/test_published_swing_weight.py",
            "tests/published/test_published_swing_weight_changes.py",
        ),
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
        gauge=UsualGauge("0.1 g", "0.1 g", "0.1 g", "gram scale"),
        asked=Asked(
            meaning="total weight",
            example="468 g",
            half_width="1 g",
            bounds=Bounds(0, 0.2, 0.9, 3, "a club weighs 200 to 900 g"),
            rank=5,
        ),
        always_shown=True,
        told=Change(GRAM_KG, "g", 1, rank=3),
        positive=True,
        weighs=True,
        offered={"as it came": 1, "dry": 2},
        adds_up=True,
        theory="statics.md",
        equation="m = sum m_i",
        section="sums",
        checks=("tests/published/test_published_swing_weight.py",),
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
        gauge=UsualGauge("1/32 in", "0.5 mm", "0.3 mm", "rule"),
        asked=Asked(
            meaning="balance point from the cap",
            example="27 3/4 in",
            half_width="1/8 in",
            bounds=millimetres(0, 400, 1000, 1500, "a club balances 0.4 to 1 m from its cap"),
            rank=9,
        ),
        always_shown=True,
        offered={"as it came": 4, "dry": 3},
        theory="statics.md",
        equation="b = sum m_i x_i / sum m_i",
        section="sums",
        checks=("tests/published/test_published_swing_weight.py",),
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
        gauge=UsualGauge("1 kg cm2", "1 kg cm2", "2 kg cm2"),
        asked=Asked(
            meaning="moment of inertia about the butt",
            example="2760 kg cm2",
            half_width="5 kg cm2",
            bounds=Bounds(0, 0.15, 0.45, 2, "a club has 1500 to 4500 kg cm2 about its butt"),
            rank=7,
        ),
        always_shown=True,
        told=Change(KG_CM2_KG_M2, "kg cm2", 0, rank=5),
        positive=True,
        of_inertia=True,
        adds_up=True,
        theory="moi.md",
        equation="I = sum (I_i + m_i (x_i^2 + r_i^2))",
        section="sum",
        checks=("tests/published/test_published_moi.py",),
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
        gauge=UsualGauge("1 kg cm2", "1 kg cm2", "2 kg cm2"),
        positive=True,
        of_inertia=True,
        theory="moi.md",
        equation="I_cg = I - S1^2 / m",
        section="sum",
        checks=("tests/published/test_published_moi.py",),
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
        gauge=UsualGauge("0.1 ms", "0.3 ms", "0.3 ms"),
        of_inertia=True,
        theory="moi.md",
        equation="T = 2 pi sqrt((I_cg + m h^2) / (m g h)), h = b + p",
        section="pendulum",
        checks=("tests/published/test_published_moi.py",),
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
        gauge=UsualGauge("0.5", "0.3", "0.3"),
        theory="swing-weight.md",
        equation="t_12 = sum m_i (x_i - 12 in), in inch-ounces",
        section="the-two-fulcrums",
        checks=("tests/published/test_published_swing_weight.py",),
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
        gauge=UsualGauge("0.1 cpm", "0.5 cpm", "0.5 cpm", "frequency meter"),
        asked=Asked(meaning="frequency", example="320 cpm", half_width="1 cpm", rank=6),
        told=Change(CPM_HZ, "cpm", 1, rank=1),
        needs=(("shaft", "stiffness"),),
        always_shown=True,
        of_inertia=True,
        moved_by_weights=True,
        theory="frequency.md",
        equation="f = w / (2 pi), w^2 the least root of K x = w^2 M x for the clamped shaft with its head",
        section="the-beam",
        checks=(
            "tests/published/test_published_beam.py",
            "tests/published/test_published_frequency.py",
            "tests/published/test_published_fem.py",
        ),
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
        gauge=UsualGauge("0.001 in", "0.002 in", "0.002 in", "caliper"),
        asked=Asked(
            meaning="outside diameter 2 in below the cap",
            example="0.900 in",
            half_width="0.010 in",
            base="0.900 in",
            base_meaning="outside diameter at 2 in counted from",
            rank=8,
        ),
        parts=frozenset({"grip"}),
        needs=(("grip", "core"), ("shaft", "butt_diameter")),
        theory="grip-size.md",
        equation="D = b (u + (D0 - c)) + (1 - b) sqrt(u^2 + D0^2 - c^2), u = butt + 2 tape",
        section="the-blend-and-the-shops-own-value",
        checks=("tests/published/test_published_grip_size.py",),
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
        gauge=UsualGauge("0.001 in", "0.002 in", "0.002 in", "caliper"),
        asked=Asked(
            meaning="outside diameter 6 in below the cap",
            example="0.810 in",
            half_width="0.010 in",
            base="0.800 in",
            base_meaning="outside diameter at 6 in counted from",
            rank=11,
        ),
        parts=frozenset({"grip"}),
        needs=(("grip", "core"), ("grip", "diameter_6in"), ("shaft", "lower_diameter")),
        theory="grip-size.md",
        equation="D = b (u + (D0 - c)) + (1 - b) sqrt(u^2 + D0^2 - c^2), u = butt + 2 tape, c = core - its taper",
        section="the-blend-and-the-shops-own-value",
        checks=("tests/published/test_published_grip_size.py",),
        function=grip_diameter_6in_m,
    ),
)

QUANTITIES: dict[str, Quantity] = {entry.key: entry for entry in _ENTRIES}

TARGETS: dict[str, Asked] = {entry.key: entry.asked for entry in _ENTRIES if entry.asked is not None}
"""What a ticket's [target] may ask for, in the order every view lists it."""

ANGLES: tuple[str, ...] = tuple(entry.key for entry in _ENTRIES if entry.steered_by == "bends")
"""Those that a bend of the head moves."""

ALWAYS_SHOWN: tuple[str, ...] = tuple(entry.key for entry in _ENTRIES if entry.always_shown)
WEIGHING: tuple[str, ...] = tuple(entry.key for entry in _ENTRIES if entry.weighs)

NEVER_MEASURED: dict[str, str] = {entry.key: entry.needs[0][0] for entry in _ENTRIES if entry.needs}
"""Those that rest on figures of a part which nobody measures of one that comes off: core and size, stiffness."""

CHANGES: dict[str, Change] = dict(
    sorted(((entry.key, entry.told) for entry in _ENTRIES if entry.told is not None), key=lambda item: item[1].rank)
)
"""How a change of each is told, in the order shown."""


def offered_at(where: Offered) -> tuple[str, ...]:
    """Return what is offered to be read there whatever is ordered, likeliest first."""
    return tuple(
        sorted(
            (key for key, entry in QUANTITIES.items() if where in entry.offered),
            key=lambda key: QUANTITIES[key].offered[where],
        )
    )
