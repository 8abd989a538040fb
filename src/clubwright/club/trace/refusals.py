"""Records that are refused, each with what was found, what is needed, and what to do.

The limits are our own choices, explained in docs/theory/trace.md.
"""

from __future__ import annotations

from clubwright.club.trace.model_choice import Choice, Judged
from clubwright.club.trace.record import Trace, clipping_findings
from clubwright.club.trace.span import Span
from clubwright.club.trace.spectrum import HIGHEST_HZ, LOWEST_HZ, STANDS_OUT, Line
from clubwright.errors import Finding

FEWEST_CYCLES = 10
PER_CYCLE = 20
"""Samples a cycle, so that the second bending mode, at 6 to 10 times the frequency, does not fold."""

LEAST_SIGNAL_TO_NOISE = 3.0
MOST_RELATIVE_SD = 0.005
UNEVEN_CYCLES = 0.005
"""How far a sample may be off its even place, in cycles of the oscillation; or a tenth of the interval."""

CLOSE_ENOUGH = 0.002
"""Two modes that are not told apart but lie closer than this fraction are taken as one, with a wider uncertainty."""


def line_findings(
    trace: Trace, rate_hz: float, found: list[Line], band_hz: tuple[float, float] | None
) -> list[Finding]:
    """Return what speaks against looking for a frequency at all: the rate, and that nothing stands out."""
    needed = 2 * (band_hz[1] if band_hz else HIGHEST_HZ)
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
    needed = PER_CYCLE * at_hz if band_hz is None else 2 * band_hz[1]
    if rate_hz < needed:
        what = (
            f"sampled too slowly: {rate_hz:.4g} samples a second at {at_hz * 60:.0f} cpm, and {needed:.4g} are needed"
        )
        mend = "Record with a higher rate: higher modes fold onto the frequency, or the frequency is itself an alias."
        findings.append(_refused(trace, what, mend))
    uneven, allowed = trace.uneven_s(), max(0.1 / rate_hz, UNEVEN_CYCLES / at_hz)
    if uneven > allowed:
        off, most = f"{uneven * 1e3:.3g} ms", f"{allowed * 1e3:.3g} ms"
        what = f"sampled irregularly: a sample is {off} off its place, and {most} are allowed"
        mend = "Look for lost samples or a wandering clock; record to the end before anything else runs on the machine."
        findings.append(_refused(trace, what, mend))
    return findings


def span_findings(trace: Trace, span: Span, at_hz: float) -> list[Finding]:
    """Return the finding that too few cycles are left after the pluck and before the hand."""
    cycles = span.length_s * at_hz
    if cycles >= FEWEST_CYCLES:
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
