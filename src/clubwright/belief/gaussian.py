"""A joint Gaussian over named unknowns, and how it is conditioned on what was read.

The update is the iterated one (Gauss-Newton on the posterior, each pass linearised anew at the last estimate) with the
covariance in Joseph form, which stays symmetric and positive however small the reading's noise is. Sources: A. H.
Jazwinski, Stochastic Processes and Filtering Theory (1970), iterated extended filter; B. Bell and F. Cathey, IEEE Trans.
Automatic Control 38 (1993) 294, its identity with Gauss-Newton. Derivation: docs/theory/belief.md; checked in
tests/published/test_published_belief.py.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeAlias

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.errors import NotPossible

Vector: TypeAlias = NDArray[np.float64]
Matrix: TypeAlias = NDArray[np.float64]
Linearised: TypeAlias = Callable[[Vector], tuple[Vector, Matrix]]
"""From an estimate (n) to predicted readings (m) and their derivatives (m, n)."""

PASSES = 300
"""A reading by itself, on a belief that earlier readings made very narrow, may come nearer by a quarter a pass only."""

CONVERGED = 1e-9
"""Largest move of any unknown, in its own prior standard deviations, that counts as standing still."""


class Gaussian(msgspec.Struct, frozen=True, kw_only=True):
    """What is believed of some named unknowns.

    Attributes:
        names: One name for each unknown, n of them.
        mean: Shape (n), in SI.
        covariance: Shape (n, n), symmetric, positive semidefinite.
    """

    names: tuple[str, ...]
    mean: Vector
    covariance: Matrix

    @classmethod
    def independent(cls, entries: Mapping[str, tuple[float, float]]) -> Gaussian:
        """Build a belief from ``name -> (mean, standard deviation)`` with nothing correlated."""
        mean = np.array([m for m, _ in entries.values()], dtype=float)
        deviation = np.array([s for _, s in entries.values()], dtype=float)
        return cls(names=tuple(entries), mean=mean, covariance=np.diag(deviation**2))

    def index(self, name: str) -> int:
        """Return the place of an unknown; ValueError when it is not in this belief."""
        return self.names.index(name)

    def mean_of(self, name: str) -> float:
        """Return the mean of one unknown."""
        return float(self.mean[self.index(name)])

    def sd_of(self, name: str) -> float:
        """Return the standard deviation of one unknown."""
        place = self.index(name)
        return float(np.sqrt(max(self.covariance[place, place], 0.0)))

    def extended(self, entries: Mapping[str, tuple[float, float]]) -> Gaussian:
        """Return this belief with further unknowns, independent of those it has."""
        new = {name: value for name, value in entries.items() if name not in self.names}
        if not new:
            return self
        added = Gaussian.independent(new)
        size, more = len(self.names), len(new)
        covariance = np.zeros((size + more, size + more))
        covariance[:size, :size] = self.covariance
        covariance[size:, size:] = added.covariance
        mean = np.concatenate([self.mean, added.mean])
        return Gaussian(names=self.names + added.names, mean=mean, covariance=covariance)


def condition(prior: Gaussian, model: Linearised, seen: Vector, noise: Matrix) -> Gaussian:
    """Condition a belief on readings.

    Args:
        prior: Belief before, n unknowns.
        model: Predicts the m readings and their derivatives at an estimate.
        seen: The readings, shape (m).
        noise: Covariance of the readings' own noise, shape (m, m); what readings share (a gauge's bias) belongs among
            the unknowns instead.

    Returns:
        The belief after, same names.

    Raises:
        NotPossible: when the passes do not settle, which means that a reading is far outside what the parts allow; or
            when readings without noise of their own say the same thing twice.
    """
    estimate = prior.mean.copy()
    scale = np.sqrt(np.maximum(np.diag(prior.covariance), 1e-300))
    identity = np.eye(len(prior.names))
    for _ in range(PASSES):
        predicted, slope = model(estimate)
        gain = _gain(prior.covariance, slope, noise)
        moved = prior.mean + gain @ (seen - predicted - slope @ (prior.mean - estimate))
        step = float(np.max(np.abs(moved - estimate) / scale))
        estimate = moved
        if step < CONVERGED:
            break
    else:
        raise NotPossible(
            "the readings cannot be reconciled with these parts",
            "Check the parts' masses and lengths and the last reading, then read again.",
        )
    rest = identity - gain @ slope
    covariance = rest @ prior.covariance @ rest.T + gain @ noise @ gain.T
    return Gaussian(names=prior.names, mean=estimate, covariance=(covariance + covariance.T) / 2)


def _gain(covariance: Matrix, slope: Matrix, noise: Matrix) -> Matrix:
    """Return the gain of the update, shape (n, m)."""
    innovation = slope @ covariance @ slope.T + noise
    try:
        factor = np.linalg.cholesky(innovation)
    except np.linalg.LinAlgError as error:
        raise NotPossible(
            "two readings without any noise of their own are of the same thing",
            "Give the gauge its resolution and repeatability.",
        ) from error
    halved = np.linalg.solve(factor, slope @ covariance)
    gain: Matrix = np.linalg.solve(factor.T, halved).T
    return gain
