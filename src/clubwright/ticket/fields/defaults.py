"""What is taken for a number that the ticket does not give, by kind of club, with its standing.

Means marked "trade estimate" follow the example clubs that a report on trade practice assumes for its sensitivities; the
uncertainties are ours. None of them is measured. Each is announced as a finding when it is used, and every shop's own
weighings are better.
"""

from __future__ import annotations

import msgspec

from clubwright.club.parts import KINDS, Kind


class Default(msgspec.Struct, frozen=True):
    """A figure in trade notation with its standard uncertainty, and how well it is known."""

    text: str
    standing: str


_TRADE = "trade estimate, not measured"
_BOND = "an adhesive maker's public page: most strength at 0.002 to 0.005 in"
_STAYS = "common practice, no source: 0.5 to 1.0 g stays, taken as rectangular"
_AS_THE_BUTT = "common practice, no source: it narrows as the butt it is made for"
_OURS = "estimate of ours"
_MEMORY = "from memory"
_PRACTICE = "common practice, no source"


def _putters_apart(text: str, of_putters: str) -> dict[Kind, str]:
    return {kind: of_putters if kind == "putter" else text for kind in KINDS}


_BY_KIND: dict[str, dict[Kind, str]] = {
    "head.mass": {
        "driver": "200 g ± 4 g",
        "fairway": "212 g ± 5 g",
        "hybrid": "235 g ± 6 g",
        "iron": "265 g ± 12 g",
        "wedge": "300 g ± 6 g",
        "putter": "350 g ± 15 g",
    },
    "head.cg_from_ground": {
        "driver": "10 mm ± 8 mm",
        "fairway": "8 mm ± 8 mm",
        "hybrid": "4 mm ± 7 mm",
        "iron": "-4 mm ± 6 mm",
        "wedge": "-4 mm ± 6 mm",
        "putter": "7 mm ± 8 mm",
    },
    "head.cg_off_axis": {
        "driver": "38 mm ± 8 mm",
        "fairway": "36 mm ± 8 mm",
        "hybrid": "35 mm ± 8 mm",
        "iron": "36 mm ± 6 mm",
        "wedge": "36 mm ± 6 mm",
        "putter": "20 mm ± 12 mm",
    },
    "head.own_inertia": {
        "driver": "4.0 kg cm2 ± 1 kg cm2",
        "fairway": "2.5 kg cm2 ± 0.7 kg cm2",
        "hybrid": "2.6 kg cm2 ± 0.7 kg cm2",
        "iron": "2.7 kg cm2 ± 0.7 kg cm2",
        "wedge": "2.7 kg cm2 ± 0.7 kg cm2",
        "putter": "4.5 kg cm2 ± 1.5 kg cm2",
    },
    "head.loft": {
        "driver": "10 deg ± 1.5 deg",
        "fairway": "16 deg ± 2 deg",
        "hybrid": "22 deg ± 3 deg",
        "iron": "32 deg ± 8 deg",
        "wedge": "54 deg ± 5 deg",
        "putter": "3 deg ± 1 deg",
    },
    "head.lie": {
        "driver": "58 deg ± 2 deg",
        "fairway": "58 deg ± 2 deg",
        "hybrid": "60 deg ± 2 deg",
        "iron": "62 deg ± 2 deg",
        "wedge": "64 deg ± 1.5 deg",
        "putter": "71 deg ± 2 deg",
    },
    "head.bounce": {
        "driver": "0 deg ± 3 deg",
        "fairway": "0 deg ± 3 deg",
        "hybrid": "2 deg ± 3 deg",
        "iron": "4 deg ± 3 deg",
        "wedge": "9 deg ± 4 deg",
        "putter": "0 deg ± 2 deg",
    },
    "head.bore_to_ground": {
        "driver": "1 1/2 in ± 1/4 in",
        "fairway": "1 1/4 in ± 1/4 in",
        "hybrid": "1 1/4 in ± 1/4 in",
        "iron": "1.1 in ± 0.2 in",
        "wedge": "1.1 in ± 0.2 in",
        "putter": "1.0 in ± 0.4 in",
    },
    "head.bore_depth": {
        "driver": "1 1/2 in ± 0.15 in",
        "fairway": "1 1/2 in ± 0.15 in",
        "hybrid": "1.3 in ± 0.15 in",
        "iron": "1.3 in ± 0.15 in",
        "wedge": "1.3 in ± 0.15 in",
        "putter": "1.0 in ± 0.3 in",
    },
    "shaft.mass": {
        "driver": "62 g ± 6 g",
        "fairway": "68 g ± 6 g",
        "hybrid": "80 g ± 8 g",
        "iron": "115 g ± 10 g",
        "wedge": "122 g ± 8 g",
        "putter": "120 g ± 12 g",
    },
    "shaft.offcut": {
        "driver": "1 3/4 in ± 0.7 in",
        "fairway": "3 in ± 1.2 in",
        "hybrid": "2 in ± 0.9 in",
        "iron": "2 1/4 in ± 1 in",
        "wedge": "2 1/4 in ± 1 in",
        "putter": "2 1/2 in ± 1.2 in",
    },
    "grip.mass": {
        "driver": "50 g ± 3 g",
        "fairway": "50 g ± 3 g",
        "hybrid": "50 g ± 3 g",
        "iron": "50 g ± 3 g",
        "wedge": "50 g ± 3 g",
        "putter": "80 g ± 15 g",
    },
    "grip.cg_from_cap": {
        "driver": "4.1 in ± 0.2 in",
        "fairway": "4.1 in ± 0.2 in",
        "hybrid": "4.1 in ± 0.2 in",
        "iron": "4.1 in ± 0.2 in",
        "wedge": "4.1 in ± 0.2 in",
        "putter": "4.6 in ± 0.4 in",
    },
    "old_grip.mass": _putters_apart("50 g ± 6 g", "80 g ± 20 g"),
    "old_grip.cg_from_cap": _putters_apart("4.1 in ± 0.3 in", "4.6 in ± 0.5 in"),
    "old_shaft.mass": {
        "driver": "60 g ± 8 g",
        "fairway": "65 g ± 8 g",
        "hybrid": "77 g ± 10 g",
        "iron": "108 g ± 18 g",
        "wedge": "118 g ± 14 g",
        "putter": "116 g ± 15 g",
    },
    "length": {
        "driver": "45 1/4 in ± 1/2 in",
        "fairway": "43 in ± 1/2 in",
        "hybrid": "40 in ± 1/2 in",
        "iron": "37 in ± 1 in",
        "wedge": "35 1/4 in ± 1/4 in",
        "putter": "34 in ± 1/2 in",
    },
    "weight.port": {
        "driver": "30 mm ± 8 mm",
        "fairway": "25 mm ± 8 mm",
        "hybrid": "20 mm ± 8 mm",
        "iron": "10 mm ± 4 mm",
        "wedge": "10 mm ± 4 mm",
        "putter": "10 mm ± 5 mm",
    },
    "weight.head": {
        "driver": "15 mm ± 12 mm",
        "fairway": "12 mm ± 10 mm",
        "hybrid": "8 mm ± 8 mm",
        "iron": "0 mm ± 8 mm",
        "wedge": "0 mm ± 8 mm",
        "putter": "7 mm ± 8 mm",
    },
}

_STANDING = {
    "head.bore_to_ground": _MEMORY,
    "head.bore_depth": _MEMORY,
    **dict.fromkeys(("head.cg_off_axis", "head.loft", "head.bounce", "weight.head"), _OURS),
    "shaft.offcut": "from memory: so much comes off the butt of a raw shaft",
    **dict.fromkeys(("old_grip.mass", "old_grip.cg_from_cap", "old_shaft.mass"), _OURS),
}

_ALL: dict[str, Default] = {
    "head.sole_camber": Default("250 mm ± 50 mm", _OURS),
    "head.sole_contact": Default("55 mm ± 8 mm", _OURS),
    "adapter.from_ground": Default("40 mm ± 5 mm", _OURS),
    "shaft.stiffness_factor": Default("1 ± 0.03", _OURS),
    "grip.cap": Default("1/8 in ± 1/32 in", _PRACTICE),
    "grip.length": Default("10 1/2 in ± 1/4 in", _PRACTICE),
    "grip.build_up_blend": Default("0.5 ± 0.25", _OURS),
    "grip.core_taper": Default("0.030 in ± 0.012 in", _AS_THE_BUTT),
    "grip.diameter_2in": Default("0.900 in ± 0.006 in", "a published grip-sizing note"),
    "ferrule.mass": Default("0.7 g ± 0.3 g", _PRACTICE),
    "ferrule.length": Default("1 in ± 1/8 in", _PRACTICE),
    "adhesive.in_joint": Default("0.75 g ± 0.16 g", _STAYS),
    "adhesive.scale_error": Default("0.1 g", _OURS),
    "adhesive.bond_line_min": Default("0 in", "common practice, no source: the tip goes in by hand"),
    "adhesive.bond_line_max": Default("0.005 in", _BOND),
    "tape.mass": Default("1.5 g ± 0.3 g", "calculated from a 2 in x 10 in strip, and common practice"),
    "tape.cg_from_cap": Default("5.1 in ± 0.3 in", _OURS),
    "tape.length": Default("10 in ± 1/2 in", _OURS),
    "old_grip.cap": Default("1/8 in ± 1/32 in", _PRACTICE),
    "old_grip.length": Default("10 1/2 in ± 1/4 in", _PRACTICE),
    "old_tape.mass": Default("1.8 g ± 0.9 g", "estimate of ours: one or two layers of a 2 in x 10 in strip"),
    "old_tape.cg_from_cap": Default("5.1 in ± 0.4 in", _OURS),
    "old_tape.length": Default("10 in ± 1 in", _OURS),
    "old_ferrule.mass": Default("0.7 g ± 0.3 g", _PRACTICE),
    "old_ferrule.length": Default("1 in ± 1/8 in", _PRACTICE),
    "old_adhesive.in_joint": Default("0.75 g ± 0.25 g", _PRACTICE),
    "weight.tip": Default("35 mm ± 8 mm", _OURS),
    "weight.butt": Default("20 mm ± 6 mm", _TRADE),
    "shop.clamp": Default("5 in", "common practice, no source; 2.5 in is in use too"),
    "shop.clamp_give": Default("0 deg", "a clamp that does not give"),
    "shop.frequency_test_weight": Default("205 g", _PRACTICE),
    "shop.frequency_test_insertion": Default("1 in", _PRACTICE),
}


def default_for(number: str, kind: Kind) -> Default | None:
    """Return what is taken for a number such as ``head.mass`` for a kind of club, or None when nothing is."""
    if number in _BY_KIND:
        return Default(_BY_KIND[number][kind], _STANDING.get(number, _TRADE))
    return _ALL.get(number)


PART_GAUGES: dict[str, tuple[str, str, str]] = {
    "mass": ("0.1 g", "0.05 g", "0.05 g"),
    "length": ("1/64 in", "0.2 mm", "0.2 mm"),
    "angle": ("0.25 deg", "0.15 deg", "0.2 deg"),
    "diameter": ("0.001 in", "0.002 in", "0.001 in"),
    "linear_density": ("0.01 g/in", "0.05 g/in", "0.05 g/in"),
    "moi": ("0.1 kg cm2", "0.1 kg cm2", "0.2 kg cm2"),
    "number": ("0.01", "0.05", "0.05"),
}
"""Gauge taken for a reading of one part's number, by kind of notation (estimates of ours)."""

NUMBERS: tuple[str, ...] = (*_BY_KIND, *_ALL)
"""Every number that has a default, in the order the pages list them."""
