"""A stretch of the raw shaft as its two ends see it while it swings: the nodes between are worked into a series, once.

With the ends moving as ``exp(i w t)`` the inner nodes follow, and the ends feel ``D(L) = A_ee - A_ei A_ii^-1 A_ie``, where
``A = K - L M`` are the stretch's matrices and L is the square of the frequency (dynamic condensation: A. Y. T. Leung,
Int. J. Numer. Methods Eng. 12 (1978) 1705, from memory). Below the first frequency at which the stretch would swing between
ends held still, which lies far above a club's, D is a power series in L. Each club has its own density,
``(1 + B (s - c) / l)`` times that of the mesh, so the coefficient of L^n is a polynomial of degree n in B. No node is lost:
what comes out is what all elements together would give. Derivation: docs/theory/frequency.md; checked in
tests/published/test_published_stretch.py.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.elements import COLUMNS, PAIRS, ROWS
from clubwright.club.beam.mesh import Mesh, element

Values = NDArray[Any]

LEVELS = 5
"""Shapes of the inner nodes that are kept: as they follow at rest, as the inertia of that moves them, and so on."""
ORDER = 2 * LEVELS - 1
"""Of the series: a form of two shapes is good to the sum of their levels."""
SHARE = 0.06
"""Of the first square at which the stretch swings between fixed ends, the most at which the series is used: what it leaves
out goes with the tenth power."""


class Stretch(NamedTuple):
    """The series of one stretch.

    Attributes:
        centre_m, length_m: What B is counted about, and over.
        series: Coefficients by powers of L, by the entries of D (`PAIRS`) and of its slope by L, and by powers of B, shape
            (20 (ORDER + 1), ORDER + 1).
        reach: The largest L for which it serves, where B is small.
    """

    centre_m: float
    length_m: float
    series: Values
    reach: float


def stretch(mesh: Mesh, low: int, high: int) -> Stretch:
    """Work the nodes between two nodes of the raw shaft into a series, for a factor of 1 on stiffness and density."""
    ends = mesh.nodes_m[[low, high]]
    centre, length = float(ends.mean()), float(ends[1] - ends[0])
    stiffness = _matrix(mesh.stiffness[:, low:high])
    level = _matrix(mesh.mass[:, low:high])
    sloped = (_matrix(mesh.mass_s[:, low:high]) - centre * level) / length
    size = len(level)
    outer, inner = [0, 1, size - 2, size - 1], slice(2, size - 2)
    give = np.linalg.inv(stiffness[inner, inner])
    rest = np.zeros((1, size, 4))
    rest[0, outer] = np.eye(4)
    rest[0, inner] = -give @ stiffness[inner, outer]
    # by powers of B: the shapes of the nodes, and what their inertia weighs
    shapes, loads = [rest], [_loads(level, sloped, rest)]
    for _ in range(LEVELS - 1):
        follow = np.zeros_like(loads[-1])
        follow[:, inner] = give @ loads[-1][:, inner]
        shapes.append(follow)
        loads.append(_loads(level, sloped, follow))
    series = np.zeros((ORDER + 1, len(PAIRS), ORDER + 1))
    series[0, :, 0] = element(mesh, ends[:1], ends[1:], hung=False).stiffness[:, 0]
    for power in range(1, ORDER + 1):
        first = (power - 1) // 2
        second = power - 1 - first
        for k, shape in enumerate(shapes[first]):
            for n, load in enumerate(loads[second]):
                series[power, :, k + n] -= (shape.T @ load)[ROWS, COLUMNS]
    last = series[-2:, PAIRS.index((1, 1)), 0]
    slopes = np.zeros_like(series)
    slopes[:-1] = series[1:] * np.arange(1, ORDER + 1)[:, None, None]
    both = np.concatenate([series, slopes], axis=1)
    return Stretch(centre, length, both.reshape(-1, ORDER + 1), SHARE * float(last[0] / last[1]))


def _loads(level: Values, sloped: Values, shapes: Values) -> Values:
    found = np.zeros((len(shapes) + 1, *shapes.shape[1:]))
    found[:-1] += level @ shapes
    found[1:] += sloped @ shapes
    return found


def _matrix(entries: Values) -> Values:
    """Put elements together, given by their ten entries, shape (10, elements)."""
    count = entries.shape[1]
    found = np.zeros((2 * count + 2, 2 * count + 2))
    for place, (a, b) in enumerate(PAIRS):
        rows = 2 * np.arange(count)
        found[rows + a, rows + b] += entries[place]
        if a != b:
            found[rows + b, rows + a] += entries[place]
    return found
