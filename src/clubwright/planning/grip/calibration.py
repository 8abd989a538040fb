"""The shop's own place between the two models of a grip, from finished grips that were measured.

With ``y = D - D_constant_volume`` and ``x = D_additive - D_constant_volume`` the blend is the slope of a line through the
origin. Derivation: docs/theory/grip-size.md; the line is checked against a certified data set in
tests/published/test_published_grip_size.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, sqrt

import msgspec
import numpy as np
from numpy.typing import ArrayLike

from clubwright.club.grip_size import outside_diameter_m
from clubwright.errors import Finding, InputError
from clubwright.notation import render
from clubwright.planning.number_checks import not_negative, positive, refuse

CALIPER_ON_RUBBER_SD_M = 1e-4
"""Standard deviation of a caliper reading on rubber, which gives under the jaws: from memory, no source."""


class GripSizeReading(msgspec.Struct, frozen=True, kw_only=True):
    """One finished grip, measured after it has dried.

    Attributes:
        core_m: Inside diameter the grip is made for at the place measured.
        nominal_m: Outside diameter there on a butt that equals the core.
        butt_m: Diameter of the bare shaft there.
        tape_thickness_m: All tape under the grip, one side.
        measured_m: Outside diameter read.
        stretch: Share by which the grip was pulled longer.
    """

    core_m: float
    nominal_m: float
    butt_m: float
    tape_thickness_m: float
    measured_m: float
    stretch: float = 0.0


class BlendFit(msgspec.Struct, frozen=True, kw_only=True):
    """The shop's ``build_up_blend``.

    Attributes:
        blend: 0 for constant volume, 1 for additive.
        sd: Its standard deviation: from the scatter of the readings or from the caliper, whichever is larger.
        readings: How many readings it rests on.
        findings: What does not fit.
    """

    blend: float
    sd: float
    readings: int
    findings: tuple[Finding, ...] = ()


def slope_through_origin(x: ArrayLike, y: ArrayLike) -> tuple[float, float]:
    """Return the least-squares slope of ``y = b x`` and its standard deviation.

    ``b = sum(x y) / sum(x^2)``, ``sd = sqrt(sum((y - b x)^2) / (n - 1) / sum(x^2))``; the standard deviation is infinite
    for a single point.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    sum_xx = float(xs @ xs)
    slope = float(xs @ ys) / sum_xx
    residuals = ys - slope * xs
    freedom = xs.size - 1
    return slope, sqrt(float(residuals @ residuals) / freedom / sum_xx) if freedom else inf


def calibrate_blend(readings: Sequence[GripSizeReading], *, reading_sd_m: float = CALIPER_ON_RUBBER_SD_M) -> BlendFit:
    """Return where the shop's grips lie between the two models, by least squares.

    Args:
        readings: Finished grips; at least one must be opened up beyond its core, or the models do not differ.
        reading_sd_m: Standard deviation of one reading of the outside diameter.

    Raises:
        InputError: No reading, a number that cannot be one, or readings that do not tell the models apart.
    """
    findings = positive(
        "standard deviation of a reading", reading_sd_m, "Read one grip five times and take the spread."
    )
    for number, reading in enumerate(readings, start=1):
        findings += reading_findings(f"grip reading {number}", reading)
    refuse(findings)
    constant = np.array([_diameter(reading, 0.0) for reading in readings])
    apart = np.array([_diameter(reading, 1.0) for reading in readings]) - constant
    over = np.array([reading.measured_m for reading in readings]) - constant
    if apart.size == 0 or float(np.max(np.abs(apart))) < reading_sd_m / 10:
        what = "no reading tells the two models apart" if readings else "no readings"
        mend = "Measure a grip over several layers of tape, or one whose core differs from the butt."
        raise InputError([Finding(where="grip readings", what=what, mend=mend)])
    blend, scatter_sd = slope_through_origin(apart, over)
    caliper_sd = reading_sd_m / sqrt(float(apart @ apart))
    sd = caliper_sd if scatter_sd == inf else max(scatter_sd, caliper_sd)
    return BlendFit(blend=blend, sd=sd, readings=len(readings), findings=_beyond(blend, sd))


def ticket_line(fit: BlendFit) -> str:
    """Return the line for the ticket's ``[grip]`` table; its uncertainty is never rounded down to nothing."""
    return f'build_up_blend = "{fit.blend:.2f} ± {max(fit.sd, 0.01):.2f}"'


def _diameter(reading: GripSizeReading, blend: float) -> float:
    diameter_m = outside_diameter_m(
        reading.core_m, reading.nominal_m, reading.butt_m, reading.tape_thickness_m, blend, reading.stretch
    )
    return float(diameter_m.real)


def _beyond(blend: float, sd: float) -> tuple[Finding, ...]:
    if -2 * sd <= blend <= 1 + 2 * sd:
        return ()
    return (
        Finding(
            where="grip readings",
            what=f"the blend {blend:.2f} with standard deviation {sd:.2f} lies beyond both models (0 to 1)",
            mend="Measure the tape's thickness, the butt, and the grip's size on a butt that equals its core.",
            severity="warning",
        ),
    )


def reading_findings(where: str, reading: GripSizeReading) -> list[Finding]:
    """Return what cannot be about one reading; `where` begins each finding."""
    caliper = "Measure it again with the caliper."
    findings = not_negative(f"{where}, tape", reading.tape_thickness_m, caliper)
    findings += positive(f"{where}, core", reading.core_m, caliper)
    findings += positive(f"{where}, butt", reading.butt_m, caliper)
    findings += positive(f"{where}, measured diameter", reading.measured_m, caliper)
    findings += positive(f"{where}, nominal diameter", reading.nominal_m, caliper)
    if not findings and not reading.nominal_m > reading.core_m:
        nominal, core = render("diameter", reading.nominal_m), render("diameter", reading.core_m)
        what = f"a nominal size of {nominal} leaves no wall over a core of {core}"
        findings.append(Finding(where=f"{where}, wall", what=what, mend=caliper))
    findings += positive(f"{where}, 1 + stretch", 1 + reading.stretch, "Give the share it was pulled longer.")
    return findings
