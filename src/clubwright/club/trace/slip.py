"""Samples that are missing from a record of values alone: the swing jumps in phase and goes on as if nothing had been.

Two swings with one frequency and decay, one before the jump and one after, are held against the two planes: a beat has its
phase jump where the swing is least, a gap wherever it fell. Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from math import log, pi

import numpy as np
from numpy.typing import NDArray

from clubwright.club.trace.decay_fit import Mode
from clubwright.club.trace.model_choice import CLEAR_LEAD, Choice
from clubwright.club.trace.record import Samples, Trace
from clubwright.club.trace.span import Span
from clubwright.errors import Finding

EDGE_CYCLES = 2.5
"""A jump so near to an end cannot be told from the pluck or the hand."""
BETTER = 0.6
"""What a jump leaves over must be below this share of what two planes leave over."""
STEPS = 40
"""Frequencies that are tried, within one turn over the span to either side."""


def slip_findings(trace: Trace, span: Span, choice: Choice) -> list[Finding]:
    """Return the finding that samples are missing; none where each sample has its time."""
    if trace.times_s is not None:
        return []
    time, mode, fit = span.time_s, choice.one.fit.modes[0], choice.one.fit
    smear = 1 / mode.frequency_hz
    at, left = _best(fit.swing + fit.residual, time, mode, smear)
    if at is None:
        return []
    kept = np.abs(time - at) > smear
    one, two = (float(np.sum(fit.residual[kept] ** 2)) for fit in (choice.one.fit, choice.two.fit))
    worth = time.size * _apart(span, mode.frequency_hz) * log(max(one, 1e-300) / max(left, 1e-300))
    if worth < CLEAR_LEAD + 3 * log(time.size) or left > BETTER * two:
        return []
    what = f"the swing jumps {span.start_s + at:.2f} s after the start: samples are missing there, or stand twice"
    mend = "Record again with nothing else running, or with the time of each sample: then a gap does no harm."
    return [Finding(where=trace.source, what=what, mend=mend)]


def _apart(span: Span, at_hz: float) -> float:
    """Share of the samples that tell something new: filtered noise has a band of some four times the frequency."""
    return min(1.0, 8 * at_hz / span.rate_hz)


def _best(values: Samples, time: Samples, mode: Mode, smear: float) -> tuple[float | None, float]:
    """Return the place of the jump that leaves least over, and what it leaves, the frequency free; None in a short span."""
    edge = EDGE_CYCLES / mode.frequency_hz
    places = time[(time > edge) & (time < time[-1] - edge)]
    if not places.size:
        return None, 0.0
    ends = np.searchsorted(time, places - smear)
    begins = np.searchsorted(time, places + smear)
    best: tuple[float | None, float] = (None, float("inf"))
    for off in np.linspace(-1, 1, STEPS + 1) / float(time[-1]):
        wave = np.exp((-mode.decay_per_s + 2j * pi * (mode.frequency_hz + off)) * time)
        sums = _sums(values, wave)
        left = _left(sums[:, ends]) + _left(sums[:, -1:] - sums[:, begins])
        at = int(np.argmin(left))
        if left[at] < best[1]:
            best = (float(places[at]), float(left[at]))
    return best


def _sums(values: Samples, wave: NDArray[np.complexfloating]) -> Samples:
    """Running sums, from nothing on, of all products that least squares needs."""
    a, b = wave.real, wave.imag
    products = np.array([a * a, a * b, b * b, a * values, b * values, values * values])
    return np.concatenate([np.zeros((6, 1)), np.cumsum(products, axis=1)], axis=1)


def _left(sums: Samples) -> Samples:
    """What least squares with the two parts of a wave leaves over."""
    aa, ab, bb, ay, by, yy = sums
    whole = np.maximum(aa * bb - ab * ab, np.finfo(float).tiny)
    return np.asarray(np.maximum(yy - (bb * ay * ay - 2 * ab * ay * by + aa * by * by) / whole, 0.0))
