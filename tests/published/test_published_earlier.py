"""Readings of a club as it was before a change, and what they teach of it as it is: hand sums and numpy's own solve.

Nothing below shares code with what it checks: the shaft is cut into slices, the conditioning is numpy.linalg.solve on the
joint covariance, slopes are central differences of the hand sums.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import msgspec
import numpy as np
import pytest

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import predict
from clubwright.belief.readings import Reading
from clubwright.belief.update import learn
from clubwright.club.build import Build, Conventions
from clubwright.club.earlier import club_then
from clubwright.club.length import BEND_POINT_M
from clubwright.club.parts import Club, Earlier, Grip
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from hand_statics import IN, by_hand
from worked_clubs import GRAM, WEDGE, club_of

Published = Callable[..., None]
BUTT_KG_M = 0.105
RAW_M = 0.90
TRUE_NOW_M = 0.87
OLD_GRIP = Grip(mass_kg=63.5 * GRAM, cg_from_cap_m=4.4 * IN, cap_m=0.2 * IN, length_m=10.9 * IN)


def wedge(*earlier: Earlier) -> Club:
    club = club_of(WEDGE)
    shaft = msgspec.structs.replace(
        club.shaft,
        raw_length_m=RAW_M,
        mass_kg=0.1103,
        balance_from_tip_m=0.455,
        length_m=TRUE_NOW_M,
        butt_density_kg_m=BUTT_KG_M,
        tip_trim_m=0.0,
    )
    head = msgspec.structs.replace(club.head, lie_rad=1.1, loft_rad=0.94, bounce_rad=0.17)
    return msgspec.structs.replace(club, shaft=shaft, head=head, earlier=earlier)


def numbers(club: Club) -> dict[str, float]:
    parts = {name: getattr(club, name) for name in ("head", "shaft", "grip", "ferrule", "adhesive")}
    parts["tapes.0"] = club.tapes[0]
    return {
        f"{part}.{field}": float(value)
        for part, item in parts.items()
        for field in item.__struct_fields__
        if isinstance(value := getattr(item, field), int | float)
    }


def summed(part: Mapping[str, float]) -> dict[str, float]:
    """Hand sums of a club whose shaft is the raw one with a piece off its butt, of the stated density."""
    raw, length = part["shaft.raw_length_m"], part["shaft.length_m"]
    off = part["shaft.butt_density_kg_m"] * (raw - length)
    mass = part["shaft.mass_kg"] - off
    first = part["shaft.mass_kg"] * part["shaft.balance_from_tip_m"] - off * (raw + length) / 2
    return by_hand({**part, "shaft.mass_kg": mass, "shaft.balance_from_tip_m": first / mass})


QUANTITY = ["total_weight", "swing_weight", "balance_point", "length"]
TOLERANCE = {"swing_weight": 1e-3}


@pytest.mark.parametrize("key", QUANTITY)
def test_before_a_cut_and_a_new_grip_the_club_is_the_sum_of_what_was_on_it(published: Published, key: str) -> None:
    club = wedge(Earlier(grip=OLD_GRIP), Earlier(length_m=0.8745))
    then = numbers(club) | {"shaft.length_m": 0.8745}
    old = {f"grip.{name}": float(getattr(OLD_GRIP, name)) for name in ("mass_kg", "cg_from_cap_m", "cap_m", "length_m")}
    for place, part, words in ((1, then, "before a cut"), (0, then | old, "before that and another grip")):
        ours = QUANTITIES[key].of(Build(club=club_then(club, place)))
        published(
            quantity=f"{key.replace('_', ' ')} {words}",
            source="sums by hand with numpy (tests/support/hand_statics.py)",
            theirs=summed(part)[key],
            ours=float(ours),
            tolerance=TOLERANCE.get(key, 1e-6),
            unit=QUANTITIES[key].unit,
            standing="derived",
        )


def test_before_a_lie_bend_the_head_stands_where_plane_geometry_puts_it(published: Published) -> None:
    """Points in the lie plane: the head turns about the bend point, and the axis meets the same ground at another angle."""
    club = wedge(Earlier(lie_rad=1.12))
    head, then = club.head, club_then(club, 0).head
    turn = 1.12 - 1.1
    rotation = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    along, off = rotation @ np.array([head.cg_from_ground_m - BEND_POINT_M, head.cg_off_axis_m])
    k_then = BEND_POINT_M * np.sin(1.1) / np.sin(1.12)
    theirs = {
        "cg_from_ground_m": along + k_then,
        "cg_off_axis_m": off,
        "bore_to_ground_m": head.bore_to_ground_m + k_then - BEND_POINT_M,
    }
    for name, value in theirs.items():
        published(
            quantity=f"head before a bend of {np.degrees(turn):.2f} deg: {name}",
            source="rotation of plane points with numpy",
            theirs=float(value),
            ours=float(getattr(then, name)),
            tolerance=1e-12,
            unit="m",
            standing="derived",
        )


PRIOR = {
    "head.mass_kg": (300 * GRAM, 3 * GRAM),
    "head.cg_from_ground_m": (-0.3 * IN, 4e-3),
    "shaft.mass_kg": (110.3 * GRAM, 2 * GRAM),
    "shaft.length_m": (TRUE_NOW_M, 0.2e-3),
    "grip.mass_kg": (50 * GRAM, 0.1 * GRAM),
    "earlier.0.grip.mass_kg": (63.5 * GRAM, 3 * GRAM),
    "earlier.1.length_m": (0.8745, 0.2e-3),
}
GRAMS = Instrument(name="gram scale", resolution=0.0, repeatability=0.1 * GRAM, bias=0.0)
POINTS = Instrument(name="swing-weight scale", resolution=0.0, repeatability=0.12, bias=0.0)


def test_what_was_read_before_two_changes_sharpens_the_club_as_numpy_says(published: Published) -> None:
    """Seven unknowns, five readings in three configurations, one conditioning by numpy on slopes of the hand sums."""
    club = wedge(Earlier(grip=OLD_GRIP), Earlier(length_m=0.8745))
    base = numbers(club) | {
        f"earlier.0.grip.{name}": float(getattr(OLD_GRIP, name)) for name in ("cg_from_cap_m", "cap_m")
    }
    base |= {"earlier.0.grip.length_m": float(OLD_GRIP.length_m)} | {name: mean for name, (mean, _) in PRIOR.items()}
    asked = [("total_weight", 0), ("swing_weight", 0), ("total_weight", 1), ("swing_weight", 1), ("total_weight", None)]

    def value(part: Mapping[str, float], key: str, then: int | None) -> float:
        now = {name: number for name, number in part.items() if not name.startswith("earlier.")}
        if then is not None:
            now["shaft.length_m"] = part["earlier.1.length_m"]
        if then == 0:
            now |= {name.removeprefix("earlier.0."): x for name, x in part.items() if name.startswith("earlier.0.")}
        return summed(now)[key]

    def slopes(key: str, then: int | None) -> np.ndarray:
        found = []
        for name, (_, sd) in PRIOR.items():
            up, down = base | {name: base[name] + sd / 100}, base | {name: base[name] - sd / 100}
            found.append((value(up, key, then) - value(down, key, then)) / (sd / 50))
        return np.array(found)

    slope = np.array([slopes(*each) for each in asked])
    wanted = slopes("swing_weight", None)
    prior = np.diag([sd**2 for _, sd in PRIOR.values()])
    gauges = {"total_weight": GRAMS, "swing_weight": POINTS}
    noise = np.diag([gauges[key].repeatability ** 2 for key, _ in asked])
    gain = np.linalg.solve(slope @ prior @ slope.T + noise, slope @ prior @ wanted)
    off = np.array([0.4 * GRAM, 0.1, -0.2 * GRAM, 0.05, 0.1 * GRAM])
    readings = [
        Reading(
            where=f"{key} {then}",
            quantity=key,
            value=value(base, key, then) + float(miss),
            stage=FINISHED,
            fitted=(),
            instrument=gauges[key],
            then=then,
        )
        for (key, then), miss in zip(asked, off, strict=True)
    ]
    learned = learn(Gaussian.independent(PRIOR), club, Conventions(), readings)
    found = predict(learned.belief, club, Conventions(), ["swing_weight"], FINISHED, np.zeros((1, 0)))
    published(
        quantity="swing weight now after five readings in three configurations",
        source="numpy.linalg.solve on slopes of hand sums by central differences",
        theirs=value(base, "swing_weight", None) + float(gain @ off),
        ours=float(found.mean[0, 0]),
        tolerance=2e-3,
        unit="points",
        standing="library",
    )
    published(
        quantity="its standard uncertainty",
        source="numpy.linalg.solve on slopes of hand sums by central differences",
        theirs=float(np.sqrt(wanted @ prior @ wanted - gain @ slope @ prior @ wanted)),
        ours=float(found.sd()[0, 0]),
        tolerance=1e-3,
        unit="points",
        standing="library",
    )
    assert [item.taken for item in learned.judged] == [True] * 5
    assert [item.present for item in learned.judged] == [False] * 4 + [True]
    without = learn(Gaussian.independent(PRIOR), club, Conventions(), readings[4:])
    dropped = predict(without.belief, club, Conventions(), ["swing_weight"], FINISHED, np.zeros((1, 0)))
    assert float(found.sd()[0, 0]) < 0.25 * float(dropped.sd()[0, 0])
