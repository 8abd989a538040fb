"""The samples of a recorded oscillation, and what makes them unfit before any frequency is looked for.

Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.errors import Finding

Samples = NDArray[np.float64]

FEWEST_SAMPLES = 40
MOST_SAMPLES = 2**21
"""44 s of sound at 48 000 a second, 35 minutes at 1000: what is longer is cut to the swing first."""
EVEN_CYCLES = 3e-4
"""How far a sample may be off its even place, in cycles, and count as even: a phase of 0.002 rad."""
LARGEST = 1e100
"""No unit makes a measured value as large as this."""
FEWEST_LEVELS = 8
"""Steps of the converter between the lowest and the highest sample; below that the record is a staircase."""


class Trace(msgspec.Struct, frozen=True, kw_only=True):
    """One channel of a record: displacement, strain or acceleration, in any unit.

    Attributes:
        values: Samples in the order of time, shape (n,).
        rate_hz: Samples a second; None where every sample has its time.
        times_s: Time of each sample, shape (n,); None where only the rate is known.
        source: Where it comes from; the place named in findings.
        channel: Name of the channel as the file has it.
    """

    values: NDArray[Any]
    rate_hz: float | None = None
    times_s: NDArray[Any] | None = None
    source: str = "trace"
    channel: str = "value"

    def mean_rate_hz(self) -> float:
        """Return the samples a second: as stated, else the slope of the straight line through the times."""
        if self.times_s is None:
            assert self.rate_hz is not None  # sample_findings refuses a trace that has neither
            return self.rate_hz
        return float((self.times_s.size - 1) / (self.times_s[-1] - self.times_s[0]))

    def evenly(self) -> Samples:
        """Return the values at even times, interpolated where their own are not: to look at, not to fit."""
        values = np.asarray(self.values, dtype=np.float64)
        if self.times_s is None:
            return values
        times = np.asarray(self.times_s, dtype=np.float64) - float(self.times_s[0])
        return np.interp(
            np.arange(round(float(times[-1]) * self.mean_rate_hz()) + 1) / self.mean_rate_hz(), times, values
        )

    def is_uneven(self, at_hz: float) -> bool:
        """True where samples are too far off even places to be filtered: more than `EVEN_CYCLES` of a swing."""
        return self.uneven_s() * at_hz > EVEN_CYCLES

    def uneven_s(self) -> float:
        """Return by how much the worst sample is off an even spacing, in s; 0 where only the rate is known."""
        if self.times_s is None:
            return 0.0
        interval, start = line_through(self.times_s)
        return float(np.max(np.abs(self.times_s - start - interval * np.arange(self.times_s.size))))


def line_through(values: NDArray[Any]) -> tuple[float, float]:
    """Return slope and start of the least-squares line through equally numbered values."""
    number = np.arange(values.size) - (values.size - 1) / 2
    slope = float(number @ values / (number @ number))
    return slope, float(np.mean(values)) - slope * (values.size - 1) / 2


def sample_findings(trace: Trace) -> list[Finding]:
    """Return everything that is wrong with the samples themselves, all at once; an empty list when nothing is."""
    values = np.asarray(trace.values, dtype=np.float64)
    findings = _time_findings(trace, values.size)
    bad = np.flatnonzero(~(np.abs(values) < LARGEST))
    if bad.size:
        what = f"{bad.size} of {values.size} samples are no number, the first is sample {bad[0] + 1}"
        findings.append(_finding(trace, what, "Record again, or cut the file to the part without gaps."))
    if values.size < FEWEST_SAMPLES:
        what = f"{values.size} samples are too few"
        findings.append(_finding(trace, what, f"Record at least 10 cycles; a fit needs {FEWEST_SAMPLES} samples."))
    elif not bad.size:
        findings += _level_findings(trace, values)
    return findings


def _time_findings(trace: Trace, count: int) -> list[Finding]:
    times, rate = trace.times_s, trace.rate_hz
    if times is None:
        if rate is None:
            mend = "State the samples a second, or give a column of times."
            return [_finding(trace, "neither the times nor the sample rate are known", mend)]
        if not (np.isfinite(rate) and rate > 0):
            return [_finding(trace, f"{rate:g} samples a second is no rate", "State the rate as a number above 0.")]
        return []
    if times.size != count:
        return [_finding(trace, f"{times.size} times for {count} samples", "Give each sample its time.")]
    if not np.all(np.isfinite(times)):
        first = int(np.flatnonzero(~np.isfinite(times))[0]) + 1
        return [_finding(trace, f"the time of sample {first} is no number", "Give each sample its time.")]
    back = np.flatnonzero(np.diff(times) <= 0)
    if back.size:
        at = int(back[0])
        what = (
            f"time does not run forward: {times[at]:g} s is followed by {times[at + 1]:g} s, {back.size} times in all"
        )
        mend = "Write the times with more digits and in the order of time, or give the values alone and their rate."
        return [_finding(trace, what, mend)]
    return []


def _level_findings(trace: Trace, values: Samples) -> list[Finding]:
    levels = np.unique(values)
    if levels.size == 1 or np.ptp(values) <= 1e-12 * np.max(np.abs(values)):
        mend = "Check that the sensor is on, plugged in and on this channel, and record again."
        return [_finding(trace, f"the channel is dead: every sample is {values[0]:g}", mend)]
    if levels.size < FEWEST_LEVELS:
        what = f"the samples have {levels.size} levels, and at least {FEWEST_LEVELS} are needed"
        return [_finding(trace, what, "Turn the gain up, or pluck farther, and record again.")]
    return []


def clipping_findings(trace: Trace, at_hz: float) -> list[Finding]:
    """Return the ends of the range where samples stand in a row for longer than a crest of the swing can.

    A cosine of amplitude A stays within a step q of its crest for sqrt(2 q / A) / (pi f); a row of more than twice that
    and two samples is flat.

    Args:
        trace: A record whose samples have no findings.
        at_hz: Roughly the frequency of the swing.
    """
    values = np.asarray(trace.values, dtype=np.float64)
    step = float(np.median(np.diff(np.unique(values))))
    crest = trace.mean_rate_hz() / (pi * at_hz) * sqrt(4 * step / float(np.ptp(values)))
    findings = []
    for end, level in (("highest", float(values.max())), ("lowest", float(values.min()))):
        row = _longest_row(values == level)
        if row > 2 * crest + 2:
            what = f"clipped: {row} samples in a row stand at {level:g}, the {end} that was recorded"
            findings.append(_finding(trace, what, "Turn the gain down, or pluck less far, and record again."))
    return findings


def _longest_row(here: NDArray[np.bool_]) -> int:
    """Return the length of the longest unbroken row of true values."""
    edges = np.flatnonzero(np.diff(here, prepend=False, append=False))
    return int(np.max(edges[1::2] - edges[::2]))


def _finding(trace: Trace, what: str, mend: str) -> Finding:
    return Finding(where=trace.source, what=what, mend=mend)
