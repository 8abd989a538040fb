"""The chance that a jointly Gaussian set of quantities lies inside a box: that all targets end within tolerance.

One quantity: exact. More: the separation-of-variables transform of A. Genz, J. Comput. Graph. Stat. 1 (1992) 141, with
fixed points instead of random ones (Gauss-Legendre up to three quantities, a Richtmyer lattice beyond), so that the same
belief always gives the same digits. Checked against scipy's own multivariate normal in
tests/published/test_published_belief.py.
"""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from clubwright.belief.normal import chance_below, quantile

Array: TypeAlias = NDArray[Any]

_TINY = 1e-15
_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19)


def box_probability(mean: Array, covariance: Array, low: Array, high: Array) -> Array:
    """Return the probability of the box for each of C Gaussians.

    Args:
        mean: Shape (C, d), d from 1 to 9.
        covariance: Shape (C, d, d).
        low: Lower faces of the box, shape (d), in the same units; infinities are allowed.
        high: Upper faces, likewise.

    Returns:
        Shape (C), from 0 to 1. Exact for d = 1; within 1e-3 beyond. Where one quantity hangs on the others entirely, as
        the balance point on swing weight and total weight, the integrand has a jump, and it is within 3e-3.
    """
    dimensions = mean.shape[1]
    spread = np.sqrt(np.maximum(np.diagonal(covariance, axis1=1, axis2=2), 0.0))
    # A quantity without spread still needs a scale; a face at infinity gives none.
    faces = np.where(np.isfinite(high), np.abs(high), 0.0)
    scale = np.maximum(spread, 1e-12 * np.maximum(faces, 1e-12))
    a, b = (low - mean) / scale, (high - mean) / scale
    if dimensions == 1:
        single: Array = chance_below(b[:, 0]) - chance_below(a[:, 0])
        return single
    correlation = covariance / (scale[:, :, None] * scale[:, None, :])
    # Integrate the least likely quantity first: Genz and Bretz's ordering, by marginal probability.
    order = np.argsort(chance_below(b) - chance_below(a), axis=1)
    a, b = np.take_along_axis(a, order, 1), np.take_along_axis(b, order, 1)
    rows = np.take_along_axis(correlation, order[:, :, None], 1)
    correlation = np.take_along_axis(rows, order[:, None, :], 2)
    factor = np.linalg.cholesky(correlation + 1e-10 * np.eye(dimensions))
    points, weights = _points(dimensions - 1)
    return _separate(factor, a, b, points, weights)


def _separate(factor: Array, a: Array, b: Array, points: Array, weights: Array) -> Array:
    """Genz's transform: integrate one quantity after another, each given those before it."""
    candidates, dimensions = a.shape
    drawn = np.zeros((candidates, dimensions, points.shape[0]))
    product = np.ones((candidates, points.shape[0]))
    for k in range(dimensions):
        # The first is given nothing: one number for all points.
        shift = np.einsum("ck,ckp->cp", factor[:, k, :k], drawn[:, :k, :]) if k else np.zeros((candidates, 1))
        below = chance_below((a[:, [k]] - shift) / factor[:, k, [k]])
        above = chance_below((b[:, [k]] - shift) / factor[:, k, [k]])
        width = above - below
        product = product * width
        if k < dimensions - 1:
            drawn[:, k, :] = quantile(np.clip(below + points[:, k] * width, _TINY, 1 - _TINY))
    return np.clip(product @ weights, 0.0, 1.0)


@cache
def _points(dimensions: int) -> tuple[Array, Array]:
    """Fixed points in the unit cube and their weights."""
    if dimensions <= 2:
        nodes, shares = _panels(32, 8) if dimensions == 1 else _panels(1, 24)
        grid = np.meshgrid(*[nodes] * dimensions, indexing="ij")
        share = np.meshgrid(*[shares] * dimensions, indexing="ij")
        return np.stack([g.ravel() for g in grid], axis=1), np.prod([s.ravel() for s in share], axis=0)
    count = 4093
    roots = np.sqrt(np.array(_PRIMES[:dimensions], dtype=float))
    lattice = np.abs(2 * np.modf(np.outer(np.arange(1, count + 1), roots))[0] - 1)
    return lattice, np.full(count, 1 / count)


def _panels(count: int, order: int) -> tuple[Array, Array]:
    """Gauss-Legendre points of an order in each of so many equal panels of the unit interval, and their weights.

    Many panels, not one high order, where a jump may lie anywhere: it costs one panel.
    """
    nodes, weights = np.polynomial.legendre.leggauss(order)
    starts = np.arange(count)[:, None] / count
    return (starts + (nodes + 1) / (2 * count)).ravel(), np.tile(weights / (2 * count), count)
