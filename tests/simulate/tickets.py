"""Small invented tickets for a simulated shop, cheap to work, each with a way to its end; and what hands type on them."""

from __future__ import annotations

import copy
from typing import Any

GAUGES = {
    "rule": {"resolution": "1/64 in"},
    "swing scale": {"resolution": "0.1 pt"},
    "gram scale": {"resolution": "0.1 g"},
    "kitchen scale": {"resolution": "1 g"},
    "angle gauge": {"resolution": "0.1 deg"},
    "caliper": {"resolution": "0.001 in"},
}
BUILD: dict[str, Any] = {
    "ticket": {"kind": "iron", "hand": "right", "job": "build", "promised": "Friday"},
    "target": {"length": "37 in"},
    "tolerance": {"length": "1/8 in"},
    "head": {
        "mass": "262 g",
        "loft": "34 deg",
        "lie": "62 deg",
        "bore_to_ground": "1.1 in",
        "bore_depth": "1.25 in",
        "bore_diameter": "0.359 in",
        "ports": "1",
    },
    "shaft": {
        "material": "steel",
        "tip": "taper",
        "tip_diameter": "0.355 in",
        "raw_length": "39 in",
        "mass": "118 g",
        "butt_diameter": "0.600 in",
    },
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "adhesive": {
        "ratio": "2:1",
        "basis": "weight",
        "pot_life": "30 min",
        "temperature": "22 C",
        "release": [{"temperature": "20 C", "time": "15 h"}, {"temperature": "25 C", "time": "12 h"}],
    },
    "tape": [{"name": "base", "layers": "1", "mass": "1.6 g", "cg_from_cap": "5.1 in"}],
    "weight": [{"name": "port 4", "mass": "4 g", "seat": "port", "from_ground": "10 mm"}],
    "instrument": GAUGES,
}
BEND: dict[str, Any] = {
    "ticket": {"kind": "iron", "hand": "right", "job": "loft-lie"},
    "target": {"loft": "34 deg", "lie": "62 deg"},
    "tolerance": {"loft": "1 deg", "lie": "1 deg"},
    "head": {"mass": "270 g", "loft": "34.5 deg", "lie": "63.5 deg", "hand": "right"},
    "shaft": {"cut_length": "36 in", "mass": "120 g"},
    "grip": {"mass": "50 g"},
    "instrument": GAUGES,
}
GRIP: dict[str, Any] = {
    "ticket": {"kind": "iron", "hand": "right", "job": "regrip"},
    "target": {"grip_diameter_2in": "0.915 in"},
    "tolerance": {"grip_diameter_2in": "0.010 in"},
    "head": {"mass": "261 g"},
    "shaft": {"cut_length": "36.4 in", "mass": "118 g"},
    "grip": {"mass": "56.3 g", "diameter_2in": "0.914 in"},
    "instrument": GAUGES,
}
WEIGHT: dict[str, Any] = {
    "ticket": {"kind": "iron", "hand": "right", "job": "weight"},
    "target": {"swing_weight": "D4", "length": "37 in"},
    "tolerance": {"swing_weight": "1 pt", "length": "1/4 in"},
    "head": {"mass": "262 g"},
    "shaft": {"cut_length": "35.85 in", "mass": "118 g"},
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "weight": [{"name": "lead 8", "mass": "8 g", "seat": "head"}],
    "instrument": GAUGES,
}
RESHAFT: dict[str, Any] = {**BUILD, "ticket": {**BUILD["ticket"], "job": "reshaft"}}
KINDS = (BUILD, BUILD, BEND, GRIP, WEIGHT, RESHAFT)
"""What comes in at the door; builds have the most to go wrong."""

PLAYERS = ("Robin Ashdown (invented)", "Sam Hollis (invented)")
READINGS = (
    ("swing_weight", "D4", "finished"),
    ("swing_weight", "D1", "dry, gripped"),
    ("swing_weight", "H9", "finished"),
    ("length", "37 in", "finished"),
    ("total_weight", "430 g", "finished"),
    ("total_weight", "431 g", "as it came"),
    ("loft", "34 deg", "finished"),
    ("lie", "62 deg", "finished"),
    ("grip_diameter_2in", "0.915 in", "finished"),
    ("head.mass", "262.4 g", "finished"),
    ("swing_weight", "about D4", "finished"),
)
FIGURES = (
    ("head", {"mass": "262.4 g"}),
    ("head", {"hand": "right"}),
    ("grip", {"mass": "50.2 g"}),
    ("grip", {"cap": ""}),
    ("weight", {"name": "lead 3", "mass": "3 g", "seat": "head"}),
    ("shaft", {"cut_mass": "110 g"}),
    ("ferrule", {"mass": "0.8 g"}),
    ("head", {"family": "hazel", "lot": "lot-7", "piece": "0042"}),
    ("shaft", {"family": "alder", "piece": "0007"}),
)
ORDERS: tuple[dict[str, str], ...] = (
    {"target.length": "36 1/2 in"},
    {"target.swing_weight": "D2"},
    {"target.swing_weight": ""},
    {"tolerance.length": "1/4 in", "target.lie": "61 deg"},
    {"target.loft": "33 deg"},
    {"adhesive.pot_life": "20 min"},
    {"adhesive.ratio": "4:1", "adhesive.release": "20 C: 20 h; 25 C: 16 h"},
    {"adhesive.name": "another two-part"},
    {
        "adhesive.name": "a third one",
        "adhesive.ratio": "1:1",
        "adhesive.basis": "weight",
        "adhesive.release": "20 C: 1 h",
    },
    {"shaft.raw_length": "39.5 in"},
    {"ticket.job": "weight"},
)
SAID = (
    ("ticket", {"promised": "Thursday"}),
    ("ticket", {"priority": "rush"}),
    ("target", {"swing_weight": "D2"}),
    ("shaft", {"raw_length": "39.5 in"}),
    ("tape", {"name": "build-up", "layers": "2", "mass": "2.8 g", "cg_from_cap": "5.1 in"}),
)
OTHERS: tuple[tuple[str, dict[str, str]], ...] = (
    ("head", {"mass": "263 g", "loft": "34 deg", "lie": "62 deg", "bore_to_ground": "1.1 in", "bore_depth": "1.25 in"}),
    ("head", {}),
    ("grip", {"mass": "51 g", "cap": "1/8 in"}),
    ("shaft", {"material": "steel", "raw_length": "39 in", "mass": "119 g", "tip": "taper"}),
)
"""Other parts, as they are measured when they take the place of one; a head also with nothing measured of it yet."""

CARDS: tuple[dict[str, dict[str, str]], ...] = (
    {"head": {"mass": "262.6 g"}, "grip": {"mass": "50.4 g", "cap": "1/8 in"}},
    {
        "head": {"bore_to_ground": "1.1 in", "bore_depth": "1.25 in"},
        "shaft": {"mass": "118.2 g"},
        "ferrule": {"mass": "0.8 g"},
    },
    {"grip": {"mass": "49.9 g"}, "shaft": {"mass": "heavy"}},
)
"""Figures of several parts that are sent together, and kept all or none."""


def ticket(kind: int, number: str, player: str = "Robin Ashdown (invented)") -> dict[str, Any]:
    """Return a ticket of one of the kinds under a number."""
    found = copy.deepcopy(KINDS[kind % len(KINDS)])
    found["ticket"] |= {"id": number, "player": player}
    return found


def back_again(document: dict[str, Any], number: str) -> dict[str, Any]:
    """Return a ticket by which a club of the record comes in again for another grip."""
    found = copy.deepcopy(GRIP)
    for table in ("head", "shaft"):
        mass = document.get(table, {}).get("mass")
        if mass:
            found[table]["mass"] = mass
    cut = document.get("shaft", {}).get("cut_length")
    if cut:
        found["shaft"]["cut_length"] = cut
    player = document["ticket"].get("player", "")
    found["ticket"] |= {
        "id": number,
        "note": f"the club of {document['ticket']['id']}",
        **({"player": player} if player else {}),
    }
    return found
