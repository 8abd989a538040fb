"""All readings of a club under one hypothesis, and how well it foretells them.

With ``e`` the readings less what is foretold at the parts' means, ``S`` their joint covariance, and a slip of usual size
``s`` along a column ``a``, a hypothesis foretells ``e ~ N(0, S + s^2 a a')``: the mean-shift model (R. D. Cook and S.
Weisberg, Residuals and Influence in Regression, 1982, section 2.2) with a Gaussian prior on the shift, integrated out. The
determinant is what a vague hypothesis pays. Derivation: docs/theory/causes.md.
"""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.causes.cause import Cause
from clubwright.belief.gaussian import Matrix, Vector

ALIKE = 1e-9
"""Share of a reading's variance by which two of one thing differ that have no noise of their own: too small to be seen."""


class Trial(msgspec.Struct, frozen=True, kw_only=True):
    """One hypothesis as far as the m readings go.

    Attributes:
        causes: What it is; none for nothing wrong.
        often: How often it happens.
        off: What the readings are off at the parts' means, shape (m).
        columns: What a slip of one standard deviation does to the readings, shape (m, k).
        spread: Their joint covariance without the slip, shape (m, m); None for that of nothing wrong.
        slips: Of each column, how much of the number one standard deviation is, and the cause it belongs to.
    """

    causes: tuple[Cause, ...]
    often: float
    off: Vector
    columns: Matrix
    spread: Matrix | None = None
    slips: tuple[tuple[float, int], ...] = ()


def fixed(causes: tuple[Cause, ...], often: float, off: Vector, spread: Matrix | None = None) -> Trial:
    """Return a hypothesis that leaves nothing open but what it says: no slip of unknown size."""
    return Trial(causes=causes, often=often, off=off, columns=np.zeros((len(off), 0)), spread=spread)


class Weighed(msgspec.Struct, frozen=True, kw_only=True):
    """Hypotheses beside each other.

    Attributes:
        log_chance: Logarithm of frequency and density of each, shape (T).
        inverse: Inverse of the covariance of the readings under each, shape (T, m, m).
        off: What they are off, shape (T, m).
    """

    log_chance: NDArray[np.float64]
    inverse: NDArray[np.float64]
    off: NDArray[np.float64]

    def off_by_sd(self) -> NDArray[np.float64]:
        """Return how far off each reading is when all others are believed, in standard deviations, shape (T, m)."""
        pulled = np.einsum("tij,tj->ti", self.inverse, self.off)
        found: NDArray[np.float64] = pulled / np.sqrt(np.diagonal(self.inverse, axis1=1, axis2=2))
        return found


def weigh(trials: list[Trial], base: Matrix) -> Weighed:
    """Work the joint density of the readings under each of T hypotheses; `base` is their covariance with nothing wrong."""
    spread = np.stack([(base if trial.spread is None else trial.spread) + _of_slips(trial) for trial in trials])
    diagonal = np.arange(base.shape[0])
    # readings without noise of their own may be of one thing: two that agree then say it once
    spread[:, diagonal, diagonal] *= 1 + ALIKE
    off = np.stack([trial.off for trial in trials])
    # every reading in its own standard deviation: kilograms and points do not meet in one matrix
    scale = np.sqrt(np.diag(base))
    spread /= scale[:, None] * scale
    off = off / scale
    inverse = np.asarray(np.linalg.inv(spread), dtype=np.float64)
    square = np.einsum("ti,tij,tj->t", off, inverse, off)
    _, log_size = np.linalg.slogdet(spread)
    often = np.log([trial.often for trial in trials])
    return Weighed(log_chance=often - (square + log_size) / 2, inverse=inverse, off=off)


def _of_slips(trial: Trial) -> Matrix:
    found: Matrix = trial.columns @ trial.columns.T
    return found


def changes(trial: Trial, inverse: Matrix, off: Vector, scale: Vector) -> tuple[Cause, ...]:
    """Return the causes of a hypothesis with the likeliest size of each slip: ``s a' S^-1 e`` in units of ``s``."""
    said = list(trial.causes)
    pulled = (trial.columns.T / scale) @ inverse @ off
    for (size, place), likeliest in zip(trial.slips, pulled, strict=True):
        said[place] = msgspec.structs.replace(said[place], change=float(size * likeliest))
    return tuple(said)
