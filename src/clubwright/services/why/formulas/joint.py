"""What stands behind the figures of the joint: bond line, strength, mix, and release."""

from __future__ import annotations

from clubwright.planning.joint.adhesive import plan_mix, ratio_by_weight, smallest_batch_kg
from clubwright.planning.joint.cure import release_time, released
from clubwright.planning.joint.fit import fit_of
from clubwright.planning.joint.mix_check import pot_life_left
from clubwright.planning.joint.stress import bond_line_volume_m3, joint_sanity
from clubwright.services.why.formulas.formulas import Formula, Wanted, outside

_ADHESIVE: Wanted = (
    ("adhesive", "ratio"),
    ("adhesive", "basis"),
    ("adhesive", "density_a"),
    ("adhesive", "density_b"),
    ("adhesive", "per_joint"),
    ("adhesive", "joints"),
    ("adhesive", "waste"),
    ("adhesive", "scale_error"),
)
_JOINT: Wanted = (
    ("shaft", "tip_diameter"),
    ("head", "bore_diameter"),
    ("shim", "thickness"),
    ("adhesive", "bond_line_min"),
    ("adhesive", "bond_line_max"),
    ("shop", "decision_rule"),
)

FIT = Formula(
    name="clearance and bond line of the joint",
    equation="c = D - d - 2 t, g = c / (2 n), u(c) = sqrt(u(D)^2 + u(d)^2 + (2 u(t))^2)",
    page="adhesive.md",
    section="tip-bore-and-bond-line",
    function=fit_of,
    checks=outside("joint_fit"),
    inputs=_JOINT,
)
STRENGTH = Formula(
    name="bond area, pull of the swing, reserve",
    equation="A = pi d l, F = tau A, P = m v^2 / r, reserve = F / P",
    page="adhesive.md",
    section="the-joints-static-strength",
    function=joint_sanity,
    checks=outside("adhesive"),
    inputs=(("shaft", "tip_diameter"), ("head", "bore_depth"), ("head", "mass")),
)
FILLED = Formula(
    name="adhesive that fills the clearance",
    equation="V = pi (D + d) / 2 (c / 2) l",
    page="adhesive.md",
    section="tip-bore-and-bond-line",
    function=bond_line_volume_m3,
    checks=outside("joint_fit"),
    inputs=(("head", "bore_depth"),),
)
RATIO = Formula(
    name="masses of both parts",
    equation="r = (a rho_A) / (b rho_B), m_B = m / (1 + r), m_A = m - m_B; by weight r = a / b",
    page="adhesive.md",
    section="ratio-and-its-basis",
    function=ratio_by_weight,
    checks=outside("adhesive"),
    inputs=_ADHESIVE,
)
BATCH = Formula(
    name="what the joints need, waste included",
    equation="m = joints x per joint x (1 + waste); into the cup goes the larger of m and the smallest batch",
    page="adhesive.md",
    section="the-smallest-batch",
    function=plan_mix,
    checks=outside("adhesive"),
)
SMALLEST = Formula(
    name="smallest batch on this scale",
    equation="m_min = (u / p) (1 + max(r, 1 / r))",
    page="adhesive.md",
    section="the-smallest-batch",
    function=smallest_batch_kg,
    checks=outside("adhesive"),
)
POT = Formula(
    name="pot life",
    equation="left = the sheet's time - time since the parts met",
    page="adhesive.md",
    section="pot-life",
    function=pot_life_left,
    checks=outside("adhesive"),
    inputs=(("adhesive", "pot_life"),),
)
RELEASE = Formula(
    name="release time",
    equation="ln t(T) = ln t_1 + (T - T_1) / (T_2 - T_1) (ln t_2 - ln t_1)",
    page="adhesive.md",
    section="release-time",
    function=release_time,
    checks=outside("adhesive"),
    inputs=(("adhesive", "temperature"), ("adhesive.release", ""), ("shaft", "material")),
)
CURED = Formula(
    name="share of the cure",
    equation="share = sum(dt_i / t(T_i)); released at 1",
    page="adhesive.md",
    section="a-joint-that-saw-several-temperatures",
    function=released,
    checks=outside("adhesive", "bench_figures"),
    inputs=(("adhesive.release", ""),),
)
