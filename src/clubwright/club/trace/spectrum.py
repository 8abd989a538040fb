"""What the spectrum of a record says: which line to fit, how high the noise is, and whether anything is left over.

Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.club.trace.record import Samples

LOWEST_HZ, HIGHEST_HZ = 1 / 3, 100 / 3
"""20 to 2000 cpm: what a clamped shaft can do (the same bounds as the notation of a frequency)."""

STANDS_OUT = 30.0
"""Power of a line over the median around it: white noise of 1000 bins reaches it once in a million records."""

LEAST_OF_STRONGEST = 2.5e-5
"""A line counts from 0.5 % of the strongest line's amplitude: an accelerometer may show the second bend at fifty times."""

TINY = float(np.finfo(float).tiny)

BESIDE_CYCLES = 0.75
"""Cycles that a line which is fitted along has at least within the span; what is slower is a drift."""

AT_A_TIME = 256
"""Frequencies that are summed at a time."""

NEIGHBOUR = 1.6
"""Lines closer than this ratio count as one: the two bending planes."""


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """A line of the spectrum: where, how strong, and how far above what is around it (power ratio)."""

    frequency_hz: float
    power: float
    above_noise: float


def lines(values: Samples, rate_hz: float, low_hz: float, high_hz: float) -> list[Line]:
    """Return the lines between two frequencies, lowest first, each with how far it stands above the noise around it.

    A straight line is taken off. The window rises within 3 % of the record and falls over all the rest: modes that die
    away early are still in it.
    """
    count = values.size
    number = np.linspace(-1, 1, count)
    flat = values - np.polynomial.Polynomial.fit(number, values, 1)(number)
    rise = max(8, round(0.03 * count))
    window = np.cos(np.linspace(0, pi / 2, count)) ** 2
    window[:rise] *= np.sin(np.linspace(0, pi / 2, rise)) ** 2
    power = np.abs(np.fft.rfft(flat * window, 2 * count)) ** 2
    frequency = np.fft.rfftfreq(2 * count, 1 / rate_hz)
    inside = (frequency >= low_hz) & (frequency <= high_hz)
    inside[0] = inside[-1] = False
    if not inside.any():
        return []
    strongest = float(power[inside].max())
    peaks = np.flatnonzero(inside & (power >= LEAST_OF_STRONGEST * strongest))
    found = []
    for at in peaks:
        around = slice(
            np.searchsorted(frequency, frequency[at] / NEIGHBOUR),
            np.searchsorted(frequency, frequency[at] * NEIGHBOUR, side="right"),
        )
        if power[at] > 0 and power[at] >= power[around].max():
            found.append(Line(frequency_hz=float(frequency[at]), power=float(power[at]), above_noise=0.0))
    return [
        msgspec.structs.replace(line, above_noise=line.power / max(_floor(frequency, power, line.frequency_hz), TINY))
        for line in found
    ]


def _floor(frequency: NDArray[np.floating], power: NDArray[np.floating], at_hz: float) -> float:
    """Median power between half and four times a frequency, without the line itself."""
    ratio = frequency / at_hz
    return float(np.median(power[((ratio > 0.25) & (ratio < 0.7)) | ((ratio > 1.4) & (ratio < 4))]))


def noise_floor_sd(values: Samples) -> float:
    """Return the standard deviation of the white noise of a record, from the median of its periodogram.

    The ordinates of white noise are exponential, so their median is ln 2 of their mean; a few lines do not move it. A
    Hann window keeps the lines narrow.
    """
    window = np.hanning(values.size)
    power = np.abs(np.fft.rfft((values - values.mean()) * window)) ** 2 / float(window @ window)
    return float(np.sqrt(np.median(power[1:-1]) / log(2)))


def transform(values: Samples, at_s: Samples, frequency_hz: Samples) -> NDArray[np.complexfloating]:
    """Return the Fourier sums of samples at their own times, at any frequencies."""
    found = np.empty(frequency_hz.size, dtype=np.complex128)
    for first in range(0, frequency_hz.size, AT_A_TIME):
        some = frequency_hz[first : first + AT_A_TIME, None]
        found[first : first + AT_A_TIME] = np.exp(-2j * pi * some * at_s[None, :]) @ values
    return found


def left_over(
    residual: Samples, at_s: Samples, most_hz: float, without: Sequence[tuple[float, float]]
) -> tuple[float, float] | None:
    """Return frequency and amplitude of the highest line in what a fit left over; None where none stands out of it.

    Args:
        residual: What is left of each sample.
        at_s: Time of each sample, from 0.
        most_hz: Highest frequency that is looked at.
        without: Bands, each from and to, that are left out.
    """
    length = float(at_s[-1])
    frequency = np.arange(BESIDE_CYCLES / length, most_hz, 0.25 / length)
    for low, high in without:
        frequency = frequency[(frequency < low) | (frequency > high)]
    if frequency.size < 16:
        return None
    window = np.sin(pi * (np.arange(residual.size) + 0.5) / residual.size)
    sums = np.abs(transform(residual * window, at_s, frequency))
    power, at = sums**2, int(np.argmax(sums))
    if power[at] < STANDS_OUT * float(np.median(power)):
        return None
    return float(frequency[at]), float(2 * sums[at] / window.sum())


def near(residual: Samples, rate_hz: float, at_hz: float, at_s: Samples | None = None) -> Samples:
    """Return the periodogram from 0.6 to 1.6 of a frequency, scaled so that white noise of variance v has the mean v."""
    if at_s is not None:
        step = 1 / (residual.size / rate_hz)
        wanted = np.arange(np.ceil(0.6 * at_hz / step), np.floor(1.6 * at_hz / step) + 1) * step
        return np.asarray(np.abs(transform(residual, at_s, wanted)) ** 2 / residual.size, dtype=np.float64)
    power = np.abs(np.fft.rfft(residual)) ** 2 / residual.size
    frequency = np.fft.rfftfreq(residual.size, 1 / rate_hz)
    return np.asarray(power[(frequency >= 0.6 * at_hz) & (frequency <= 1.6 * at_hz)], dtype=np.float64)


def chance_of_peak(ordinates: Samples) -> float:
    """Return the chance that noise alone has so high a largest ordinate: Fisher's test, first term, an upper bound.

    Coloured noise rises or falls over the band: a straight line through the logarithms is taken off first.
    """
    if ordinates.size < 4 or not np.all(ordinates > 0):
        return 1.0
    number = np.linspace(-1, 1, ordinates.size)
    flat = ordinates / np.exp(np.polynomial.Polynomial.fit(number, np.log(ordinates), 1)(number))
    share = float(flat.max() / flat.sum())
    return min(1.0, float(ordinates.size * (1 - share) ** (ordinates.size - 1)))
