"""Damped cosines fitted to samples by variable projection: amplitudes drop out, frequency and decay are sought.

    y(t) = c + d t + sum_k exp(-s_k t) (a_k cos w_k t + b_k sin w_k t)

For given (w_k, s_k) the rest is a linear least-squares problem; what is left over depends on (w_k, s_k) only. The
Jacobian is Kaufman's: projected derivatives of the columns. At the solution its normal matrix is that of the whole fit
with the linear unknowns eliminated, so its inverse is the covariance. Derivation: docs/theory/trace.md; checked in
tests/published/test_published_trace.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import msgspec
import numpy as np
from numpy.typing import NDArray
from scipy.linalg import svd
from scipy.optimize import least_squares

from clubwright.club.trace.record import Samples


class Mode(msgspec.Struct, frozen=True, kw_only=True):
    """One damped cosine: damped frequency, decay rate of its amplitude, and its amplitude at the first sample."""

    frequency_hz: float
    decay_per_s: float
    amplitude: float


class DecayFit(msgspec.Struct, frozen=True, kw_only=True):
    """A least-squares fit.

    Attributes:
        modes: Strongest first.
        residual: What is left of each sample.
        unscaled: Covariance of (w_1, s_1, w_2, s_2 ...) in 1/s, for noise of unit variance; order of ``modes``.
        beside: What else swings and was fitted along: the bench, a motor.
        swing: What the modes make of each sample, without offset, drift and what was fitted along.
    """

    modes: tuple[Mode, ...]
    residual: Samples
    unscaled: NDArray[np.float64]
    swing: Samples
    beside: tuple[Mode, ...] = ()

    def decay_sd_per_s(self, variance: float) -> list[float]:
        """Return the standard deviation of each decay rate for noise of this variance."""
        return [float(np.sqrt(variance * self.unscaled[2 * k + 1, 2 * k + 1])) for k in range(len(self.modes))]

    def frequency_sd_hz(self, variance: float) -> list[float]:
        """Return the standard deviation of each frequency for noise of this variance at it."""
        return [float(np.sqrt(variance * self.unscaled[2 * k, 2 * k])) / (2 * pi) for k in range(len(self.modes))]

    def separation_sd_hz(self, variance: float) -> float:
        """Return the standard deviation of the difference between the two frequencies."""
        weight = np.array([1.0, 0.0, -1.0, 0.0])
        return float(np.sqrt(variance * (weight @ self.unscaled @ weight))) / (2 * pi)


def fit_decay(
    values: Samples,
    rate_hz: float,
    starts: Sequence[Sequence[float]],
    *,
    at_s: Samples | None = None,
    beside: Sequence[float] = (),
) -> DecayFit:
    """Fit as many damped cosines as a start names, from each start, and return the best fit.

    Args:
        values: Samples.
        rate_hz: Samples a second.
        starts: Each a flat sequence w_1, s_1, w_2, s_2 ... in 1/s.
        at_s: Time of each sample in s; even by the rate when None.
        beside: The same of what else swings, which is fitted along and told apart.
    """
    time = np.arange(values.size) / rate_hz if at_s is None else at_s
    starts = [[*start, *beside] for start in starts]
    length = float(time[-1])

    def residual(scaled: Samples) -> Samples:
        return _projected(time, values, scaled / length)[0]

    def jacobian(scaled: Samples) -> Samples:
        return _projected(time, values, scaled / length)[1] / length

    def search(start: Samples, tolerance: float, most: int) -> tuple[float, Samples]:
        found = least_squares(
            residual, start, jac=jacobian, method="lm", xtol=tolerance, ftol=tolerance, gtol=tolerance, max_nfev=most
        )
        return float(found.cost), np.asarray(found.x, dtype=np.float64)

    # Each start is followed a little; only the best is worth the last digits.
    rough = min((search(np.asarray(start) * length, 1e-6, 25) for start in starts), key=lambda found: found[0])
    theta = search(rough[1], 1e-13, 200)[1] / length
    left, slope, linear = _projected(time, values, theta)
    amplitudes = np.hypot(linear[2::2], linear[3::2])
    unscaled = np.asarray(np.linalg.pinv(slope.T @ slope), dtype=np.float64)
    own = amplitudes.size - len(beside) // 2
    found = [
        Mode(frequency_hz=abs(float(w)) / (2 * pi), decay_per_s=float(s), amplitude=float(amplitude))
        for (w, s), amplitude in zip(theta.reshape(-1, 2), amplitudes, strict=True)
    ]
    order = np.argsort(-amplitudes[:own], kind="stable")
    places = [place for k in order for place in (2 * k, 2 * k + 1)]
    return DecayFit(
        modes=tuple(found[k] for k in order),
        residual=left,
        swing=np.asarray(_columns(time, theta)[:, 2 : 2 + 2 * own] @ linear[2 : 2 + 2 * own], dtype=np.float64),
        unscaled=unscaled[np.ix_(places, places)],
        beside=tuple(found[own:]),
    )


def _projected(time: Samples, values: Samples, theta: Samples) -> tuple[Samples, Samples, Samples]:
    """Return residual, Kaufman's Jacobian of it, and the linear unknowns: offset, drift, and two of each mode."""
    columns = _columns(time, theta).T
    base, triangle = np.linalg.qr(columns.T)
    on_base = base.T @ values
    linear = np.linalg.lstsq(triangle, on_base, rcond=None)[0]
    slopes = []
    for place in range(theta.size // 2):
        cosine, sine = columns[2 + 2 * place], columns[3 + 2 * place]
        a, b = linear[2 + 2 * place], linear[3 + 2 * place]
        slopes += [time * (b * cosine - a * sine), -time * (a * cosine + b * sine)]
    slope = np.column_stack(slopes)
    return values - base @ on_base, base @ (base.T @ slope) - slope, linear


def _columns(time: Samples, theta: Samples) -> Samples:
    columns = [np.ones_like(time), time - time.mean()]
    for omega, decay in theta.reshape(-1, 2):
        envelope = np.exp(np.clip(-decay * time, -50, 50))
        columns += [envelope * np.cos(omega * time), envelope * np.sin(omega * time)]
    return np.column_stack(columns)


def pencil_start(values: Samples, rate_hz: float, modes: int) -> list[float] | None:
    """Return (w, s) of each mode by the matrix pencil, as a start for the fit; None when it finds too few.

    The leading left singular vectors of a Hankel matrix of the samples keep the poles exp((-s + i w) dt) when shifted
    by one row. At most 400 samples are used.
    """
    used = values[:400] - values[:400].mean()
    rows = used.size // 3
    hankel = np.lib.stride_tricks.sliding_window_view(used, used.size - rows + 1)
    left = svd(hankel, full_matrices=False)[0][:, : 2 * modes]
    poles = np.linalg.eigvals(np.linalg.pinv(left[:-1]) @ left[1:])
    upper = poles[np.imag(poles) > 1e-9]
    if upper.size != modes:
        return None
    found = np.log(upper) * rate_hz
    return [part for pole in found for part in (float(pole.imag), float(-pole.real))]
