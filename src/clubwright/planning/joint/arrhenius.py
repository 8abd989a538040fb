"""Arrhenius arithmetic for checking a data sheet's table of cure times: never a way around its lowest row.

Below about 10 C an epoxy can stop curing altogether, and this formula does not know it (Int. J. Adhesion Adhesives 35
(2012) 9). Release times come from the table alone: ``clubwright.planning.joint.cure``. Derivation: docs/theory/adhesive.md.
"""

from __future__ import annotations

from math import exp, log

from clubwright.planning.number_checks import positive, refuse

GAS_CONSTANT_J_MOL_K = 8.314462618
"""Molar gas constant: CODATA 2018, exact to the digits given since the SI of 2019."""

_SHEET = "Give the two rows of the data sheet in seconds and kelvin."


def activation_energy_j_mol(time_1_s: float, temperature_1_k: float, time_2_s: float, temperature_2_k: float) -> float:
    """Return the activation energy that two isothermal times to the same state of cure imply.

    ``E = R ln(t1 / t2) / (1 / T1 - 1 / T2)``.

    Raises:
        InputError: A number is not above zero, or the two temperatures are the same.
    """
    findings = [
        finding
        for name, value in (
            ("first time", time_1_s),
            ("first temperature", temperature_1_k),
            ("second time", time_2_s),
            ("second temperature", temperature_2_k),
        )
        for finding in positive(name, value, _SHEET)
    ]
    if temperature_1_k == temperature_2_k:
        findings += positive("difference of the two temperatures", 0.0, _SHEET)
    refuse(findings)
    return GAS_CONSTANT_J_MOL_K * log(time_1_s / time_2_s) / (1 / temperature_1_k - 1 / temperature_2_k)


def rate_factor(temperature_1_k: float, temperature_2_k: float, energy_j_mol: float) -> float:
    """Return how many times faster the cure runs at the second temperature than at the first."""
    return exp(energy_j_mol / GAS_CONSTANT_J_MOL_K * (1 / temperature_1_k - 1 / temperature_2_k))


def equivalent_time_s(time_s: float, temperature_1_k: float, temperature_2_k: float, energy_j_mol: float) -> float:
    """Return the time at the second temperature that does what `time_s` does at the first."""
    return time_s / rate_factor(temperature_1_k, temperature_2_k, energy_j_mol)
