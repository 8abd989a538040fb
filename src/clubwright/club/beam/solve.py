"""Natural frequencies: the largest ``1/w^2`` of ``M x = (1/w^2) K x``, never the smallest ``w^2`` of ``K x = w^2 M x``.

The rounding of a dense solve goes with the largest eigenvalue, which for ``w^2`` grows as the fourth power of the number
of elements and buries the first mode; for ``1/w^2`` it is the first mode itself. First modes by banded Cholesky and
inverse iteration; several modes by a dense symmetric solve. Derivation: docs/theory/frequency.md; checked in
tests/published/test_published_beam.py.

A banded matrix is kept by its lower diagonals: ``band[k, j]`` is the entry at row ``j + k`` and column ``j``.
"""

from __future__ import annotations

from functools import cache
from math import pi
from typing import Any

import numpy as np
from numpy.typing import NDArray

from clubwright.errors import NotPossible

Values = NDArray[Any]

ITERATIONS = 12
"""At most. An error in the start falls by (w1/w2)^2, under 1/30 for a clamped shaft, each time."""
SETTLED = 1e-12
"""Relative change of the largest place of the shape from one iteration to the next, at which it is taken as found."""
FEW = 12
"""Up to so many beams are solved one by one, which is faster than all at once."""


def frequencies_hz(stiffness: Values, mass: Values, count: int) -> Values:
    """Return the lowest `count` natural frequencies, in Hz, rising.

    Args:
        stiffness: Symmetric and positive definite, shape (n, n).
        mass: Symmetric, shape (n, n); places without mass are no harm.
        count: How many.
    """
    return modes(stiffness, mass, count)[0]


def modes(stiffness: Values, mass: Values, count: int) -> tuple[Values, Values]:
    """Return the lowest frequencies, in Hz, and their shapes in columns."""
    from scipy.linalg import eigh  # a tenth of a second: loaded once a beam is solved

    size = len(stiffness)
    inverse_squares, shapes = eigh(mass, stiffness, subset_by_index=[size - count, size - 1])
    if inverse_squares[0] <= 0:
        raise NotPossible(f"this beam has fewer than {count} modes", "Ask for fewer, or cut it into more elements.")
    return 1 / (2 * pi * np.sqrt(inverse_squares[::-1])), shapes[:, ::-1]


def first_shapes(stiffness: Values, mass: Values) -> Values:
    """Return the shape of the first mode of each of N banded beams, shape (n, N), each scaled to ``x . K x = 1``.

    Args:
        stiffness: Real and positive definite, shape (diagonals, n, N).
        mass: Real, of the same shape.

    Raises:
        NotPossible: when a stiffness is not positive definite.
    """
    if stiffness.shape[2] <= FEW:
        columns = [_one_shape(stiffness[:, :, row], mass[:, :, row]) for row in range(stiffness.shape[2])]
        return np.stack(columns, axis=1)
    return _many_shapes(stiffness, mass)


def banded_product(band: Values, x: Values) -> Values:
    """Return the product of banded matrices, shape (diagonals, n, ...), with vectors, shape (n, ...)."""
    found = band[0] * x
    for k in range(1, band.shape[0]):
        found[k:] += band[k, :-k] * x[:-k]
        found[:-k] += band[k, :-k] * x[k:]
    return np.asarray(found)


@cache
def _banded() -> tuple[Any, ...]:
    """Return the routines for banded matrices; their library takes a tenth of a second to load, once a beam is solved."""
    from scipy.linalg.blas import dsbmv, idamax
    from scipy.linalg.lapack import dpbtrf, dpbtrs

    return dpbtrf, dpbtrs, dsbmv, idamax


def _one_shape(stiffness: Values, mass: Values) -> Values:
    """Do it for one beam by the libraries for banded matrices, which want them column by column."""
    dpbtrf, dpbtrs, dsbmv, idamax = _banded()
    k, m = np.asfortranarray(stiffness), np.asfortranarray(mass)
    below = len(k) - 1
    factor, info = dpbtrf(k, lower=1)
    if info != 0:
        raise not_stiff()
    x = _start(k.shape[1])
    grown = 1.0
    for _ in range(ITERATIONS):
        x = x / grown
        moved = dsbmv(below, 1.0, m, x, lower=1)
        x, _ = dpbtrs(factor, moved, lower=1)
        before, grown = grown, abs(x[idamax(x)])
        if abs(grown - before) <= SETTLED * grown:
            break
    # K x is what was solved for: said so, nothing of it cancels
    return np.asarray(x / np.sqrt(x @ moved))


def _many_shapes(stiffness: Values, mass: Values) -> Values:
    """Do the same for all beams in step, one column of every matrix at a time."""
    factor = stiffness.copy()
    diagonals, size, count = factor.shape
    for j in range(size):
        if np.any(factor[0, j] <= 0):
            raise not_stiff()
        factor[0, j] = 1 / np.sqrt(factor[0, j])
        factor[1:, j] *= factor[0, j]
        for k in range(1, min(diagonals, size - j)):
            factor[: diagonals - k, j + k] -= factor[k:, j] * factor[k, j]
    x = np.repeat(_start(size)[:, None], count, axis=1)
    grown = np.zeros(count)
    for _ in range(ITERATIONS):
        x = banded_product(mass, x)
        for j in range(size):
            x[j] *= factor[0, j]
            reach = min(diagonals, size - j)
            x[j + 1 : j + reach] -= factor[1:reach, j] * x[j]
        for j in range(size - 1, -1, -1):
            reach = min(diagonals, size - j)
            x[j] -= (factor[1:reach, j] * x[j + 1 : j + reach]).sum(axis=0)
            x[j] *= factor[0, j]
        before, grown = grown, np.abs(x).max(axis=0)
        x /= grown
        if np.all(np.abs(grown - before) <= SETTLED * grown):
            break
    return np.asarray(x / np.sqrt((x * banded_product(stiffness, x)).sum(axis=0)))


def _start(size: int) -> Values:
    """Return a start for a beam that is free at its first node: deflection falling towards the clamp."""
    share = 1 - np.arange(size) / size
    x = share**2
    x[::2] = -2 * share[::2]
    return x


def not_stiff() -> NotPossible:
    """Say that a stiffness is not positive."""
    return NotPossible(
        "the stiffness of the beam is not positive", "Look at the stiffness profile and the factor on it."
    )
