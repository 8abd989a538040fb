"""The least standard deviation that any unbiased estimate of a damped sinusoid's frequency can have.

Cramer-Rao bound of A exp(-s t) cos(w t + p) in white noise, over many cycles: frequency and phase share one two-by-two
information matrix, decay and amplitude another just like it. Derivation and limits: docs/theory/trace.md; checked in
tests/published/test_published_trace.py.
"""

from __future__ import annotations

from math import pi, sqrt

import numpy as np


def cramer_rao_frequency_hz(
    amplitude: float, decay_per_s: float, noise_sd: float, interval_s: float, count: int
) -> float:
    """Return the bound on the standard deviation of the frequency, in Hz.

    Args:
        amplitude: Amplitude at the first sample.
        decay_per_s: Rate at which the amplitude decays, 1/s; 0 for a lasting tone.
        noise_sd: Standard deviation of the white noise of each sample, in the amplitude's unit.
        interval_s: Time between samples.
        count: Number of samples.
    """
    time = interval_s * np.arange(count)
    weight = np.exp(-2 * decay_per_s * time)
    none, first, second = (float(np.sum(weight * time**power)) for power in range(3))
    information = amplitude**2 / (2 * noise_sd**2) * (second - first * first / none)
    return 1 / (2 * pi * sqrt(information))
