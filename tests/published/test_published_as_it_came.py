"""A club as it came in, and what reading it teaches: hand sums with numpy, and a plain conditioning of few unknowns.

The sums (tests/support/hand_statics.py) and the conditioning below are written anew and share no code with what they check.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import numpy as np
import pytest
import uncertainties
from uncertainties import ufloat

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import predict
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import club_with
from clubwright.belief.update import learn
from clubwright.club.build import Build, Conventions
from clubwright.club.parts import Adhesive, Came, Club, Ferrule, Grip, Shaft, Tape
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import AS_IT_CAME, FINISHED
from hand_statics import IN, by_hand, came_with
from worked_clubs import DRIVER, GRAM, WEDGE, WORKED, club_of

Published = Callable[..., None]
SOURCE = "sums by hand with numpy (tests/support/hand_statics.py)"
OLD_GRIP = Grip(mass_kg=63.5 * GRAM, cg_from_cap_m=4.4 * IN, cap_m=0.2 * IN, length_m=10.9 * IN)
OLD_TAPE = Tape(mass_kg=4.2 * GRAM, cg_from_cap_m=5.4 * IN, length_m=9.5 * IN)


def regripped(name: str) -> Club:
    return msgspec.structs.replace(club_of(WORKED[name]), came=Came(grip=OLD_GRIP, tapes=(OLD_TAPE,)))


def reshafted(name: str) -> Club:
    club = regripped(name)
    assert club.came is not None
    shaft = Shaft(raw_length_m=0.87, mass_kg=0.131, balance_from_tip_m=0.452, length_m=0.87)
    came = msgspec.structs.replace(
        club.came,
        shaft=shaft,
        ferrule=Ferrule(mass_kg=1.1 * GRAM, length_m=0.02),
        adhesive=Adhesive(mass_kg=0.4 * GRAM),
    )
    return msgspec.structs.replace(club, came=came)


def numbers(club: Club) -> dict[str, float]:
    found: dict[str, float] = {}
    parts: dict[str, Any] = {name: getattr(club, name) for name in ("head", "shaft", "grip", "ferrule", "adhesive")}
    parts["tapes.0"] = club.tapes[0]
    if club.came is not None:
        old = {name: getattr(club.came, name) for name in ("shaft", "grip", "ferrule", "adhesive")}
        parts |= {f"came.{name}": part for name, part in old.items() if part is not None}
        parts |= {"came.tapes.0": club.came.tapes[0]} if club.came.tapes else {}
    for part, item in parts.items():
        for field in item.__struct_fields__:
            if isinstance(getattr(item, field), int | float):
                found[f"{part}.{field}"] = float(getattr(item, field))
    return found


@pytest.mark.parametrize("job", ["re-gripped", "re-shafted"])
@pytest.mark.parametrize("name", [WEDGE.name, DRIVER.name])
@pytest.mark.parametrize("key", ["total_weight", "swing_weight", "balance_point", "moi", "length"])
def test_a_club_as_it_came_is_the_sum_of_its_old_parts(published: Published, key: str, name: str, job: str) -> None:
    club = regripped(name) if job == "re-gripped" else reshafted(name)
    hand = by_hand(came_with(numbers(club)))
    published(
        quantity=f"{key.replace('_', ' ')} as it came, {name}, {job}",
        source=SOURCE,
        theirs=hand[key],
        ours=float(QUANTITIES[key].of(Build(club=club, stage=AS_IT_CAME))),
        tolerance={"swing_weight": 1e-3, "moi": 1e-6}.get(key, 1e-6),
        unit=QUANTITIES[key].unit,
        standing="derived",
    )
    plain = msgspec.structs.replace(club, came=None)
    finished = Build(club=club, stage=FINISHED)
    assert QUANTITIES[key].of(finished) == QUANTITIES[key].of(Build(club=plain)), (
        "old parts are not on the finished club"
    )


PRIOR = {
    "head.mass_kg": (300 * GRAM, 4 * GRAM),
    "head.cg_from_ground_m": (-0.3 * IN, 5e-3),
    "shaft.mass_kg": (106.15 * GRAM, 8 * GRAM),
    "grip.mass_kg": (50 * GRAM, 0.1 * GRAM),
    "tapes.0.mass_kg": (2.5 * GRAM, 0.15 * GRAM),
    "came.grip.mass_kg": (50 * GRAM, 6 * GRAM),
    "came.grip.cg_from_cap_m": (4.1 * IN, 0.3 * IN),
    "came.grip.cap_m": (0.125 * IN, IN / 32),
    "came.tapes.0.mass_kg": (1.8 * GRAM, 0.9 * GRAM),
}
GRAMS = Instrument(name="gram scale", resolution=0.0, repeatability=0.1 * GRAM, bias=0.0)
POINTS = Instrument(name="swing-weight scale", resolution=0.0, repeatability=0.15, bias=0.0)


def read(quantity: str, value: float, gauge: Instrument) -> Reading:
    return Reading(
        where=quantity, quantity=quantity, value=value, stage=AS_IT_CAME, fitted=(), instrument=gauge, repeats=1
    )


def test_total_weight_as_it_came_tells_what_stays(published: Published) -> None:
    """Three independent Gaussians and one sum: the closed form of docs/theory/belief.md."""
    club = regripped(WEDGE.name)
    prior = Gaussian.independent(PRIOR)
    read_kg = 463.0 * GRAM
    learned = learn(prior, club, Conventions(), [read("total_weight", read_kg, GRAMS)])
    found = predict(learned.belief, club, Conventions(), ["total_weight"], FINISHED, np.zeros((1, 0)))
    stays = ("head.mass_kg", "shaft.mass_kg")
    new, old = ("grip.mass_kg", "tapes.0.mass_kg"), ("came.grip.mass_kg", "came.tapes.0.mass_kg")
    fixed = (1.0 + 0.7) * GRAM  # adhesive and ferrule, the same before and after

    def of(names: tuple[str, ...]) -> tuple[float, float]:
        return sum(PRIOR[name][0] for name in names), sum(PRIOR[name][1] ** 2 for name in names)

    (r, vr), (n, vn), (o, vo) = of(stays), of(new), of(old)
    gain = vr / (vr + vo + (0.1 * GRAM) ** 2)
    source = "closed form of three independent Gaussians, docs/theory/belief.md"
    published(
        quantity="finished total weight after one reading as it came",
        source=source,
        theirs=r + fixed + n + gain * (read_kg - r - fixed - o),
        ours=float(found.mean[0, 0]),
        tolerance=1e-10,
        unit="kg",
        standing="derived",
    )
    published(
        quantity="its standard uncertainty",
        source=source,
        theirs=float(np.sqrt(vr * (1 - gain) + vn)),
        ours=float(found.sd()[0, 0]),
        tolerance=1e-10,
        unit="kg",
        standing="derived",
    )


def test_swing_weight_as_it_came_sharpens_the_finished_one(published: Published) -> None:
    """The `uncertainties` package propagates the hand sums; conditioning on the two readings is numpy's solve."""
    club = regripped(WEDGE.name)
    base = numbers(club)
    symbols = {name: ufloat(mean, sd) for name, (mean, sd) in PRIOR.items()}
    came = [_propagated(base, symbols, key, old=True) for key in ("total_weight", "swing_weight")]
    finished = _propagated(base, symbols, "swing_weight", old=False)
    whole = np.array(uncertainties.covariance_matrix([*came, finished]))
    noise = np.diag([(0.1 * GRAM) ** 2, 0.15**2])
    gain = np.linalg.solve(whole[:2, :2] + noise, whole[:2, 2])
    left = whole[2, 2] - gain @ whole[:2, 2]
    means = [float(item.nominal_value) for item in came]
    readings = [read("total_weight", means[0], GRAMS), read("swing_weight", means[1], POINTS)]
    learned = learn(Gaussian.independent(PRIOR), club, Conventions(), readings)
    found = predict(learned.belief, club, Conventions(), ["swing_weight"], FINISHED, np.zeros((1, 0)))
    before = predict(Gaussian.independent(PRIOR), club, Conventions(), ["swing_weight"], FINISHED, np.zeros((1, 0)))
    published(
        quantity="standard uncertainty of the finished swing weight after two readings as it came",
        source="uncertainties package on the hand sums, conditioned with numpy.linalg.solve",
        theirs=float(np.sqrt(left)),
        ours=float(found.sd()[0, 0]),
        tolerance=2e-3,
        unit="points",
        standing="library",
    )
    assert float(found.sd()[0, 0]) < 0.5 * float(before.sd()[0, 0])


def _propagated(base: dict[str, float], symbols: dict[str, Any], key: str, *, old: bool) -> Any:
    """Linearise the hand sum by central differences, and hand the slopes to the package."""

    def value(changed: dict[str, float]) -> float:
        part = came_with(changed) if old else {name: v for name, v in changed.items() if not name.startswith("came.")}
        return by_hand(part)[key]

    at = base | {name: mean for name, (mean, _) in PRIOR.items()}
    found: Any = value(at)
    for name, symbol in symbols.items():
        step = 1e-4 * PRIOR[name][1]
        slope = (value(at | {name: at[name] + step}) - value(at | {name: at[name] - step})) / (2 * step)
        found = found + slope * (symbol - at[name])
    return found


def test_every_number_of_an_old_part_has_a_path() -> None:
    club = reshafted(WEDGE.name)
    names = [name for name in numbers(club) if name.startswith("came.")]
    assert len(names) > 20
    moved = club_with(club, names, [0.5] * len(names))
    assert {value for name, value in numbers(moved).items() if name.startswith("came.")} == {0.5}
    assert numbers(moved)["grip.mass_kg"] == numbers(club)["grip.mass_kg"]
