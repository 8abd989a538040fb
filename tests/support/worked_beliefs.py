"""A belief about the worked wedge and ready-made readings of it, shared by the tests of update, explanation and laws."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import values
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import club_with
from clubwright.club.build import Conventions
from clubwright.club.parts import Club, Weight
from clubwright.club.stages import Stage
from worked_clubs import CAP_IN, GRAM, IN, WEDGE, club_of, shaft_length_in

CONVENTIONS = Conventions()
WEIGHTS = (
    Weight(name="port 2", mass_kg=2 * GRAM, seat="port", place_m=10e-3),
    Weight(name="port 6", mass_kg=6 * GRAM, seat="port", place_m=10e-3),
)
NONE_ON = (0.0, 0.0)
TEMPLATE: Club = club_of(WEDGE, weights=WEIGHTS)
LENGTH_IN = shaft_length_in(WEDGE)
LOFT_RAD = 0.96

PRIOR: dict[str, tuple[float, float]] = {
    "head.mass_kg": (300 * GRAM, 0.1 * GRAM),
    "head.cg_from_ground_m": (-0.3 * IN, 2.0e-3),
    "head.loft_rad": (LOFT_RAD, 0.005),
    "shaft.mass_kg": (106.15 * GRAM, 0.1 * GRAM),
    "shaft.balance_from_tip_m": ((CAP_IN + LENGTH_IN - 16.411) * IN, 3e-3),
    "shaft.length_m": (LENGTH_IN * IN, 0.4e-3),
    "grip.mass_kg": (50 * GRAM, 0.3 * GRAM),
    "grip.cg_from_cap_m": (4.1 * IN, 3e-3),
    "grip.cap_m": (CAP_IN * IN, 0.3e-3),
    "tapes.0.mass_kg": (2.5 * GRAM, 0.2 * GRAM),
    "adhesive.mass_kg": (1.0 * GRAM, 0.3 * GRAM),
    "ferrule.mass_kg": (0.7 * GRAM, 0.05 * GRAM),
    "weights.0.mass_kg": (2 * GRAM, 0.02 * GRAM),
    "weights.1.mass_kg": (6 * GRAM, 0.02 * GRAM),
}

GAUGES = {
    "swing_weight": Instrument(name="swing-weight scale", resolution=0.1, repeatability=0.1, bias=0.1),
    "total_weight": Instrument(name="gram scale", resolution=0.1 * GRAM, repeatability=0.05 * GRAM, bias=0.05 * GRAM),
    "length": Instrument(name="rule", resolution=0.4e-3, repeatability=0.3e-3),
    "loft": Instrument(name="loft gauge", resolution=0.004, repeatability=0.003),
}


def prior() -> Gaussian:
    return Gaussian.independent(PRIOR)


def shown(
    quantity: str, stage: Stage, fitted: Sequence[float] = NONE_ON, truth: Mapping[str, float] | None = None
) -> float:
    """What a perfect gauge shows on the club whose numbers are the prior's means, changed by `truth` (added, in SI)."""
    theta = {name: mean + (truth or {}).get(name, 0.0) for name, (mean, _) in PRIOR.items()}
    (found,) = values(TEMPLATE, CONVENTIONS, list(theta), list(theta.values()), [quantity], stage, tuple(fitted))
    return float(np.asarray(found))


def reading(
    quantity: str,
    stage: Stage,
    value: float,
    *,
    where: str = "[[reading]] 1",
    fitted: Sequence[float] = NONE_ON,
    keep: bool | None = None,
) -> Reading:
    gauge = GAUGES[quantity if quantity in GAUGES else "total_weight"]
    return Reading(
        where=where,
        quantity=quantity,
        value=value,
        stage=stage,
        fitted=tuple(fitted),
        instrument=gauge,
        keep=keep,
    )


def club_at(belief: Gaussian) -> Club:
    return club_with(TEMPLATE, belief.names, [float(value) for value in belief.mean])


def without_bias(gauge: Instrument) -> Instrument:
    return msgspec.structs.replace(gauge, bias=0.0)
