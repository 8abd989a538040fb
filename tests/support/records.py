"""Synthetic records of plucked clubs, with known truth."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sqrt

import msgspec
import numpy as np
from scipy.signal import lfilter

from clubwright.club.trace.record import Samples, Trace


class Swing(msgspec.Struct, frozen=True):
    """One mode: damped frequency in Hz, damping ratio, amplitude, phase."""

    frequency_hz: float
    damping_ratio: float
    amplitude: float = 1.0
    phase_rad: float = 0.3

    @property
    def decay_per_s(self) -> float:
        """The rate s of exp(-s t)."""
        return 2 * pi * self.frequency_hz * self.damping_ratio / sqrt(1 - self.damping_ratio**2)


def times(length_s: float, rate_hz: float) -> Samples:
    return np.arange(round(length_s * rate_hz)) / rate_hz


def swings(at_s: Samples, modes: Sequence[Swing]) -> Samples:
    found = np.zeros_like(at_s)
    for mode in modes:
        angle = 2 * pi * mode.frequency_hz * at_s + mode.phase_rad
        found += mode.amplitude * np.exp(-mode.decay_per_s * at_s) * np.cos(angle)
    return found


def noise(count: int, seed: int, *, colour: float = 0.0) -> Samples:
    """White noise of unit deviation, or the same sent through a first-order lag (its colour between 0 and 1)."""
    white = np.random.default_rng(seed).standard_normal(count + 500)
    return np.asarray(lfilter([1.0], [1.0, -colour], white)[500:], dtype=np.float64)


def recorded(
    *modes: Swing, length_s: float = 12.0, rate_hz: float = 250.0, sd: float = 0.01, seed: int = 1, colour: float = 0.0
) -> Trace:
    at_s = times(length_s, rate_hz)
    values = swings(at_s, modes) + sd * noise(at_s.size, seed, colour=colour)
    return Trace(values=values, rate_hz=rate_hz, source="swing.csv")
