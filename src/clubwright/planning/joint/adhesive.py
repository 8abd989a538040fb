"""Two-part adhesive: how much of each part to weigh, whether the scale can weigh it, and how long the cup stays usable.

A ratio means nothing without its basis. 2:1 by volume of one product is 100:44 by weight; whoever weighs 2:1 puts in
13.6 % too much hardener. So the basis is always asked, and a volume ratio needs both densities from the data sheet.
Derivation and sources: docs/theory/adhesive.md; checked in tests/published/test_published_adhesive.py.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import Finding, clause_finding
from clubwright.planning.number_checks import not_negative, positive, refuse
from clubwright.planning.said.findings import SaidFinding
from clubwright.planning.said.phrases import Amount, phrase
from clubwright.units import GRAM_KG

ALLOWED_RATIO_ERROR = 0.05
"""Mix within +/-5 % of the ratio: permabond.com, guidance on the mix ratio of two-component epoxies."""
EXOTHERM_MASS_KG = 50 * GRAM_KG
"""Above this mass in one cup the heat of the reaction matters: an adhesive maker's public page on epoxies."""
WASTE_SHARE = 0.25
"""Left in the cup and on the stick, on top of what goes to the joints: common practice, no source."""

_SHEET = "Read it on the data sheet of the adhesive on the bench."
_EQUAL = 1 + 1e-9  # a limit met exactly is met, whatever the last bit says


class MixRatio(msgspec.Struct, frozen=True, kw_only=True):
    """The mix ratio as the data sheet prints it.

    Attributes:
        part_a: Parts of A (usually the resin).
        part_b: Parts of B (usually the hardener).
        basis: What the parts are parts of. Never assumed.
        density_a_kg_m3: Density of A; needed when the basis is volume.
        density_b_kg_m3: Density of B; needed when the basis is volume.
    """

    part_a: float
    part_b: float
    basis: Literal["weight", "volume"]
    density_a_kg_m3: float | None = None
    density_b_kg_m3: float | None = None


class MixPlan(msgspec.Struct, frozen=True, kw_only=True):
    """What to put in the cup.

    Attributes:
        part_a_kg: Mass of part A to weigh.
        part_b_kg: Mass of part B to weigh.
        batch_kg: Both together, waste included.
        ratio_by_weight: Mass of A for each unit mass of B.
        scale_share: The scale's error as a share of the smaller part.
        worst_ratio_error: Largest error of the ratio when both weighings are off by the scale's error, against each other.
        smallest_batch_kg: Smallest batch this scale can weigh to the allowed error of the smaller part.
        enough: The batch is not below the smallest one.
        cup_a_kg: Mass of part A to weigh into the cup: of the batch, or of the smallest batch where that is more.
        cup_b_kg: Mass of part B to weigh into the cup, in the same ratio.
        findings: What to know or to mend before mixing.
    """

    part_a_kg: float
    part_b_kg: float
    batch_kg: float
    ratio_by_weight: float
    scale_share: float
    worst_ratio_error: float
    smallest_batch_kg: float
    enough: bool
    cup_a_kg: float
    cup_b_kg: float
    findings: tuple[Finding, ...] = ()


def ratio_by_weight(ratio: MixRatio) -> float:
    """Return the mass of A for each unit mass of B.

    By volume: ``m_A / m_B = (V_A rho_A) / (V_B rho_B)``.

    Raises:
        InputError: A part is not above zero, or the basis is volume and a density is missing or not above zero.
    """
    where = "adhesive ratio"
    findings = positive(f"{where}, part A", ratio.part_a, _SHEET) + positive(f"{where}, part B", ratio.part_b, _SHEET)
    if ratio.basis == "weight":
        refuse(findings)
        return ratio.part_a / ratio.part_b
    densities: list[float] = []
    for name, density in (("A", ratio.density_a_kg_m3), ("B", ratio.density_b_kg_m3)):
        place = f"adhesive density of part {name}"
        if density is None:
            missing = f"the density of part {name} is not known, and the ratio is by volume"
            key = f"[adhesive] density_{name.lower()}"
            clause = f"read it on the data sheet and write {key}, or write the sheet's ratio by weight"
            findings.append(clause_finding(place, missing, clause))
        else:
            findings += positive(place, density, _SHEET)
            densities.append(density)
    refuse(findings)
    density_a, density_b = densities
    return ratio.part_a * density_a / (ratio.part_b * density_b)


def smallest_batch_kg(
    weight_ratio: float, *, scale_error_kg: float, allowed_error: float = ALLOWED_RATIO_ERROR
) -> float:
    """Return the batch in which the scale's error is just the allowed share of the smaller part.

    Args:
        weight_ratio: Mass of A for each unit mass of B.
        scale_error_kg: Half-width of what the scale may be wrong by.
        allowed_error: Allowed error as a share of the smaller part.
    """
    small_kg = scale_error_kg / allowed_error
    large_per_small = max(weight_ratio, 1 / weight_ratio)
    return small_kg * (1 + large_per_small)


def plan_mix(
    ratio: MixRatio,
    *,
    joints: int,
    per_joint_kg: float,
    scale_error_kg: float,
    waste_share: float = WASTE_SHARE,
    allowed_error: float = ALLOWED_RATIO_ERROR,
) -> MixPlan:
    """Plan one cup for so many joints.

    Args:
        ratio: The data sheet's ratio with its basis.
        joints: Number of joints, 1 or more.
        per_joint_kg: Adhesive mixed for each joint, before waste.
        scale_error_kg: Half-width of what the scale may be wrong by, above zero.
        waste_share: What is left in the cup, as a share of the joints' need.
        allowed_error: Allowed error of the ratio, 0 to 1.

    Raises:
        InputError: A number cannot be one, or a density is missing.
    """
    findings = positive("adhesive joints", joints, "Count the joints to be glued from this mix.")
    findings += positive("adhesive for each joint", per_joint_kg, "Give the mass mixed for each joint, e.g. 1.2 g.")
    findings += positive("error of the scale", scale_error_kg, "Give what the gram scale may be wrong by, e.g. 0.1 g.")
    findings += not_negative("adhesive waste", waste_share, "Give the share left in the cup, e.g. 0.25.")
    findings += positive("allowed error of the ratio", allowed_error, "Give a share such as 0.05.")
    refuse(findings)
    weight_ratio = ratio_by_weight(ratio)
    batch_kg = joints * per_joint_kg * (1 + waste_share)
    part_b_kg = batch_kg / (1 + weight_ratio)
    part_a_kg = batch_kg - part_b_kg
    small_kg, large_kg = sorted((part_a_kg, part_b_kg))
    smallest_kg = smallest_batch_kg(weight_ratio, scale_error_kg=scale_error_kg, allowed_error=allowed_error)
    cup_kg = max(batch_kg, smallest_kg)
    plan = MixPlan(
        part_a_kg=part_a_kg,
        part_b_kg=part_b_kg,
        batch_kg=batch_kg,
        ratio_by_weight=weight_ratio,
        scale_share=scale_error_kg / small_kg,
        worst_ratio_error=_worst_ratio_error(large_kg, small_kg, scale_error_kg),
        smallest_batch_kg=smallest_kg,
        enough=batch_kg * _EQUAL >= smallest_kg,
        cup_a_kg=cup_kg - cup_kg / (1 + weight_ratio),
        cup_b_kg=cup_kg / (1 + weight_ratio),
    )
    return msgspec.structs.replace(plan, findings=_findings(plan, allowed_error))


def _worst_ratio_error(large_kg: float, small_kg: float, error_kg: float) -> float:
    if error_kg >= small_kg:
        return float("inf")
    return (large_kg + error_kg) / (small_kg - error_kg) * (small_kg / large_kg) - 1


def _grams(mass_kg: float) -> Amount:
    return Amount("mass", mass_kg, form="hundredths of grams")


def _share(share: float) -> Amount:
    return Amount("number", share, form="tenths of percent")


def _findings(plan: MixPlan, allowed_error: float) -> tuple[Finding, ...]:
    found: list[Finding] = []
    batch = f"{plan.batch_kg / GRAM_KG:.2f} g"
    if not plan.enough:
        found.append(
            SaidFinding(
                said=phrase(
                    "mix.batch small",
                    batch=_grams(plan.batch_kg),
                    share=_share(plan.scale_share),
                    allowed=_share(allowed_error),
                    least=_grams(plan.smallest_batch_kg),
                ),
                where="adhesive batch",
                what=f"in {batch} the scale's error is {plan.scale_share:.1%} of the smaller part, "
                f"more than the {allowed_error:.1%} allowed",
                mend=f"Mix at least {plan.smallest_batch_kg / GRAM_KG:.2f} g, or use a finer scale or a cartridge "
                "that meters both parts.",
            )
        )
    elif plan.worst_ratio_error > allowed_error * _EQUAL:
        found.append(
            SaidFinding(
                said=phrase("mix.ratio off", off=_share(plan.worst_ratio_error)),
                where="adhesive batch",
                what=f"if both weighings are off against each other the ratio is off by {plan.worst_ratio_error:.1%}",
                mend="Weigh both parts into one cup on the same scale, or mix more.",
                severity="warning",
            )
        )
    if plan.batch_kg > EXOTHERM_MASS_KG * _EQUAL:
        found.append(
            Finding(
                where="adhesive batch",
                what=f"{batch} in one cup: above about {EXOTHERM_MASS_KG / GRAM_KG:.0f} g the mix can heat itself up, "
                "go off early and smoke",
                mend="Mix several small cups, one after the other, and spread a cup out flat.",
                severity="warning",
            )
        )
    return tuple(found)
