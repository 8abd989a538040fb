"""A cup that has been weighed: how far it is off the ratio, what to add, and how long it may still be used.

Derivation and sources: docs/theory/adhesive.md; checked in tests/published/test_published_adhesive.py.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import Finding, InputError, clause_finding
from clubwright.planning.joint.adhesive import ALLOWED_RATIO_ERROR
from clubwright.planning.number_checks import not_negative, positive, refuse


class MixCheck(msgspec.Struct, frozen=True, kw_only=True):
    """What the weighed cup is.

    Attributes:
        part_b_error: Too much of part B as a share of what part A asks for; negative when there is too little.
        within: The error is not above the allowed one.
        add: The part to add to meet the ratio, while nothing has been stirred.
        add_kg: How much of it.
    """

    part_b_error: float
    within: bool
    add: Literal["A", "B"]
    add_kg: float


class PotLife(msgspec.Struct, frozen=True, kw_only=True):
    """How long the mixed cup may still be used.

    Attributes:
        remaining_s: Time left, never below zero.
        usable: There is time left.
        findings: Why the data sheet's time may be too long here.
        reasons: The same by their keys: ``over``, ``warmer`` than the sheet, ``more`` than the sheet's mass.
    """

    remaining_s: float
    usable: bool
    findings: tuple[Finding, ...] = ()
    reasons: tuple[str, ...] = ()


def check_mix(
    part_a_kg: float, part_b_kg: float, weight_ratio: float, *, allowed_error: float = ALLOWED_RATIO_ERROR
) -> MixCheck:
    """Compare what was weighed with the ratio by weight (mass of A for each unit mass of B).

    Raises:
        InputError: A mass or the ratio is not above zero.
    """
    again = "Read the display again; tare with the empty cup."
    refuse(
        positive("mass of part A", part_a_kg, again)
        + positive("mass of part B", part_b_kg, again)
        + positive("ratio by weight", weight_ratio, "Take it from the data sheet.")
    )
    wanted_b_kg = part_a_kg / weight_ratio
    error = part_b_kg / wanted_b_kg - 1
    add: Literal["A", "B"] = "A" if error > 0 else "B"
    add_kg = part_b_kg * weight_ratio - part_a_kg if error > 0 else wanted_b_kg - part_b_kg
    return MixCheck(part_b_error=error, within=abs(error) <= allowed_error * (1 + 1e-9), add=add, add_kg=add_kg)


def pot_life_left(
    pot_life_s: float | None,
    elapsed_s: float,
    *,
    sheet_temperature_k: float | None = None,
    temperature_k: float | None = None,
    sheet_mass_kg: float | None = None,
    batch_kg: float | None = None,
) -> PotLife:
    """Return what is left of the pot life, by the data sheet's time and the time since the parts met.

    Args:
        pot_life_s: The data sheet's pot life.
        elapsed_s: Time since the two parts first met.
        sheet_temperature_k: Temperature the data sheet gives its pot life at.
        temperature_k: Temperature at the bench.
        sheet_mass_kg: Mass of the mix the data sheet gives its pot life for.
        batch_kg: Mass in the cup.

    Raises:
        InputError: The pot life is not known, or a time cannot be one.
    """
    sheet = "Read the pot life on the data sheet before mixing; it is not guessed here."
    if pot_life_s is None:
        raise InputError([Finding(where="adhesive pot life", what="not known", mend=sheet)])
    refuse(
        positive("adhesive pot life", pot_life_s, sheet)
        + not_negative("time since mixing", elapsed_s, "Give the time since the two parts met.")
    )
    remaining_s = max(0.0, pot_life_s - elapsed_s)
    found: list[Finding] = []
    reasons: list[str] = []
    if remaining_s == 0.0:
        reasons.append("over")
        found.append(_shorter("the pot life is over", "throw the mix away when it has cooled, and mix anew", "error"))
    if sheet_temperature_k is not None and temperature_k is not None and temperature_k > sheet_temperature_k:
        reasons.append("warmer")
        found.append(_shorter("the bench is warmer than the data sheet's temperature", "expect less time than this"))
    if sheet_mass_kg is not None and batch_kg is not None and batch_kg > sheet_mass_kg:
        reasons.append("more")
        found.append(_shorter("the mix is more than the data sheet's mass", "expect less time than this"))
    return PotLife(remaining_s=remaining_s, usable=remaining_s > 0.0, findings=tuple(found), reasons=tuple(reasons))


def _shorter(what: str, clause: str, severity: Literal["error", "warning"] = "warning") -> Finding:
    return clause_finding("adhesive pot life", what, clause, severity)
