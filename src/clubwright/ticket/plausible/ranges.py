"""The ranges behind `clubwright.ticket.plausible.checks`: what can be at all, and what is usual, in SI.

Estimates of ours, wide on purpose: they catch a wrong unit or a slipped digit, never a club that somebody likes.
"""

from __future__ import annotations

from math import inf, radians

from clubwright.club.bounds import Bounds, millimetres
from clubwright.club.quantities import TARGETS


def _deg(low: float, high: float, why: str, least: float = -90, most: float = 90) -> Bounds:
    return Bounds(radians(least), radians(low) - 1e-9, radians(high) + 1e-9, radians(most), why, least_itself=True)


PARTS: dict[str, Bounds] = {
    "head.bore_to_ground": millimetres(
        0, 2, 80, 120, "the bottom of a bore lies 2 to 80 mm above the ground", itself=True
    ),
    "head.bore_depth": millimetres(0, 10, 60, 90, "a bore is 10 to 60 mm deep, within its hosel"),
    "head.bore_diameter": millimetres(0, 8, 11, 20, "a bore is 8 to 11 mm wide"),
    "head.cg_from_ground": millimetres(-100, -30, 45, 100, "a head's centre of gravity lies -30 to 45 mm up the axis"),
    "head.cg_off_axis": millimetres(
        0, 2, 60, 130, "a head's centre of gravity lies 2 to 60 mm off the axis", itself=True
    ),
    "head.own_inertia": Bounds(
        0, 0.5e-4, 12e-4, 40e-4, "a head has 0.5 to 12 kg cm2 about its own centre", least_itself=True
    ),
    "head.sole_camber": millimetres(0, 40, 2000, inf, "the radius of a sole is 40 mm to 2 m"),
    "head.sole_contact": millimetres(-100, 0, 90, 130, "a sole touches the ground 0 to 90 mm toe-ward of the axis"),
    "adapter.mass": Bounds(0, 2e-3, 25e-3, 0.1, "a sleeve with its screw weighs 2 to 25 g"),
    "adapter.from_ground": millimetres(-20, 0, 90, 150, "a sleeve sits 0 to 90 mm above the ground"),
    "shaft.raw_length": millimetres(0, 600, 1300, 1500, "a raw shaft is 0.6 to 1.3 m long"),
    "shaft.mass": Bounds(0, 0.03, 0.16, 0.5, "a raw shaft weighs 30 to 160 g"),
    "shaft.tip_trim": millimetres(0, 0, 130, 500, "a tip is trimmed by 0 to 130 mm", itself=True),
    "shaft.tip_trim_limit": millimetres(0, 0, 130, 500, "a tip is trimmed by 0 to 130 mm", itself=True),
    "shaft.stiffness_factor": Bounds(0, 0.8, 1.25, 3, "a shaft is 0.8 to 1.25 times as stiff as its profile"),
    "shop.clamp": millimetres(20, 50, 180, 250, "the clamp of a frequency meter holds 50 to 180 mm"),
    "shop.clamp_give": _deg(0, 1, "a clamp turns by up to 1 deg under 1 kg that hangs 1 m out", least=0, most=10),
    "shop.frequency_test_weight": Bounds(0, 0.1, 0.35, 2, "a test weight for a bare shaft has 100 to 350 g"),
    "shop.frequency_test_insertion": millimetres(
        0, 0, 60, 200, "a tip sits up to 60 mm deep in a test weight", itself=True
    ),
    "shaft.cut_length": millimetres(0, 300, 1250, 1400, "a cut shaft is 0.3 to 1.25 m long"),
    "shaft.cut_mass": Bounds(0, 0.025, 0.15, 0.5, "a cut shaft weighs 25 to 150 g"),
    "shaft.cut_balance_from_tip": millimetres(0, 150, 750, 1250, "a cut shaft balances 150 to 750 mm from its tip"),
    "shaft.cut_mass_length": millimetres(0, 300, 1250, 1400, "a cut shaft is 0.3 to 1.25 m long"),
    "shaft.cut_balance_length": millimetres(0, 300, 1250, 1400, "a cut shaft is 0.3 to 1.25 m long"),
    "shaft.butt_diameter": millimetres(0, 12, 18, 30, "a butt is 12 to 18 mm thick"),
    "shaft.lower_diameter": millimetres(0, 11, 18, 30, "a shaft is 11 to 18 mm thick under the lower hand"),
    "shaft.tip_diameter": millimetres(0, 8, 11, 20, "a tip is 8 to 11 mm thick"),
    "shaft.tip_size": millimetres(0, 8, 11, 20, "a tip is 8 to 11 mm thick"),
    "shim.thickness": millimetres(0, 0.02, 0.5, 2, "a shim between tip and bore is 0.02 to 0.5 mm thick"),
    "adhesive.bond_line_min": millimetres(0, 0, 0.3, 3, "a bond line is 0 to 0.3 mm thick", itself=True),
    "adhesive.bond_line_max": millimetres(0, 0.02, 0.5, 3, "a bond line is 0.02 to 0.5 mm thick at most"),
    "grip.mass": Bounds(0, 0.02, 0.16, 0.5, "a grip weighs 20 to 160 g"),
    "grip.length": millimetres(0, 150, 450, 700, "a grip is 150 to 450 mm long"),
    "grip.cap": millimetres(0, 1, 10, 60, "the cap of a grip is 1 to 10 mm thick", itself=True),
    "grip.core_taper": millimetres(
        -2, 0, 2.5, 8, "a core is up to 2.5 mm narrower 6 in below its cap than 2 in below it", itself=True
    ),
    "grip.diameter_2in": millimetres(10, 19, 40, 60, "a grip is 19 to 40 mm thick"),
    "grip.diameter_6in": millimetres(10, 17, 40, 60, "a grip is 17 to 40 mm thick 6 in below its cap"),
    "target.grip_diameter_2in": millimetres(10, 19, 40, 60, "a grip is 19 to 40 mm thick"),
    "target.grip_diameter_6in": millimetres(10, 17, 40, 60, "a grip is 17 to 40 mm thick 6 in below its cap"),
    "grip.build_up_blend": Bounds(
        -1, 0, 1, 2, "the blend of the two build-up models lies between 0 and 1", least_itself=True
    ),
    "old_grip.mass": Bounds(0, 0.02, 0.16, 0.5, "a grip weighs 20 to 160 g"),
    "old_grip.mass_with_tape": Bounds(0, 0.02, 0.175, 0.6, "a grip with its tape weighs 20 to 175 g"),
    "old_grip.length": millimetres(0, 150, 450, 700, "a grip is 150 to 450 mm long"),
    "old_grip.cap": millimetres(0, 1, 10, 60, "the cap of a grip is 1 to 10 mm thick", itself=True),
    "old_tape.mass": Bounds(0, 0, 0.015, 0.1, "tape under a grip weighs up to 15 g", least_itself=True),
    "old_tape.cg_from_cap": millimetres(0, 20, 300, 700, "tape lies 20 to 300 mm from the cap"),
    "old_tape.length": millimetres(0, 30, 450, 700, "tape is 30 to 450 mm long"),
    "old_shaft.mass": Bounds(0, 0.03, 0.16, 0.5, "a cut shaft weighs 30 to 160 g"),
    "old_shaft.length": millimetres(0, 300, 1250, 1400, "a cut shaft is 0.3 to 1.25 m long"),
    "old_ferrule.mass": Bounds(0, 0, 6e-3, 0.05, "a ferrule weighs up to 6 g", least_itself=True),
    "old_ferrule.length": millimetres(0, 0, 60, 120, "a ferrule is up to 60 mm long", itself=True),
    "tape.mass": Bounds(0, 0, 0.015, 0.1, "tape under a grip weighs up to 15 g", least_itself=True),
    "tape.layer_mass": Bounds(0, 0, 0.008, 0.1, "one layer of tape weighs up to 8 g", least_itself=True),
    "tape.cg_from_cap": millimetres(0, 20, 300, 700, "tape lies 20 to 300 mm from the cap"),
    "tape.length": millimetres(0, 30, 450, 700, "tape is 30 to 450 mm long"),
    "tape.width": millimetres(0, 10, 80, 200, "tape is 10 to 80 mm wide"),
    "tape.thickness": millimetres(0, 0, 0.4, 3, "one layer is up to 0.4 mm thick", itself=True),
    "ferrule.mass": Bounds(0, 0, 6e-3, 0.05, "a ferrule weighs up to 6 g", least_itself=True),
    "ferrule.length": millimetres(0, 0, 60, 120, "a ferrule is up to 60 mm long", itself=True),
    "adhesive.in_joint": Bounds(0, 0, 4e-3, 0.03, "a joint keeps up to 4 g of adhesive", least_itself=True),
    "weight.mass": Bounds(0, 0.2e-3, 0.06, 0.4, "a loose weight has 0.2 to 60 g"),
    "weight.from_ground": millimetres(-100, -30, 250, 1300, "a weight sits in the head or low in the shaft"),
    "weight.from_cap": millimetres(0, 3, 400, 1300, "a butt weight sits under the cap"),
    "weight.off_axis": millimetres(0, 0, 80, 130, "a weight sits up to 80 mm off the axis", itself=True),
    "weight.lifts_shaft": millimetres(
        0, 0, 12, 60, "a tip weight holds the shaft off the bottom by up to 12 mm", itself=True
    ),
    **{f"target.{key}": asked.bounds for key, asked in TARGETS.items() if asked.bounds is not None},
}
"""By section and key, whatever the kind of club. Length limits: the Rules of Golf, from memory."""

_MASS = "heads of this kind weigh {} g"
_LIE = "heads of this kind have a lie of {} deg"
_LOFT = "heads of this kind have a loft of {} deg"


def _mass(low: int, high: int) -> Bounds:
    return Bounds(0.04, low / 1e3, high / 1e3, 1.2, _MASS.format(f"{low} to {high}"))


def _lie(low: int, high: int) -> Bounds:
    return _deg(low, high, _LIE.format(f"{low} to {high}"), least=30, most=89)


def _loft(low: int, high: int) -> Bounds:
    return _deg(low, high, _LOFT.format(f"{low} to {high}"), least=-15, most=80)


BY_KIND: dict[str, dict[str, Bounds]] = {
    "mass": {
        "driver": _mass(150, 240),
        "fairway": _mass(170, 270),
        "hybrid": _mass(190, 290),
        "iron": _mass(200, 330),
        "wedge": _mass(240, 360),
        "putter": _mass(200, 650),
    },
    "lie": {
        "driver": _lie(50, 66),
        "fairway": _lie(50, 66),
        "hybrid": _lie(52, 68),
        "iron": _lie(54, 70),
        "wedge": _lie(56, 72),
        "putter": _lie(62, 80),
    },
    "loft": {
        "driver": _loft(4, 18),
        "fairway": _loft(10, 32),
        "hybrid": _loft(12, 40),
        "iron": _loft(12, 54),
        "wedge": _loft(40, 68),
        "putter": _loft(-2, 12),
    },
    "bounce": dict.fromkeys(
        ("driver", "fairway", "hybrid", "iron", "wedge", "putter"),
        _deg(-8, 25, "bounce lies between -8 and 25 deg", least=-30, most=60),
    ),
}
"""Of a head, or wanted of one, by kind of club."""
