"""Which part of a record is fitted: one mode let through, thinned out, from after the pluck to before the hand.

A filter of finite length turns a damped cosine into a damped cosine of the same frequency and decay, exactly, wherever
it lies wholly on it; only amplitude and phase change. So only such outputs are kept. Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

import msgspec
import numpy as np
from scipy.signal import firwin, kaiserord, oaconvolve

from clubwright.club.trace.record import Samples

STOPPED_DB = 80.0
PASSED, STOPPED = 2.0, 5.0
"""The filter passes up to twice the frequency and stops from five times: second bending modes lie at six times and more."""

MOST_CYCLES = 400
"""Cycles fitted at most: a swing with a damping ratio of 0.0025 has fallen to 1/500 by then."""

THINNED_PER_CYCLE = 12
"""Samples a cycle that are kept at least, so that what is stopped would fold onto itself only."""


class Span(msgspec.Struct, frozen=True, kw_only=True):
    """Samples of one mode.

    Attributes:
        values: The samples.
        rate_hz: Samples a second; the mean where they are not even.
        start_s: Where in the record they begin, in s.
        at_s: Time of each sample in s, where the record gives it and they are used as they are; None where they are even.
    """

    values: Samples
    rate_hz: float
    start_s: float
    at_s: Samples | None = None

    @property
    def time_s(self) -> Samples:
        """Time of each sample from the first on."""
        return np.arange(self.values.size) / self.rate_hz if self.at_s is None else self.at_s - self.at_s[0]

    @property
    def length_s(self) -> float:
        """How long it is."""
        return self.values.size / self.rate_hz

    def part(self, first: int, end: int) -> Span:
        """Return the samples from the first to before the end."""
        at_s = None if self.at_s is None else self.at_s[first:end]
        start_s = self.start_s + first / self.rate_hz
        return Span(values=self.values[first:end], rate_hz=self.rate_hz, start_s=start_s, at_s=at_s)


def one_mode(values: Samples, rate_hz: float, at_hz: float, *, lower_too: bool) -> Span:
    """Filter a record so that the mode at one frequency is left, and thin it out.

    Args:
        values: The record.
        rate_hz: Samples a second.
        at_hz: Frequency of the mode.
        lower_too: Pass 0.62 to 1.68 of the frequency only, at the cost of some 20 cycles instead of 2.
    """
    nyquist = rate_hz / 2
    width = (0.25 if lower_too else STOPPED - PASSED) * at_hz
    taps, beta = kaiserord(STOPPED_DB, width / nyquist)
    taps += 1 - taps % 2
    stop = (PASSED + STOPPED) / 2 * at_hz
    if lower_too:
        edges, keeps_mean = [0.5 * at_hz, 1.8 * at_hz], False
    else:
        edges, keeps_mean = [stop], True
    step = max(1, int(rate_hz / (THINNED_PER_CYCLE * at_hz)))
    if edges[-1] >= nyquist or taps >= values.size:
        return Span(values=values, rate_hz=rate_hz, start_s=0.0)
    taper = firwin(taps, edges, window=("kaiser", beta), pass_zero=keeps_mean, fs=rate_hz)
    left = np.asarray(oaconvolve(values - values[0], taper, mode="valid"), dtype=np.float64)
    return Span(values=left[::step].copy(), rate_hz=rate_hz / step, start_s=(taps - 1) / 2 / rate_hz)


def free_part(span: Span, at_hz: float, slow_s: float) -> Span:
    """Cut off what lies before a sudden rise of the swing (the pluck) and after a sudden fall (the hand).

    The swing is the standard deviation over one cycle. It falls for good when it never again reaches a quarter of
    what it was two cycles earlier; at a node of a beat it comes back. It rises suddenly when it was below 15 % two
    cycles before it first reached half of its largest.

    Args:
        span: One mode's samples.
        at_hz: Its frequency.
        slow_s: How far the filter smears an edge to either side, in s.
    """
    cycle = max(4, round(span.rate_hz / at_hz))
    if span.values.size < 6 * cycle:
        return span
    swing = np.lib.stride_tricks.sliding_window_view(span.values, cycle).std(axis=1)
    smear = int(np.ceil(slow_s * span.rate_hz))
    half = int(np.argmax(swing >= 0.5 * swing.max()))
    before = max(0, half - 2 * cycle - smear)
    first = 0
    if half > 0 and swing[before] < 0.15 * swing.max():
        first = min(half + cycle // 2 + smear, swing.size - 1)
    swing = swing[: first + MOST_CYCLES * cycle]
    tail = np.maximum.accumulate(swing[::-1])[::-1]
    back = 2 * cycle
    fallen = np.flatnonzero(tail[first + back :] < 0.25 * swing[first : swing.size - back])
    # What is this late has sunk into the noise, which does no harm; what is sudden is a hand.
    end = min(span.values.size, first + MOST_CYCLES * cycle) if not fallen.size else int(first + fallen[0])
    return span.part(first, max(end, first + 1))


def without_rough_ends(residual: Samples, cycle: int) -> tuple[int, int]:
    """Return first and end of the samples whose ends are as quiet as the rest, judged by what a fit left over.

    Cycle by cycle from either end, what is left over by more than three times its median is cut off; at most a
    third from the front and a tenth from the back.
    """
    count = residual.size // cycle
    if count < 8:
        return 0, residual.size
    rough = residual[: count * cycle].reshape(count, cycle).std(axis=1)
    limit = 3 * float(np.median(rough))
    front = 0
    while front < count // 3 and rough[front] > limit:
        front += 1
    back = count
    while back > count - count // 10 and rough[back - 1] > limit:
        back -= 1
    return front * cycle, residual.size if back == count else back * cycle
