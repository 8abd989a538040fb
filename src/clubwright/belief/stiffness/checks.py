"""What cannot be about readings of a shaft's stiffness, and which of them contradict the others."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

import numpy as np

from clubwright.belief.gaussian import Vector
from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.club.frequency import SHORTEST_FREE_M
from clubwright.club.parts import Shaft
from clubwright.errors import Finding
from clubwright.notation import render
from clubwright.units import Number

FAR = 4.0
"""Standard deviations from which a reading counts as contradicting: one good reading in 16,000."""
FAR_FROM_ANY = 5.0
"""Standard deviations of the prior from which no shaft gives such a reading."""
LARGEST_SHARE = 0.25
"""Of the free length: beyond this deflection the beam's small slopes no longer hold (some 4 % off at a quarter)."""
COARSEST = 0.2
"""A gauge's standard deviation as a share of its reading."""
FEW = 3
ONE_PLACE_M = 0.025
"""Clamp positions closer together than this say one and the same thing."""


def reading_findings(shaft: Shaft, readings: Sequence[StiffnessReading]) -> list[Finding]:
    """Return what is wrong with shaft and readings, and what is worth knowing of them as a set."""
    findings = _shaft_findings(shaft)
    if findings:
        return findings
    for reading in readings:
        findings += _one(shaft, reading)
    if len(readings) < 2:
        what = f"{len(readings) or 'no'} reading{'s' if not readings else ''} cannot tell one end of a shaft from the other"
        mend = "Read the shaft at two clamp positions at least, far apart; a single one fits a stiffness factor."
        findings.append(Finding(where="stiffness readings", what=what, mend=mend))
        return findings
    places = [reading.clamp_length_m for reading in readings]
    if not findings and max(places) - min(places) < ONE_PLACE_M:
        what = "all readings are at one clamp position, so they teach one number of the shaft"
        mend = "Read again with the clamp nearer to the tip."
        findings.append(Finding(where="stiffness readings", what=what, mend=mend, severity="warning"))
    elif not findings and len(readings) < FEW:
        what = f"{len(readings)} readings leave most of the curve to what shafts are like in general"
        mend = "Read at three to six clamp positions."
        findings.append(Finding(where="stiffness readings", what=what, mend=mend, severity="warning"))
    return findings


def contradictions(
    readings: Sequence[StiffnessReading], seen: Vector, expected: Vector, sd: Vector, *, alone: bool
) -> list[Finding]:
    """Return the readings that lie too far from what is expected of them.

    Args:
        readings: What was read, n of them.
        seen: Logarithm of each, shape (n).
        expected: What it was expected to be.
        sd: Standard deviation of that.
        alone: Whether the expectation is that of any shaft; else it is that of the other readings.
    """
    findings = []
    for reading, z, h, s in zip(readings, seen, expected, sd, strict=True):
        if abs(z - h) <= (FAR_FROM_ANY if alone else FAR) * s:
            continue
        read = shown(reading, reading.value)
        value = float(np.exp(h))
        if alone:
            what = f"{read} is read, and shafts give {shown(reading, value, value * float(s))} there"
        else:
            what = f"{read} is read, and by the other readings it is {shown(reading, value, value * float(s))}"
        mend = "Look at its unit, clamp and mass, and read it again; else the other readings."
        findings.append(Finding(where=reading.where, what=what, mend=mend))
    return findings


def shown(reading: StiffnessReading, value: float, sd: float | None = None) -> str:
    """Write a value of a reading's kind in trade notation."""
    return render("frequency" if reading.kind == "frequency" else "length", value, sd)


def _shaft_findings(shaft: Shaft) -> list[Finding]:
    mass, balance, length, raw = (
        plain(value) for value in (shaft.mass_kg, shaft.balance_from_tip_m, shaft.length_m, shaft.raw_length_m)
    )
    findings = []
    if not (isfinite(mass) and mass > 0):
        findings.append(Finding(where="shaft mass", what=f"{mass!r} kg is no mass", mend="Weigh the shaft."))
    if not (isfinite(length) and isfinite(raw) and 2 * SHORTEST_FREE_M < length <= raw + 1e-9):
        what = f"a length of {length!r} m of {raw!r} m is no shaft"
        findings.append(Finding(where="shaft length", what=what, mend="Measure it from tip end to butt end."))
    elif not (isfinite(balance) and raw / 3 < balance < 2 * raw / 3):
        what = f"a balance point {balance!r} m from the tip of {raw!r} m is none a straight density has"
        mend = "Balance the shaft on an edge, and measure from the tip end."
        findings.append(Finding(where="shaft balance point", what=what, mend=mend))
    return findings


def _one(shaft: Shaft, reading: StiffnessReading) -> list[Finding]:
    """Return what cannot be about one reading."""
    where, findings = reading.where, []
    unit = "Hz" if reading.kind == "frequency" else "m"
    if not (isfinite(reading.value) and reading.value > 0):
        what = f"{reading.value!r} {unit} is no {reading.kind}"
        findings.append(Finding(where=where, what=what, mend="Read it again."))
    elif not (isfinite(reading.sd) and 0 < reading.sd <= COARSEST * reading.value):
        what = f"an uncertainty of {reading.sd!r} {unit} on {reading.value!r} {unit}"
        findings.append(
            Finding(where=where, what=what, mend="Give the gauge's standard deviation, such as 255 cpm ± 0.5.")
        )
    lightest = 0.0 if reading.kind == "deflection" else -1e-12
    if not (isfinite(reading.mass_kg) and lightest < reading.mass_kg <= 5):
        what = f"{reading.mass_kg!r} kg on the tip"
        findings.append(Finding(where=where, what=what, mend="Weigh what hangs on the tip."))
    insertion = reading.insertion_m if reading.kind == "frequency" else 0.0
    free = plain(shaft.length_m) - reading.clamp_length_m - insertion
    if not (isfinite(free) and insertion >= 0 and reading.clamp_length_m > 0 and free >= SHORTEST_FREE_M):
        what = f"a clamp edge {render_length(reading.clamp_length_m)} from the butt leaves {render_length(free)} free"
        mend = (
            f"Measure from the butt end to the clamp's edge; at least {render('length', SHORTEST_FREE_M)} stays free."
        )
        findings.append(Finding(where=where, what=what, mend=mend))
    elif reading.kind == "deflection" and reading.value > LARGEST_SHARE * free:
        what = f"{shown(reading, reading.value)} is over a quarter of the free length, where a beam is no longer linear"
        findings.append(Finding(where=where, what=what, mend="Hang less mass on the tip."))
    return findings


def plain(number: Number) -> float:
    """Return the one number of a shaft that is given with plain numbers."""
    return float(np.asarray(number).real)


def render_length(value_m: float) -> str:
    """Write a length, or the number as it is when it is none."""
    return render("length", value_m) if isfinite(value_m) else f"{value_m!r} m"
