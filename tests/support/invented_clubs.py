"""Invented clubs for simulations: drawn, cut, bent, gripped and read with numpy alone, by the figures on their tickets.

The truth of a club is drawn about what a ticket says of it, with the uncertainty typed behind each figure; gauges then read
it with scatter, a constant error and the step of their scale. No mechanics of the package is in it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from clubwright.club.length import BEND_POINT_M
from hand_statics import by_hand

SMALL = GRAM = MM = 1e-3
DEG = np.pi / 180
NORMAL_80 = 1.2815515655446004
"""Four of five values of a normal lie within so many standard deviations (from memory; scipy.stats.norm.ppf(0.9))."""

TYPED: dict[str, tuple[str, str, float, float, str]] = {
    "head.mass_kg": ("head", "mass", 262.0, 2.5, "g"),
    "head.cg_from_ground_m": ("head", "cg_from_ground", -4.0, 3.0, "mm"),
    "head.cg_off_axis_m": ("head", "cg_off_axis", 36.0, 2.0, "mm"),
    "head.bore_to_ground_m": ("head", "bore_to_ground", 28.0, 0.3, "mm"),
    "head.bore_depth_m": ("head", "bore_depth", 32.0, 0.5, "mm"),
    "shaft.raw_length_m": ("shaft", "raw_length", 1000.0, 0.3, "mm"),
    "shaft.mass_kg": ("shaft", "mass", 121.0, 1.5, "g"),
    "shaft.balance_from_tip_m": ("shaft", "balance_from_tip", 515.0, 4.0, "mm"),
    "grip.mass_kg": ("grip", "mass", 49.0, 1.5, "g"),
    "grip.cg_from_cap_m": ("grip", "cg_from_cap", 104.0, 3.0, "mm"),
    "grip.cap_m": ("grip", "cap", 3.2, 0.3, "mm"),
    "tape.mass_kg": ("tape", "mass", 1.6, 0.15, "g"),
    "tape.cg_from_cap_m": ("tape", "cg_from_cap", 130.0, 4.0, "mm"),
    "ferrule.mass_kg": ("ferrule", "mass", 0.7, 0.05, "g"),
    "adhesive.mass_kg": ("adhesive", "in_joint", 0.8, 0.2, "g"),
}
"""Figure to its table, its key, what is typed, its uncertainty, and the unit of both."""

BUTT_KG_M = 0.115
GAUGES = {
    "total_weight": ("gram scale", 0.1 * GRAM, 0.1 * GRAM, 0.1 * GRAM, lambda x: f"{x / GRAM:.1f} g"),
    "swing_weight": ("swing scale", 0.1, 0.1, 0.1, lambda x: f"{x:.1f} pt"),
    "length": ("rule", 0.5 * MM, 0.2 * MM, 0.2 * MM, lambda x: f"{x / MM:.1f} mm"),
    "lie": ("angle gauge", 0.25 * DEG, 0.15 * DEG, 0.2 * DEG, lambda x: f"{x / DEG:.2f} deg"),
}
"""Gauge of a quantity: its name, step, scatter and constant error, and how it shows a value."""

LETTERS = "ABCDEFG"


class InventedClub:
    """One club as it truly is, and the gauges it is read with."""

    def __init__(self, seed: int) -> None:
        self.chance = np.random.default_rng(seed)
        self.true = {path: self._draw(mean, sd) * SMALL for path, (_, _, mean, sd, unit) in TYPED.items()}
        self.true |= {"grip.length_m": 0.267, "tape.length_m": 0.254, "ferrule.length_m": 0.0254}
        self.true["lie"] = self._draw(62.0, 0.3) * DEG
        self.bias = {key: self.chance.normal(0, bias) for key, (_, _, _, bias, _) in GAUGES.items()}
        self.length_m = self.true["shaft.raw_length_m"]

    def _draw(self, mean: float, sd: float) -> float:
        return float(self.chance.normal(mean, sd))

    def document(self, **tables: Mapping[str, str]) -> dict[str, Any]:
        """Return its ticket: every figure as typed, with its uncertainty."""
        words: dict[str, Any] = {
            "ticket": {"id": "S-1", "kind": "iron", "hand": "right", "player": "I. Nvented", "note": "invented"},
            "target": {"length": "940 mm", "swing_weight": "D2", "lie": "62 deg"},
            "head": {"lie": "62 deg ± 0.3 deg"},
            "shaft": {"butt_density": f"{BUTT_KG_M * 1e3:.0f} g/m ± 0.01 g/m"},
        }
        for table, key, mean, sd, unit in TYPED.values():
            words.setdefault(table, {})[key] = f"{mean} {unit} ± {sd} {unit}"
        words["instrument"] = {
            name: {
                "resolution": _figure(key, step),
                "repeatability": _figure(key, scatter),
                "bias": _figure(key, bias),
            }
            for key, (name, step, scatter, bias, _) in GAUGES.items()
        }
        words["tape"] = [{"name": "base", "layers": "1", **words["tape"]}]
        for name, table in tables.items():
            words[name] = {**words.get(name, {}), **table}
        return words

    def cut(self, mark_m: float) -> str:
        """Cut it within half a millimetre of a mark, and say how long it measures then."""
        self.length_m = self._draw(mark_m, 0.5 * MM)
        return f"{self._draw(self.length_m, 0.2 * MM) / MM:.2f} mm ± 0.2 mm"

    def bend(self, turn_rad: float) -> str:
        """Bend its lie, and say what it measures then: the head turns about the bend point, its ground point moves."""
        before, turn = self.true["lie"], self._draw(turn_rad, 0.2 * DEG)
        along, off = self.true["head.cg_from_ground_m"] - BEND_POINT_M, self.true["head.cg_off_axis_m"]
        ground = BEND_POINT_M * np.sin(before) / np.sin(before + turn)
        self.true |= {
            "lie": before + turn,
            "head.cg_from_ground_m": along * np.cos(turn) + off * np.sin(turn) + ground,
            "head.cg_off_axis_m": off * np.cos(turn) - along * np.sin(turn),
            "head.bore_to_ground_m": self.true["head.bore_to_ground_m"] + ground - BEND_POINT_M,
        }
        return f"{self._draw(self.true['lie'] / DEG, 0.3):.3f} deg ± 0.3 deg"

    def another_grip(self, mass_g: float) -> dict[str, str]:
        """Put another grip of a stated mass on, and return what is typed of it."""
        figures = {"mass_kg": (mass_g, 1.5, "g"), "cg_from_cap_m": (107.0, 3.0, "mm"), "cap_m": (4.0, 0.3, "mm")}
        typed = {}
        for name, (mean, sd, unit) in figures.items():
            self.true[f"grip.{name}"] = self._draw(mean, sd) * SMALL
            typed[TYPED[f"grip.{name}"][1]] = f"{mean} {unit} ± {sd} {unit}"
        return typed

    def another_tape(self) -> list[dict[str, str]]:
        """Lay another strip of tape under the grip, and return what is typed of it."""
        for name in ("mass_kg", "cg_from_cap_m"):
            _, _, mean, sd, _ = TYPED[f"tape.{name}"]
            self.true[f"tape.{name}"] = self._draw(mean, sd) * SMALL
        return [{"name": "base", "layers": "1", "mass": "1.6 g ± 0.15 g", "cg_from_cap": "130 mm ± 4 mm"}]

    def another_shaft(self) -> dict[str, str]:
        """Put another raw shaft in, lighter than the first, and return what is typed of it."""
        typed = {"butt_density": f"{BUTT_KG_M * 1e3:.0f} g/m ± 0.01 g/m"}
        for name, mean in (("raw_length_m", 1000.0), ("mass_kg", 112.0), ("balance_from_tip_m", 515.0)):
            _, key, _, sd, unit = TYPED[f"shaft.{name}"]
            self.true[f"shaft.{name}"] = self._draw(mean, sd) * SMALL
            typed[key] = f"{mean} {unit} ± {sd} {unit}"
        for part, key in (("ferrule", "mass_kg"), ("adhesive", "mass_kg")):
            _, _, mean, sd, _ = TYPED[f"{part}.{key}"]
            self.true[f"{part}.{key}"] = self._draw(mean, sd) * SMALL
        return typed

    def truly(self) -> dict[str, float]:
        """Return what the finished club is."""
        raw, length = self.true["shaft.raw_length_m"], self.length_m
        off = BUTT_KG_M * (raw - length)
        mass = self.true["shaft.mass_kg"] - off
        first = self.true["shaft.mass_kg"] * self.true["shaft.balance_from_tip_m"] - off * (raw + length) / 2
        numbers = {name.replace("tape.", "tapes.0."): value for name, value in self.true.items()}
        numbers |= {"shaft.length_m": length, "shaft.mass_kg": mass, "shaft.balance_from_tip_m": first / mass}
        numbers["head.own_inertia_kg_m2"] = 2.7e-4
        return {**by_hand(numbers), "lie": self.true["lie"], "head.mass": self.true["head.mass_kg"]}

    def read(self, quantity: str) -> str:
        """Read the finished club with the gauge of a quantity: what it shows, as typed."""
        _, step, scatter, _, words = GAUGES[quantity]
        shown = self.truly()[quantity] + self.bias[quantity] + self.chance.normal(0, scatter)
        shown = round(shown / step) * step
        if quantity == "swing_weight":
            letter, points = divmod(round(shown, 1), 10)
            return f"{LETTERS[int(letter)]}{points:.1f}"
        return str(words(shown))


def _figure(quantity: str, size: float) -> str:
    return str(GAUGES[quantity][4](size)) if quantity != "lie" else f"{size / DEG:.2f} deg"
