"""Benches: what is measured, with which gauges. All figures are estimates of ours, not the record of any workshop."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, kw_only=True)
class Scale:
    """A swing-weight scale, in points: smallest step, standard deviation of a reading, standard uncertainty of its bias."""

    step: float
    repeatability: float
    bias: float


@dataclass(frozen=True, kw_only=True)
class Bench:
    """How one club is worked.

    Attributes:
        name: For the report.
        scale: The swing-weight scale.
        readings: How often the dry club is put on the scale; the ticket gets the mean. 0: it is not read at all.
        stage: Stage of that reading.
        adhesive_sd_g: How well the mass left in the joint is known; None takes the documented default.
        tray_step_g: Step of the weights in the tray.
        tolerance_pt: Half-width of the swing weight.
        total_weight_g: Half-width of a total weight that is also ordered; None when it is not.
    """

    name: str
    scale: Scale
    readings: int
    stage: str = "dry, gripped"
    adhesive_sd_g: float | None = None
    tray_step_g: float = 0.5
    tolerance_pt: float = 0.25
    total_weight_g: float | None = None


FINE_SCALE = Scale(step=0.1, repeatability=0.1, bias=0.05)

PLAIN = Bench(name="plain", scale=FINE_SCALE, readings=1)
"""One look at a fine scale; of the adhesive nothing is known but the documented default."""

CAREFUL = Bench(name="careful", scale=FINE_SCALE, readings=3, adhesive_sd_g=0.1)
"""The same scale, the club put on it three times; the shop has weighed what its joints keep, to 0.1 g."""

THRICE = replace(PLAIN, name="thrice", readings=3)
WEIGHED_JOINT = replace(PLAIN, name="weighed-joint", adhesive_sd_g=CAREFUL.adhesive_sd_g)
"""The plain bench with one of the careful bench's two habits: which of them is worth how much."""

BENCHES = {bench.name: bench for bench in (PLAIN, THRICE, WEIGHED_JOINT, CAREFUL)}
USUAL = ("plain", "thrice", "careful")

TRAY_TOP_G = 8.0
"""Heaviest weight of the tray."""
