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
        shared: Whether a shop's adhesive, its scale's error and its gram scale's zero are common to its clubs; its tickets
            say nothing of either scale, so that the program goes by its defaults.
    """

    name: str
    scale: Scale
    readings: int
    stage: str = "dry, gripped"
    adhesive_sd_g: float | None = None
    tray_step_g: float = 0.5
    tolerance_pt: float = 0.25
    total_weight_g: float | None = None
    shared: bool = False


FINE_SCALE = Scale(step=0.1, repeatability=0.1, bias=0.05)

PLAIN = Bench(name="plain", scale=FINE_SCALE, readings=1)
"""One look at a fine scale; of the adhesive nothing is known but the documented default."""

CAREFUL = Bench(name="careful", scale=FINE_SCALE, readings=3, adhesive_sd_g=0.1)
"""The same scale, the club put on it three times; the shop has weighed what its joints keep, to 0.1 g."""

THRICE = replace(PLAIN, name="thrice", readings=3)
WEIGHED_JOINT = replace(PLAIN, name="weighed-joint", adhesive_sd_g=CAREFUL.adhesive_sd_g)
"""The plain bench with one of the careful bench's two habits: which of them is worth how much."""

UNCHECKED = replace(PLAIN, name="shared", scale=Scale(step=0.1, repeatability=0.1, bias=0.2), shared=True)
"""A shop that never checked its scales. Its swing-weight scale errs by 0.2 pt (a check with a master club lets 0.25 pt
pass, from memory, and nobody checked this one), its gram scale by `ZERO_SD_G`, on every club alike."""

ZERO_SD_G = 0.1
"""Error of an unchecked gram scale's zero: what a check with a mass lets pass, from memory."""
HABIT_G = (0.5, 1.0)
"""What a shop leaves in its joints, each shop its own (common practice, no source)."""
JOINT_SD_G = 0.06
"""How much one joint of a shop differs from another (estimate of ours)."""
CLUBS_OF_A_SHOP = 5

BENCHES = {bench.name: bench for bench in (PLAIN, THRICE, WEIGHED_JOINT, CAREFUL, UNCHECKED)}
USUAL = ("plain", "thrice", "careful")

TRAY_TOP_G = 8.0
"""Heaviest weight of the tray."""
