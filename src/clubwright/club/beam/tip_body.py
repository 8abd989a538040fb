"""A rigid body on the end of a beam: its mass, where its centre of gravity sits, and its inertia.

With the centre off the axis, bending in one plane twists the shaft and turns into the other. Derivation:
docs/theory/frequency.md; checked in tests/published/test_published_beam_codes.py.
"""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.float64]


class TipBody(msgspec.Struct, frozen=True, kw_only=True):
    """A rigid body fixed to one node of a beam.

    Attributes:
        mass_kg: Its mass.
        beyond_m: Centre of gravity beyond the node, along the beam's axis.
        y_m, z_m: Centre of gravity off the axis.
        inertia_kg_m2: About its own centre, round the axis of the beam, round y and round z.
    """

    mass_kg: float
    beyond_m: float = 0.0
    y_m: float = 0.0
    z_m: float = 0.0
    inertia_kg_m2: tuple[float, float, float] = (0.0, 0.0, 0.0)

    def mass_matrix(self) -> Matrix:
        """Return the 6 x 6 mass matrix for the node's displacement (x, y, z) and rotation about the same axes.

        The centre moves by ``u + phi x r``; kinetic energy ``m |v|^2 / 2 + phi . J phi / 2``.
        """
        x, y, z = self.beyond_m, self.y_m, self.z_m
        # phi x r, written as a matrix times phi.
        cross = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
        move = np.hstack([np.eye(3), cross])
        matrix: Matrix = self.mass_kg * move.T @ move
        matrix[3:, 3:] += np.diag(self.inertia_kg_m2)
        return matrix
