"""Clubs of the virtual bench with one mistake each: what was done, and how the cause that names it is known.

Readings are taken of the true club, with gauges that err as stated; what the clubs of one shop have in common is drawn for
the shop (`Shop`). The mechanics are those of `virtual.mechanics`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from clubwright.planning.misfits import MisfitCause
from virtual.benches import PLAIN
from virtual.drawing import Case, draw, letters
from virtual.mechanics import Parts, weighed

BENCH = replace(PLAIN, tray_step_g=1.0)
KINDS = ("wedge", "iron", "driver", "hybrid")
VISITS = (
    ("dry, gripped",),
    ("dry, no grip", "dry, gripped"),
    ("dry, gripped", "finished"),
    ("dry, no grip", "dry, gripped", "finished"),
)
QUANTITIES = ("swing_weight", "total_weight", "length")
TAPED_TWICE = 2


@dataclass
class Shop:
    """What the clubs of one shop have in common that nobody there has checked: scales, joint, rule."""

    grams: float = 0.0
    adhesive_g: float = 0.0
    points: float = 0.0
    length_m: float = 0.0

    @classmethod
    def drawn(cls, random: np.random.Generator) -> Shop:
        """Draw one: each as wide as the program takes the like error of one club to be."""
        return cls(
            grams=float(random.normal(0, 0.1)),
            adhesive_g=float(random.normal(0, 0.15)),
            points=float(random.normal(0, 0.1)),
            length_m=float(random.normal(0, 2e-4)),
        )


@dataclass
class Club:
    """One club on the bench: what it is, what the ticket says, and how each reading is taken."""

    case: Case
    truth: Parts
    document: dict[str, Any]
    visits: tuple[str, ...]
    on: dict[str, int | None] = field(default_factory=dict)
    really: dict[str, str] = field(default_factory=dict)
    to_butt: bool = False
    misread: tuple[str, str, float] | None = None


def club_of(shop: Shop, random: np.random.Generator) -> Club:
    """Draw an honest club of a shop, its tape laid twice."""
    case = draw(str(random.choice(KINDS)), BENCH, 1.0, random)  # type: ignore[arg-type]
    seen = case.nominal
    truth = replace(
        case.truth,
        tape_kg=case.truth.tape_kg + seen.tape_kg,  # weighed as one, with the error of one weighing
        adhesive_kg=max(case.truth.adhesive_kg + shop.adhesive_g / 1e3, 0.0),
    )
    document = {**case.document, "reading": []}

    def grams(kg: float) -> str:
        return f"{kg * 1e3 + shop.grams:.1f} g"

    document["head"] = {**document["head"], "mass": grams(seen.head_kg)}
    document["shaft"] = {**document["shaft"], "mass": grams(seen.shaft_kg)}
    document["grip"] = {**document["grip"], "mass": grams(seen.grip_kg)}
    document["tape"] = [{"name": "double-sided", "mass": grams(2 * seen.tape_kg), "layers": "2"}]
    return Club(case=case, truth=truth, document=document, visits=VISITS[int(random.integers(len(VISITS)))])


def read(club: Club, shop: Shop, random: np.random.Generator) -> list[dict[str, Any]]:
    """Take the readings: swing weight, total weight and, with a grip on, the length, at each visit."""
    found = []
    for stage in club.visits:
        really, fitted = club.really.get(stage, stage), club.on.get(stage)
        mass, points = weighed(club.truth, really, fitted)
        parts = club.truth
        cap = parts.cap_m if really in ("dry, gripped", "finished") and not club.to_butt else 0.0
        length = parts.bore_to_ground_m + parts.cut_m + cap
        shown = {
            "swing_weight": points + shop.points + random.normal(0, 0.1) + random.normal(0, 0.05),
            "total_weight": mass * 1e3 + shop.grams + random.normal(0, 0.1),
            "length": (length + shop.length_m) * 1e3 + random.normal(0, 0.2),
        }
        for quantity in QUANTITIES:
            if quantity == "length" and stage == "dry, no grip":
                continue
            value = shown[quantity]
            if club.misread and club.misread[:2] == (stage, quantity):
                value += club.misread[2]
            text = _shown(quantity, value)
            found.append({"quantity": quantity, "value": text, "stage": stage, "weights": []})
    return found


def _shown(quantity: str, value: float) -> str:
    """Write what a gauge shows, in its steps."""
    if quantity == "swing_weight":
        return letters(round(value, 1))
    return f"{value:.1f} g" if quantity == "total_weight" else f"{round(value * 2) / 2:.1f} mm"


def _off(random: np.random.Generator, low: float = 3.0, high: float = 8.0) -> float:
    return float(random.uniform(low, high) * random.choice([-1, 1])) / 1e3


Mistake = Callable[[Club, np.random.Generator], Callable[[MisfitCause], bool]]


def _names(*paths: str) -> Callable[[MisfitCause], bool]:
    def is_it(cause: MisfitCause) -> bool:
        return cause.kind in ("figure", "typed") and cause.path in paths and cause.also is None

    return is_it


def wrong_head(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.truth = replace(club.truth, head_kg=club.truth.head_kg + _off(random))
    return _names("head.mass_kg")


def shaft_off(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.truth = replace(club.truth, shaft_kg=club.truth.shaft_kg + _off(random))
    return _names("shaft.mass_kg")


def grip_off(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.truth = replace(club.truth, grip_kg=club.truth.grip_kg + _off(random))
    return _names("grip.mass_kg")


def shaft_and_grip_off(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    shaft_off(club, random)
    grip_off(club, random)

    def is_it(cause: MisfitCause) -> bool:
        return cause.also is not None and {cause.path, cause.also.path} == {"shaft.mass_kg", "grip.mass_kg"}

    return is_it


def wrong_stage(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    really = str(random.choice(["dry, no grip", "dry, taped"]))
    club.really["dry, gripped"] = really
    return lambda cause: cause.kind == "stage" and cause.detail in (really, "glued, no grip") and cause.also is None


def wrong_letter(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.misread = (str(random.choice(list(club.visits))), "swing_weight", float(random.choice([-10, 10])))
    return lambda cause: cause.kind == "letter" and cause.also is None


def to_the_butt(club: Club, _: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.to_butt = True
    return lambda cause: cause.kind == "to the butt" and cause.also is None


def layer_missing(club: Club, _: np.random.Generator) -> Callable[[MisfitCause], bool]:
    club.truth = replace(club.truth, tape_kg=club.truth.tape_kg / TAPED_TWICE)
    return lambda cause: cause.kind == "layer" and cause.change < 0 and cause.also is None


def weight_left_in(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    piece = int(random.integers(1, len(club.truth.weights_kg)))
    club.on = dict.fromkeys(club.visits, piece)
    near = {f"port {place + 1}" for place in (piece - 1, piece, piece + 1)}
    return lambda cause: cause.kind == "weights" and cause.detail in near and cause.also is None


def typed_wrong(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    part = str(random.choice(["head", "shaft", "grip"]))
    digits = list(club.document[part]["mass"].removesuffix(" g").replace(".", ""))
    places = [place for place in range(len(digits) - 1) if place != 0 and digits[place] != digits[place + 1]]
    if part == "grip" and digits[0] != digits[1] and digits[1] != "0":
        places.append(0)
    wide = [p for p in places if abs(int(digits[p]) - int(digits[p + 1])) * 0.9 * 10 ** (len(digits) - 2 - p) >= 1]
    if not wide:
        return typed_wrong(club, random)
    place = int(random.choice(wide))
    digits[place], digits[place + 1] = digits[place + 1], digits[place]
    club.document[part] = {**club.document[part], "mass": f"{''.join(digits[:-1])}.{digits[-1]} g"}
    return _names(f"{part}.mass_kg")


def one_misread(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    quantity = str(random.choice(["swing_weight", "total_weight"]))
    off = float(random.uniform(3, 8) * random.choice([-1, 1])) * (0.5 if quantity == "swing_weight" else 1.0)
    club.misread = (club.visits[-1], quantity, off)
    return lambda cause: cause.kind in ("reading", "another reading") and cause.also is None


def wrong_head_without_tray(club: Club, random: np.random.Generator) -> Callable[[MisfitCause], bool]:
    del club.document["weight"]
    return wrong_head(club, random)


MISTAKES: dict[str, Mistake] = {
    "wrong head, 3 to 8 g off": wrong_head,
    "the same, no weights on the ticket": wrong_head_without_tray,
    "wrong stage": wrong_stage,
    "wrong letter": wrong_letter,
    "length to the butt": to_the_butt,
    "one layer of tape missing": layer_missing,
    "weight left in the port": weight_left_in,
    "shaft 3 to 8 g off": shaft_off,
    "grip 3 to 8 g off": grip_off,
    "shaft and grip both off": shaft_and_grip_off,
    "a mass typed with two digits changed": typed_wrong,
    "one reading misread": one_misread,
}
