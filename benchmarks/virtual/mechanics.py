"""The mechanics of a true club, written out here a second time so that the program is not its own judge.

Statics in plain arithmetic: every part's mass times its distance from what the butt stop touches. Nothing here comes from
`clubwright.club`; tests/bench/test_virtual_bench.py holds the two against each other.
"""

from __future__ import annotations

from dataclasses import dataclass

INCH_M = 0.0254
OUNCE_KG = 0.028349523125
OUNCE_INCH_KG_M = OUNCE_KG * INCH_M

GRIPPED = ("dry, gripped", "finished")
TAPED = ("dry, taped", *GRIPPED)


@dataclass(kw_only=True)
class Parts:
    """One club's numbers in SI: the true ones, or those the clubmaker goes by. Places count up from the ground point."""

    head_kg: float
    head_cg_m: float
    bore_to_ground_m: float
    bore_depth_m: float
    shaft_kg: float
    raw_m: float
    balance_m: float
    tip_trim_m: float
    tip_density_kg_m: float
    butt_density_kg_m: float
    cut_m: float
    grip_kg: float
    grip_cg_m: float
    cap_m: float
    tape_kg: float
    tape_cg_m: float
    ferrule_kg: float
    ferrule_m: float
    adhesive_kg: float
    port_m: float
    weights_kg: list[float]


def weighed(parts: Parts, stage: str, fitted: int | None) -> tuple[float, float]:
    """Return total mass (kg) and swing weight (points above A0) at a stage, with one weight of the tray or none."""
    tip = parts.bore_to_ground_m
    butt = tip + parts.cut_m
    cap_face = butt + parts.cap_m
    stop = cap_face if stage in GRIPPED else butt
    hosel_top = tip + parts.bore_depth_m
    offcut = parts.raw_m - parts.tip_trim_m - parts.cut_m
    tip_off, butt_off = parts.tip_density_kg_m * parts.tip_trim_m, parts.butt_density_kg_m * offcut
    shaft = parts.shaft_kg - tip_off - butt_off
    about_raw_tip = (
        parts.shaft_kg * parts.balance_m
        - tip_off * parts.tip_trim_m / 2
        - butt_off * (parts.tip_trim_m + parts.cut_m + offcut / 2)
    )
    shaft_place = tip + about_raw_tip / shaft - parts.tip_trim_m
    on = [
        (parts.head_kg, parts.head_cg_m),
        (shaft, shaft_place),
        (parts.ferrule_kg, hosel_top + parts.ferrule_m / 2),
    ]
    if fitted is not None:
        on.append((parts.weights_kg[fitted], parts.port_m))
    if stage in TAPED:
        on.append((parts.tape_kg, cap_face - parts.tape_cg_m))
    if stage in GRIPPED:
        on.append((parts.grip_kg, cap_face - parts.grip_cg_m))
    if stage == "finished":
        on.append((parts.adhesive_kg, tip + parts.bore_depth_m / 2))
    mass = sum(m for m, _ in on)
    moment = sum(m * (stop - place - 14 * INCH_M) for m, place in on)
    return mass, (moment / OUNCE_INCH_KG_M - 161.0) / 1.75
