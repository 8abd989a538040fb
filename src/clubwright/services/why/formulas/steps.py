"""What stands behind the figures of each step's card, and behind the checks of each gate: one entry for each.

A step whose figures are those of the ticket, as typed, has no formula. What a gauge should show there has an entry of
its own (``expected/STEP/STAGE/QUANTITY``).
"""

from __future__ import annotations

from clubwright.belief.family import forecast_next
from clubwright.club.bounce import bounce_after_loft_bend_rad
from clubwright.club.grip_size import outside_diameter_m
from clubwright.club.loft_lie import face_direction_rad
from clubwright.club.shaft import trimmed
from clubwright.club.swing_weight import swing_weight_points
from clubwright.planning.advice.trim_planner import plan_trims
from clubwright.planning.bending.metals import limit_for
from clubwright.planning.bending.plan import plan_bends
from clubwright.planning.gates.types import GateKey
from clubwright.planning.grip.build_up import plan_build_up
from clubwright.planning.set_slope import set_slope
from clubwright.planning.steps.minutes import times_of
from clubwright.planning.steps.types import StepKey
from clubwright.services.why.formulas.formulas import BOX, CHANCE, CUT, RANK, Formula, Wanted, outside, quantity_formula
from clubwright.services.why.formulas.joint import (
    BATCH,
    CURED,
    FILLED,
    FIT,
    POT,
    RATIO,
    RELEASE,
    SMALLEST,
    STRENGTH,
)

_GRIP: Wanted = (
    ("grip", "core"),
    ("grip", "core_taper"),
    ("grip", "diameter_2in"),
    ("grip", "diameter_6in"),
    ("grip", "build_up_blend"),
    ("shaft", "butt_diameter"),
    ("shaft", "lower_diameter"),
    ("tape", ""),
)

LAYERS = Formula(
    name="wraps of build-up tape, and the diameter with them",
    equation="whole layers with the least sum of ((D - target) / tolerance)^2; D = b D_add + (1 - b) D_vol",
    page="grip-size.md",
    section="from-a-target-back-to-the-layers",
    function=plan_build_up,
    checks=outside("grip_size", "bench_figures"),
    inputs=_GRIP,
)
DIAMETER = Formula(
    name="diameter over the tape, with its band",
    equation="D_add = u + (D0 - c) / (1 + s), D_vol = sqrt(u^2 + (D0^2 - c^2) / (1 + s)), u = butt + 2 tape",
    page="grip-size.md",
    section="two-models",
    function=outside_diameter_m,
    checks=outside("grip_size"),
)
BEND = Formula(
    name="bends, and what they leave behind",
    equation="bend = target - angle now; the axis' ground point moves by k (sin a / sin(a + e) - 1)",
    page="bending.md",
    section="three-bends",
    function=plan_bends,
    checks=outside("bending", "bent_head", "bench_figures"),
    inputs=(("target", "loft"), ("target", "lie"), ("head", "loft"), ("head", "lie"), ("head", "metal")),
)
LIMIT = Formula(
    name="how far this metal is bent",
    equation="routine limit of the metal, less what was bent before; totals for the life of the head",
    page="bending.md",
    section="how-far",
    function=limit_for,
    checks=outside("bending"),
    inputs=(("head", "metal"), ("head", "bent_loft"), ("head", "bent_lie")),
)
BOUNCE = Formula(
    name="bounce after a loft bend",
    equation="bounce after = bounce + change of loft",
    page="loft-lie-bounce.md",
    section="bounce",
    function=bounce_after_loft_bend_rad,
    checks=outside("loft_lie"),
    inputs=(("head", "bounce"),),
)
MISS = Formula(
    name="where the face points with a lie that does not fit",
    equation="face direction = atan(tan L sin d)",
    page="loft-lie-bounce.md",
    section="a-lie-that-does-not-fit",
    function=face_direction_rad,
    checks=outside("loft_lie"),
    inputs=(("target", "lie"), ("head", "lie"), ("head", "loft")),
)
WITHOUT = Formula(
    name="what a missing grip is worth on the swing weight",
    equation="S(without) - S(with) = -sum over grip and tape of m (x - F) / p - W0 c / p",
    page="plan.md",
    section="what-a-missing-grip-is-worth",
    function=swing_weight_points,
    checks=outside("bench_examples"),
    inputs=(("grip", "mass"), ("grip", "cap"), ("tape", "")),
)

MINUTES = Formula(
    name="minutes of the work, and what of them is left",
    equation="work = sum of the minutes of the steps; left = the same over those that are not done; the cure apart",
    page="plan.md",
    section="minutes",
    function=times_of,
    checks=outside("minutes"),
)
TRIMMED = Formula(
    name="mass and balance of the shaft after its cuts",
    equation="m = m0 - dt t - db c, m b' = m0 b0 - dt t (t / 2) - db c (L0 - c / 2), b = b' - t",
    page="shaft.md",
    section="two-cuts",
    function=trimmed,
    checks=outside("shaft"),
)
TRIMS = Formula(
    name="what a tip trim would do",
    equation="butt cut = raw length - t - (length - bore to ground - lift - cap)",
    page="frequency.md",
    section="trims-sets-and-what-a-reading-teaches",
    function=plan_trims,
    checks=outside("frequency_tickets"),
)
SLOPE = Formula(
    name="slope of the set",
    equation="slope = sum (L - mean L)(f - mean f) / sum (L - mean L)^2",
    page="frequency.md",
    section="trims-sets-and-what-a-reading-teaches",
    function=set_slope,
    checks=outside("frequency_tickets"),
)
FAMILY = Formula(
    name="what the family says of the next shaft",
    equation="V(s) = 1 / (1/s0^2 + sum 1/v_i), M(s) = V (m0/s0^2 + sum y_i/v_i); mean = E[M], integrated over s",
    page="family.md",
    section="the-model",
    function=forecast_next,
    checks=outside("family"),
)
SHAFT: tuple[Formula, ...] = (quantity_formula("frequency"), TRIMMED, TRIMS, BOX, SLOPE, FAMILY)
"""Formulas behind the page of the shaft."""

STEPS: dict[StepKey, tuple[Formula, ...]] = {
    "head check": (MISS, FIT),
    "bore to ground": (CUT,),
    "loft and lie": (BEND, LIMIT, BOUNCE, MISS, CHANCE),
    "tip trim": (quantity_formula("frequency"), BOX),
    "dry fit": (FIT, CUT),
    "mark and cut": (CUT,),
    "tape": (LAYERS, DIAMETER, WITHOUT),
    "dry reading": (WITHOUT, quantity_formula("swing_weight")),
    "choose weight": (BOX, RANK),
    "mix": (RATIO, BATCH, SMALLEST, POT),
    "glue": (STRENGTH, FIT, FILLED),
    "cure": (RELEASE, CURED),
    "strip grip": (WITHOUT, quantity_formula("swing_weight"), quantity_formula("total_weight")),
    "grip": (LAYERS, DIAMETER, WITHOUT),
    "inspect": (MISS,),
}
"""Formulas behind the figures of a step's card, the figure to act on first."""

GATES: dict[GateKey, tuple[Formula, ...]] = {
    "cut": (CUT,),
    "glue": (FIT, BOX),
    "release": (CURED, RELEASE),
}
"""Formulas behind the checks of a gate."""
