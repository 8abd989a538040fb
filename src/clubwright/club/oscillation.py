"""Frequency, its uncertainty and the decay from a recorded oscillation of a clamped club.

One damped cosine, or two that beat (the two bending planes), fitted by least squares to the part after the pluck; the
uncertainty follows from the fit and from the noise found near the frequency, coloured or not. What the record cannot
tell is refused with what is missing. Derivation: docs/theory/trace.md; checked in
tests/published/test_published_trace.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, pi

import msgspec
import numpy as np

from clubwright.club.trace.bounds import cramer_rao_frequency_hz
from clubwright.club.trace.candidates import candidates, elsewhere_findings, rival_findings, rivals
from clubwright.club.trace.decay_fit import Mode
from clubwright.club.trace.model_choice import NOISE_LIKE, PLANES_APART, Choice
from clubwright.club.trace.reading import Driven, read_line, stop
from clubwright.club.trace.record import Samples, Trace, sample_findings
from clubwright.club.trace.refusals import line_findings
from clubwright.club.trace.span import PASSED, STOPPED, Span
from clubwright.club.trace.spectrum import HIGHEST_HZ, LOWEST_HZ, STANDS_OUT, Line, lines, noise_floor_sd
from clubwright.errors import Finding, InputError

CLOCK_SD = 5e-5
"""Standard deviation of a sampling clock, as a fraction: a plain quartz, 50 in a million (from memory)."""


MOST_TRIED = 4
"""Lines that are tried at most, strongest first."""


class Oscillation(msgspec.Struct, frozen=True, kw_only=True):
    """What a record says.

    Attributes:
        frequency_hz: Damped frequency of the stronger mode: cycles that can be counted, a second.
        frequency_sd_hz: Its standard deviation, the clock's and a mode that is not told apart included.
        damping_ratio: Decay rate over undamped angular frequency; 0.01 loses 6 % of the swing in a cycle.
        second_frequency_hz: Damped frequency of the weaker of two beating modes; None where one mode is enough.
        second_frequency_sd_hz: Its standard deviation.
        second_damping_ratio: Its damping ratio.
        second_share: Its amplitude over that of the stronger one.
        cycles: Cycles that were fitted.
        start_s: Where in the record the fitted part begins, in s from its first sample.
        length_s: How long the fitted part is.
        signal_to_noise: Root-mean-square of the oscillation in the first 10 cycles over that of what is left.
        cramer_rao_sd_hz: Least standard deviation of one mode in white noise of the record's floor (without clock).
        whiteness: Chance that noise alone leaves as high a line near the frequency as was left.
        findings: Warnings and notes.
    """

    frequency_hz: float
    frequency_sd_hz: float
    damping_ratio: float
    second_frequency_hz: float | None
    second_frequency_sd_hz: float | None
    second_damping_ratio: float | None
    second_share: float | None
    cycles: float
    start_s: float
    length_s: float
    signal_to_noise: float
    cramer_rao_sd_hz: float
    whiteness: float
    findings: tuple[Finding, ...]


def read_oscillation(
    trace: Trace, *, band_hz: tuple[float, float] | None = None, clock_sd: float = CLOCK_SD
) -> Oscillation:
    """Return frequency, uncertainty and decay of the lowest mode of a record.

    Args:
        trace: The record: displacement, strain or acceleration, in any unit.
        band_hz: Look for the mode between these; what lies lower is filtered out too. 20 to 2000 cpm when None.
        clock_sd: Standard deviation of the sampling clock, as a fraction of its rate.

    Raises:
        InputError: The record cannot be used; every finding says what is missing.
    """
    stop(sample_findings(trace))
    values = np.asarray(trace.values, dtype=np.float64)
    rate_hz = trace.mean_rate_hz()
    every = _lines(trace.evenly(), rate_hz, band_hz)
    found = [line for line in every if line.above_noise >= STANDS_OUT]
    stop(line_findings(trace, rate_hz, every, band_hz))
    may_be = candidates(found, band_hz)
    stop(elsewhere_findings(trace, found, may_be))
    first: list[Finding] = []
    driven: list[float] = []
    for line in may_be:
        findings, read = read_line(trace, values, rate_hz, line, band_hz, driven)
        if read is not None and band_hz is None:
            findings += _rivals_of(trace, values, rate_hz, line, may_be)
        if read is not None and not findings:
            span, choice, signal_to_noise = read
            return _result(trace, span, choice, found, signal_to_noise, rate_hz, clock_sd)
        first = first or findings
        steady = [item for item in findings if isinstance(item, Driven)]
        if not steady or len(driven) >= MOST_TRIED:
            break
        driven.append(line.frequency_hz)
        # beside a strong hum the spectrum shows no line of its own for a club that is near
        may_be += [other for other in candidates(steady[0].beside, band_hz) if not _among(other, may_be)]
    raise InputError(first)


def _among(line: Line, others: Sequence[Line]) -> bool:
    return any(abs(line.frequency_hz / other.frequency_hz - 1) < 0.05 for other in others)


def _rivals_of(trace: Trace, values: Samples, rate_hz: float, line: Line, may_be: Sequence[Line]) -> list[Finding]:
    for other in rivals(line, may_be)[:1]:
        if read_line(trace, values, rate_hz, other, None, ())[1] is not None:
            return rival_findings(trace, line, other)
    return []


def _lines(values: Samples, rate_hz: float, band_hz: tuple[float, float] | None) -> list[Line]:
    low, high = band_hz or (LOWEST_HZ, HIGHEST_HZ)
    return lines(values, rate_hz, max(low, 3 * rate_hz / values.size), min(high, 0.45 * rate_hz))


def _damping_ratio(mode: Mode) -> float:
    return mode.decay_per_s / hypot(mode.decay_per_s, 2 * pi * mode.frequency_hz)


def _result(
    trace: Trace, span: Span, choice: Choice, found: list[Line], signal_to_noise: float, rate_hz: float, clock_sd: float
) -> Oscillation:
    chosen = choice.chosen
    first, *others = chosen.fit.modes
    second = others[0] if others else None
    sds = chosen.fit.frequency_sd_hz(chosen.variance)
    unseen_hz = 0.0
    if choice.second_wanted and second is None:
        unseen_hz = abs(choice.two.fit.modes[0].frequency_hz - first.frequency_hz)
    floor_sd = max(noise_floor_sd(np.asarray(trace.values, dtype=np.float64)), np.finfo(float).tiny)
    bound_hz = cramer_rao_frequency_hz(
        first.amplitude, first.decay_per_s, floor_sd, 1 / rate_hz, max(3, round(span.length_s * rate_hz))
    )
    return Oscillation(
        frequency_hz=first.frequency_hz,
        frequency_sd_hz=hypot(sds[0], unseen_hz, clock_sd * first.frequency_hz),
        damping_ratio=_damping_ratio(first),
        second_frequency_hz=None if second is None else second.frequency_hz,
        second_frequency_sd_hz=None if second is None else hypot(sds[1], clock_sd * second.frequency_hz),
        second_damping_ratio=None if second is None else _damping_ratio(second),
        second_share=None if second is None else second.amplitude / first.amplitude,
        cycles=span.length_s * first.frequency_hz,
        start_s=span.start_s,
        length_s=span.length_s,
        signal_to_noise=signal_to_noise,
        cramer_rao_sd_hz=bound_hz,
        whiteness=chosen.chance_of_peak,
        findings=tuple(
            _notes(trace, span, choice, found, sds[0] / max(bound_hz, clock_sd * first.frequency_hz), unseen_hz)
        ),
    )


def _notes(
    trace: Trace, span: Span, choice: Choice, found: list[Line], excess: float, unseen_hz: float
) -> list[Finding]:
    notes = []

    def note(what: str, mend: str, *, warning: bool = False) -> None:
        notes.append(Finding(where=trace.source, what=what, mend=mend, severity="warning" if warning else "note"))

    chosen = choice.chosen
    at_hz = chosen.fit.modes[0].frequency_hz
    if unseen_hz:
        what = f"the swing is not one damped cosine, and what else it holds moves the frequency by {unseen_hz * 60:.2g} cpm"
        note(what, "It is counted in the uncertainty; pluck less far, or record longer.", warning=True)
    elif chosen.chance_of_peak < NOISE_LIKE:
        what = "what the fit leaves over is not noise: a line stands near the frequency"
        note(what, "It is counted in the uncertainty; tighten the clamp and keep hands off the bench.", warning=True)
    elif excess > 3 and len(chosen.fit.modes) == 1:
        what = f"noise near the frequency makes the uncertainty {excess:.1f} times what the record's floor allows"
        note(what, "Keep hands and machines off the bench while it records.")
    if len(chosen.fit.modes) == 1:
        what = f"two planes closer than {60 / span.length_s:.2g} cpm would count as one here"
        note(what, "Pluck at 45 degrees to the target plane and record longer to look for both.")
    for other in chosen.fit.beside:
        share = other.amplitude / chosen.fit.modes[0].amplitude
        what = f"something else swings at {other.frequency_hz * 60:.0f} cpm, {share:.1%} as strong"
        note(what, "It was fitted along and is not counted; quiet it where it can be.")
    known = [mode.frequency_hz for mode in (*chosen.fit.modes, *chosen.fit.beside)]
    for line in found:
        if any(1 / PLANES_APART < line.frequency_hz / other_hz < PLANES_APART for other_hz in known):
            continue
        ratio = line.frequency_hz / at_hz
        what = f"another line stands at {line.frequency_hz * 60:.0f} cpm, {ratio:.2f} times the frequency"
        if PASSED * 0.8 < ratio < STOPPED:
            note(what, "It is neither plane nor second bending mode: look for what else swings.", warning=True)
        else:
            note(what, "It is filtered out.")
    return notes
