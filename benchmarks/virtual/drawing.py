"""Draw one club: its true parts, what the clubmaker measured of them, the dry reading, and the ticket document.

Numbers nobody measured are drawn from the documented default of their kind, mean and uncertainty. Numbers that were
measured are drawn from the same population and then measured with an error of the size that the program takes for such a
measurement. So the truth agrees with what is stated; `wider` makes all of it worse than stated by one factor.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np

from clubwright.club.parts import Kind
from clubwright.notation import parse, parse_difference
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import FERRULE, GRIP, HEAD, SHAFT, TAPE, WEIGHT
from clubwright.ticket.priors.prior import CUT_SD_M
from clubwright.ticket.priors.shaft import BALANCE_SHARE, DENSITY_SHARE
from virtual.benches import HABIT_G, JOINT_SD_G, TRAY_TOP_G, ZERO_SD_G, Bench
from virtual.mechanics import INCH_M, Parts, weighed

LENGTH_IN = {"driver": 45.25, "fairway": 43.0, "hybrid": 40.0, "iron": 37.0, "wedge": 35.25, "putter": 34.0}
TIP_TRIM_IN = {"driver": 0.5, "fairway": 1.0, "hybrid": 1.0}
WOODS = ("driver", "fairway", "hybrid")
_SECTIONS = {section.name: section for section in (HEAD, SHAFT, GRIP, FERRULE, TAPE, WEIGHT)}


@dataclass(kw_only=True)
class Case:
    """One simulated club.

    Attributes:
        kind: Kind of club.
        bench: How it is worked.
        truth: Its true parts.
        nominal: What the clubmaker goes by: measured, labelled, or default.
        labels_g: What is printed on the weights.
        reading: What the dry club read, in points; None when it was not read.
        bias: The scale's constant error.
        target: Ordered swing weight, in points.
        target_kg: Ordered total weight, or None.
        document: The ticket as the clubmaker wrote it.
        wider: By what factor truth and gauges are worse than stated.
    """

    kind: Kind
    bench: Bench
    truth: Parts
    nominal: Parts
    labels_g: list[float]
    reading: float | None
    bias: float
    target: float
    target_kg: float | None
    document: dict[str, Any]
    wider: float


@cache
def stated(name: str, kind: Kind) -> tuple[float, float]:
    """Mean and standard uncertainty of a documented default, in SI."""
    default = default_for(name, kind)
    assert default is not None, name
    section, _, key = name.partition(".")
    field = _SECTIONS[section].field(key) if section in _SECTIONS else None
    notation = "mass" if name == "adhesive.in_joint" else "length" if field is None else field.kind
    understood = parse(notation, default.text)
    return understood.value, understood.sd or 0.0


@cache
def measured_sd(name: str) -> float:
    """Standard uncertainty that the program takes for a measured number, in SI."""
    section, _, key = name.partition(".")
    field = _SECTIONS[section].field(key)
    assert field is not None and field.sd is not None, name
    return parse_difference(field.kind, field.sd).value


@dataclass(frozen=True, kw_only=True)
class Shop:
    """What is the same for every club of one shop: what stays in its joints, and the errors of its two scales."""

    adhesive_kg: float
    scale_points: float
    zero_kg: float


def draw_shop(bench: Bench, random: np.random.Generator) -> Shop:
    """Draw one shop that never checked its scales."""
    return Shop(
        adhesive_kg=float(random.uniform(*HABIT_G)) / 1e3,
        scale_points=float(random.normal(0.0, bench.scale.bias)),
        zero_kg=float(random.normal(0.0, ZERO_SD_G)) / 1e3,
    )


class _Hand:
    """The clubmaker's hand and eye for one club: draws truths, measures them, and notes both."""

    def __init__(self, kind: Kind, wider: float, random: np.random.Generator, zero_kg: float = 0.0) -> None:
        self.kind, self.wider, self.random, self.zero_kg = kind, wider, random, zero_kg

    def off(self, sd: float) -> float:
        return float(self.random.normal(0.0, sd * self.wider))

    def unmeasured(self, name: str) -> tuple[float, float]:
        """Return truth and the default gone by."""
        mean, sd = stated(name, self.kind)
        return mean + self.off(sd), mean

    def measured(self, name: str, step: float, truth: float | None = None) -> tuple[float, float]:
        """Return truth and what was measured, in whole steps of the gauge."""
        if truth is None:
            mean, sd = stated(name, self.kind)
            # No part weighs less than a third of its kind: the program never sees this population, only the measurement.
            truth = max(float(self.random.normal(mean, sd)), mean / 3)
        sd = measured_sd(name)
        noise = np.sqrt(max(sd**2 - step**2 / 12, 0.0))
        shown = truth + self.off(noise) + (self.zero_kg if name.endswith(".mass") else 0.0)
        return truth, round(shown / step) * step


def draw(kind: Kind, bench: Bench, wider: float, random: np.random.Generator, shop: Shop | None = None) -> Case:
    """Draw one club for a bench; with a shop what all its clubs share is that shop's."""
    hand = _Hand(kind, wider, random, 0.0 if shop is None else shop.zero_kg)
    pairs: dict[str, tuple[float, float]] = {
        "head_kg": hand.measured("head.mass", 1e-4),
        "head_cg_m": hand.unmeasured("head.cg_from_ground"),
        "bore_to_ground_m": hand.measured("head.bore_to_ground", 1e-4),
        "bore_depth_m": hand.measured("head.bore_depth", 1e-4),
        "shaft_kg": hand.measured("shaft.mass", 1e-4),
        "grip_kg": hand.measured("grip.mass", 1e-4),
        "grip_cg_m": hand.unmeasured("grip.cg_from_cap"),
        "cap_m": hand.measured("grip.cap", 1e-4),
        "tape_kg": hand.measured("tape.mass", 1e-4),
        "tape_cg_m": hand.unmeasured("tape.cg_from_cap"),
        "ferrule_kg": hand.measured("ferrule.mass", 1e-4),
        "ferrule_m": hand.unmeasured("ferrule.length"),
        "adhesive_kg": _adhesive(hand, bench, shop),
        "port_m": hand.unmeasured("weight.port"),
    }
    pairs |= _shaft(hand, pairs)
    labels = [float(g) for g in np.arange(bench.tray_step_g, TRAY_TOP_G + 1e-9, bench.tray_step_g)]
    weights = [hand.measured("weight.mass", 1e-5, truth=g / 1e3 + float(random.normal(0, 5e-5))) for g in labels]
    truth = Parts(**{key: pair[0] for key, pair in pairs.items()}, weights_kg=[w[0] for w in weights])
    nominal = Parts(**{key: pair[1] for key, pair in pairs.items()}, weights_kg=[w[1] for w in weights])
    bias = hand.off(bench.scale.bias) if shop is None else shop.scale_points
    case = Case(
        kind=kind,
        bench=bench,
        truth=truth,
        nominal=nominal,
        labels_g=labels,
        reading=None,
        bias=bias,
        target=0.0,
        target_kg=None,
        document={},
        wider=wider,
    )
    if bench.readings:
        case.reading = read_scale(case, bench.stage, None, bench.readings, random)
    _order(case, random)
    case.document = _document(case)
    return case


def _adhesive(hand: _Hand, bench: Bench, shop: Shop | None) -> tuple[float, float]:
    mean, sd = stated("adhesive.in_joint", hand.kind)
    if shop is not None:
        return max(shop.adhesive_kg + hand.off(JOINT_SD_G / 1e3), 0.0), mean
    if bench.adhesive_sd_g is not None:
        sd = bench.adhesive_sd_g / 1e3
    return max(mean + hand.off(sd), 0.0), mean


def _shaft(hand: _Hand, pairs: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    trim = TIP_TRIM_IN.get(hand.kind, 0.0) * INCH_M
    cut = LENGTH_IN[hand.kind] * INCH_M - pairs["bore_to_ground_m"][1] - pairs["cap_m"][1]
    raw = hand.measured("shaft.raw_length", 1e-4, truth=cut + trim + float(hand.random.uniform(0.5, 3.0)) * INCH_M)
    share, spread = BALANCE_SHARE["graphite" if hand.kind in WOODS else "steel"]
    balance = hand.measured("shaft.balance_from_tip", 5e-4, truth=raw[0] * float(hand.random.normal(share, spread)))
    masses = pairs["shaft_kg"]
    nominal_ends = _ends(masses[1], balance[1], raw[1])
    true_ends = [d * (1 + hand.off(DENSITY_SHARE)) for d in _ends(masses[0], balance[0], raw[0])]
    return {
        "raw_m": raw,
        "balance_m": balance,
        "tip_trim_m": (trim + hand.off(measured_sd("shaft.tip_trim")) if trim else 0.0, trim),
        "tip_density_kg_m": (true_ends[0], nominal_ends[0]),
        "butt_density_kg_m": (true_ends[1], nominal_ends[1]),
        "cut_m": (cut + hand.off(CUT_SD_M), cut),
    }


def _ends(mass: float, balance: float, raw: float) -> tuple[float, float]:
    """Tip and butt density of a shaft whose density runs straight."""
    skew = 6 * (balance / raw - 0.5)
    return mass / raw * (1 - skew), mass / raw * (1 + skew)


def read_scale(case: Case, stage: str, fitted: int | None, repeats: int, random: np.random.Generator) -> float:
    """Return the mean of a few readings of the true club, each to the step of the scale."""
    scale = case.bench.scale
    true = weighed(case.truth, stage, fitted)[1] + case.bias
    seen = true + random.normal(0.0, scale.repeatability * case.wider, size=repeats)
    return round(float(np.mean(np.round(seen / scale.step) * scale.step)), 2)


def _order(case: Case, random: np.random.Generator) -> None:
    """Order a swing weight that the tray can reach, as far as anybody at the bench can see, in half points.

    It is drawn from what the clubmaker knows, never from the truth: an order that knew the true parts would tell the
    program about them.
    """
    wanted_g = float(random.uniform(0.15, 0.85)) * TRAY_TOP_G
    parts = replace(case.nominal, weights_kg=[wanted_g / 1e3])
    mass, points = weighed(parts, "finished", 0)
    if case.reading is not None:
        points += case.reading - weighed(case.nominal, case.bench.stage, None)[1]
    case.target = round(points * 2) / 2
    if case.bench.total_weight_g is not None:
        case.target_kg = round(mass * 1e3) / 1e3


def letters(points: float) -> str:
    """Write points above A0 as a clubmaker does."""
    letter = min(int(points // 10), 6)
    return f"{'ABCDEFG'[letter]}{round(points - 10 * letter, 2):g}"


def _document(case: Case) -> dict[str, Any]:
    bench, seen = case.bench, case.nominal
    grams, mm = (lambda kg: f"{kg * 1e3:.2f} g"), (lambda m: f"{m * 1e3:.2f} mm")
    target = {"length": f"{LENGTH_IN[case.kind]} in", "swing_weight": letters(case.target)}
    tolerance = {"swing_weight": f"{bench.tolerance_pt:.4f} pt"}
    if case.target_kg is not None:
        target["total_weight"] = grams(case.target_kg)
        tolerance["total_weight"] = f"{bench.total_weight_g:.3f} g"
    shaft = {"raw_length": mm(seen.raw_m), "mass": grams(seen.shaft_kg), "balance_from_tip": mm(seen.balance_m)}
    if seen.tip_trim_m:
        shaft["tip_trim"] = mm(seen.tip_trim_m)
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": case.kind, "hand": "right"},
        "target": target,
        "tolerance": tolerance,
        "head": {
            "mass": grams(seen.head_kg),
            "bore_to_ground": mm(seen.bore_to_ground_m),
            "bore_depth": mm(seen.bore_depth_m),
            "ports": "1",
        },
        "shaft": shaft,
        "grip": {"mass": grams(seen.grip_kg), "cap": mm(seen.cap_m)},
        "tape": [{"name": "double-sided", "mass": grams(seen.tape_kg)}],
        "ferrule": {"mass": grams(seen.ferrule_kg)},
        "weight": [
            {"name": name_of(place), "mass": grams(kg), "seat": "port"} for place, kg in enumerate(seen.weights_kg)
        ],
        "reading": [],
        "instrument": {
            "scale": {
                "resolution": f"{bench.scale.step} pt",
                "repeatability": f"{bench.scale.repeatability} pt",
                "bias": f"{bench.scale.bias} pt",
            }
        },
    }
    if bench.adhesive_sd_g is not None:
        document["adhesive"] = {"in_joint": f"{seen.adhesive_kg * 1e3:.2f} g ± {bench.adhesive_sd_g} g"}
    if case.reading is not None:
        document["reading"].append(reading_entry(case.reading, bench.stage, None, bench.readings))
    if bench.shared:
        del document["instrument"]
        document["reading"] = [
            {key: said for key, said in row.items() if key != "instrument"} for row in document["reading"]
        ]
    return document


def name_of(place: int) -> str:
    """Name a weight of the tray."""
    return f"port {place + 1}"


def reading_entry(points: float, stage: str, fitted: int | None, repeats: int) -> dict[str, Any]:
    """Write one reading for the ticket."""
    return {
        "quantity": "swing_weight",
        "value": letters(points),
        "stage": stage,
        "weights": [] if fitted is None else [name_of(fitted)],
        "instrument": "scale",
        "repeats": str(repeats),
    }
