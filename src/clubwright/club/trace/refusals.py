"""Records that are refused, each with what was found, what is needed, and what to do.

The limits are our own choices, explained in docs/theory/trace.md.
"""

from __future__ import annotations

import numpy as np

from clubwright.club.trace.model_choice import Choice, Judged
from clubwright.club.trace.record import Trace, clipping_findings
from clubwright.club.trace.span import Span
from clubwright.club.trace.spectrum import HIGHEST_HZ, LOWEST_HZ, STANDS_OUT, Line
from clubwright.errors import Finding

FEWEST_CYCLES = 6
PER_CYCLE = 8
"""Samples a cycle: below 20 higher modes are not filtered out but fitted along, where they show."""

LEAST_SIGNAL_TO_NOISE = 3.0
MOST_RELATIVE_SD = 0.005
LONGEST_GAP = 0.25
"""Share of the times of a record that may be one gap."""
SLOWEST_HZ = 40.0
"""Samples a second: below, what swings at 400 cpm may be the alias of what a shaft can do."""

CLOSE_ENOUGH = 0.002
"""Two modes that are not told apart but lie closer than this fraction are taken as one, with a wider uncertainty."""


def line_findings(
    trace: Trace, rate_hz: float, found: list[Line], band_hz: tuple[float, float] | None
) -> list[Finding]:
    """Return what speaks against looking for a frequency at all: the rate, and that nothing stands out."""
    needed = 2 * band_hz[1] if band_hz else SLOWEST_HZ
    findings = []
    if rate_hz < needed:
        what = f"sampled too slowly: {rate_hz:.4g} samples a second, and {needed:.3g} are needed"
        findings.append(_refused(trace, what, "Record with a higher rate: a swing must be told from its alias."))
    best = max((line.above_noise for line in found), default=0.0)
    if best < STANDS_OUT:
        low, high = band_hz or (LOWEST_HZ, HIGHEST_HZ)
        what = (
            f"too noisy: between {low * 60:.0f} and {high * 60:.0f} cpm the strongest line has {best:.2g} times the power "
            f"of the noise around it, and {STANDS_OUT:.0f} times is needed"
        )
        mend = "Pluck farther, record longer, and check that the sensor sits on the club."
        findings.append(_refused(trace, what, mend))
    return findings


def record_findings(trace: Trace, rate_hz: float, at_hz: float, band_hz: tuple[float, float] | None) -> list[Finding]:
    """Return what speaks against the record once the frequency is roughly known: clipping, rate and spacing."""
    findings = clipping_findings(trace, at_hz)
    needed = max(PER_CYCLE * at_hz, at_hz + HIGHEST_HZ) if band_hz is None else 2 * band_hz[1]
    if rate_hz < needed:
        what = (
            f"sampled too slowly: {rate_hz:.4g} samples a second at {at_hz * 60:.0f} cpm, and {needed:.4g} are needed"
        )
        mend = "Record with a higher rate: higher modes fold onto the frequency, or the frequency is itself an alias."
        findings.append(_refused(trace, what, mend))
    gap = 0.0 if trace.times_s is None else float(np.max(np.diff(trace.times_s)))
    if trace.times_s is not None and gap > LONGEST_GAP * float(trace.times_s[-1] - trace.times_s[0]):
        what = f"the record has a gap of {gap:.2g} s, more than a quarter of it"
        findings.append(_refused(trace, what, "Record again, and let nothing else run on the machine."))
    return findings


def span_findings(trace: Trace, span: Span, at_hz: float) -> list[Finding]:
    """Return the finding that too few cycles are left after the pluck and before the hand."""
    cycles = span.length_s * at_hz
    if cycles >= FEWEST_CYCLES - 0.25:  # the frequency is only roughly known yet
        return []
    missing = (FEWEST_CYCLES + 2 - cycles) / at_hz
    what = f"too short: {max(cycles, 0):.1f} free cycles at {at_hz * 60:.0f} cpm, and {FEWEST_CYCLES} are needed"
    return [
        _refused(
            trace, what, f"Let it swing at least {missing:.1f} s longer before it is stopped, or lessen the damping."
        )
    ]


def beat_findings(trace: Trace, span: Span, choice: Choice) -> list[Finding]:
    """Return the finding that two modes beat and cannot be told apart in so short a record."""
    if not choice.second_wanted or choice.second_resolved:
        return []
    one, two = choice.one.fit.modes[0], choice.two.fit.modes
    apart = abs(two[0].frequency_hz - two[1].frequency_hz)
    if apart <= CLOSE_ENOUGH * one.frequency_hz and one.decay_per_s > 0:
        return []
    needed = max(1.5 * span.length_s, min(1 / apart if apart > 0 else 0.0, 4 * span.length_s))
    what = f"two modes beat (the two bending planes), and {span.length_s:.1f} s cannot tell them apart"
    mend = (
        f"Record about {needed:.0f} s, a whole beat; or pluck straight in one plane. If it has died away by then, "
        "lessen the damping: bare clamp, no hands."
    )
    return [_refused(trace, what, mend)]


def fit_findings(trace: Trace, chosen: Judged, signal_to_noise: float) -> list[Finding]:
    """Return what speaks against the fit: it grows, it drowns in noise, or its frequency is too uncertain."""
    mode = chosen.fit.modes[0]
    findings = []
    if any(mode.decay_per_s <= 0 for mode in chosen.fit.modes):
        mend = "Check that time runs forward, that nothing drives the club, and that nobody holds the sensor."
        findings.append(_refused(trace, "the oscillation grows, and a plucked club dies away", mend))
    if signal_to_noise < LEAST_SIGNAL_TO_NOISE:
        what = (
            f"too noisy: the swing is {signal_to_noise:.2g} times what else is in the record, and "
            f"{LEAST_SIGNAL_TO_NOISE:g} times is needed"
        )
        findings.append(_refused(trace, what, "Pluck farther, or quiet the bench and the sensor."))
    sd = chosen.fit.frequency_sd_hz(chosen.variance)[0]
    if sd > MOST_RELATIVE_SD * mode.frequency_hz:
        what = (
            f"too noisy: the frequency is known to {sd * 60:.2g} cpm, and {MOST_RELATIVE_SD * mode.frequency_hz * 60:.2g} "
            "cpm is needed"
        )
        findings.append(_refused(trace, what, "Record longer, or pluck farther."))
    return findings


def _refused(trace: Trace, what: str, mend: str) -> Finding:
    return Finding(where=trace.source, what=what, mend=mend)
