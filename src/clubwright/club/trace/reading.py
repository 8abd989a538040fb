"""One line of a record read as a club: its samples filtered or as they are, fitted with what else swings, and judged.

Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clubwright.club.trace.candidates import is_steady, steady_findings
from clubwright.club.trace.model_choice import Choice, Judged, choose
from clubwright.club.trace.record import Samples, Trace
from clubwright.club.trace.refusals import FEWEST_CYCLES, beat_findings, fit_findings, record_findings, span_findings
from clubwright.club.trace.slip import slip_findings
from clubwright.club.trace.span import PASSED, Span, free_part, one_mode, without_rough_ends
from clubwright.club.trace.spectrum import STANDS_OUT, Line
from clubwright.errors import Finding, InputError

FILTERED = 20.0
"""Samples a cycle from which higher modes are filtered out; with fewer the samples are fitted as they are."""


Read = tuple[Span, Choice, float]


def stop(findings: Sequence[Finding]) -> None:
    """Refuse a record that has findings.

    Raises:
        InputError: with all of them.
    """
    if findings:
        raise InputError(findings)


class Driven(Finding, frozen=True, kw_only=True):
    """The finding that a line is no plucked club, with what was fitted along: one of these may be the club."""

    beside: tuple[Line, ...]


def read_line(
    trace: Trace,
    values: Samples,
    rate_hz: float,
    line: Line,
    band_hz: tuple[float, float] | None,
    driven: Sequence[float],
) -> tuple[list[Finding], Read | None]:
    """Fit one line, with what is known to hum; return what speaks against it, or what was fitted."""
    at_hz = line.frequency_hz
    findings = record_findings(trace, rate_hz, at_hz, band_hz)
    if findings:
        return findings, None
    raw = trace.is_uneven(at_hz) or rate_hz < FILTERED * at_hz
    span = _raw(trace, values, rate_hz, at_hz) if raw else _span(values, rate_hz, at_hz, lower_too=band_hz is not None)
    most_hz = 0.45 * rate_hz if raw else min(0.45 * span.rate_hz, PASSED * at_hz)
    try:
        span, choice = _settled(trace, span, at_hz, most_hz if band_hz is None or raw else 0.0, driven)
    except InputError as refused:
        return list(refused.findings), None
    chosen = choice.chosen
    if is_steady(choice.one) or is_steady(chosen):
        beside = tuple(
            Line(frequency_hz=mode.frequency_hz, power=mode.amplitude**2, above_noise=STANDS_OUT)
            for mode in choice.one.fit.beside
        )
        told = steady_findings(trace, choice.one)
        return [Driven(where=item.where, what=item.what, mend=item.mend, beside=beside) for item in told], None
    signal_to_noise = _signal_to_noise(span, chosen, at_hz)
    findings = slip_findings(trace, span, choice)
    findings = findings or [*beat_findings(trace, span, choice), *fit_findings(trace, chosen, signal_to_noise)]
    return findings, None if findings else (span, choice, signal_to_noise)


def _raw(trace: Trace, values: Samples, rate_hz: float, at_hz: float) -> Span:
    """Take the samples as they are, at their own times, from after the pluck to before the hand."""
    at_s = np.arange(values.size) / rate_hz if trace.times_s is None else trace.times_s - trace.times_s[0]
    even = Span(values=trace.evenly(), rate_hz=rate_hz, start_s=0.0)
    free = free_part(even, at_hz, 0.0)
    first, end = np.searchsorted(at_s, [free.start_s - 1e-9, free.start_s + free.length_s])
    return Span(
        values=values[first:end], rate_hz=rate_hz, start_s=float(at_s[min(first, at_s.size - 1)]), at_s=at_s[first:end]
    )


def _span(values: Samples, rate_hz: float, at_hz: float, *, lower_too: bool) -> Span:
    """Filter the mode out and cut to where it swings freely; the filter's middle part smears an edge by a cycle or so."""
    whole = one_mode(values, rate_hz, at_hz, lower_too=lower_too)
    return free_part(whole, at_hz, whole.start_s)


def _settled(trace: Trace, span: Span, at_hz: float, most_hz: float, driven: Sequence[float]) -> tuple[Span, Choice]:
    """Fit, cut rough ends off by what the fit leaves over, and fit again, until nothing is cut or three times."""
    stop(span_findings(trace, span, at_hz))
    choice = choose(span, at_hz, most_hz, driven)
    heard = _heard(span, choice, at_hz)
    if heard < span.values.size:
        span = span.part(0, heard)
        choice = choose(span, at_hz, most_hz, driven)
    for _ in range(3):
        first, end = without_rough_ends(choice.chosen.fit.residual, max(4, round(span.rate_hz / at_hz)))
        if (first, end) == (0, span.values.size):
            break
        span = span.part(first, end)
        stop(span_findings(trace, span, at_hz))
        choice = choose(span, at_hz, most_hz, driven)
    return span, choice


def _heard(span: Span, choice: Choice, at_hz: float) -> int:
    """Return how many samples are worth keeping: the slowest mode has fallen to 1/400 after six decay times."""
    slowest = min(mode.decay_per_s for mode in choice.chosen.fit.modes)
    if slowest <= 0:
        return span.values.size
    return int(max(6 / slowest, 2 * FEWEST_CYCLES / at_hz) * span.rate_hz)


def _signal_to_noise(span: Span, chosen: Judged, at_hz: float) -> float:
    early = slice(0, round(10 * span.rate_hz / at_hz))
    residual = chosen.fit.residual
    swing = chosen.fit.swing[early]
    return float(np.std(swing) / max(float(np.std(residual)), np.finfo(float).tiny))
