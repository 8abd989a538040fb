"""What a belief says of the club's quantities at any stage, and how they depend on each unknown.

Derivatives are by complex step: with h = 1e-30, f(x + ih) = f(x) + ih f'(x) to machine precision and without the loss of
digits of a difference (W. Squire and G. Trapp, SIAM Review 40 (1998) 110). One evaluation on an array gives the value
and all derivatives at once, for as many sets of fitted weights as are asked about.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.gaussian import Gaussian, Matrix, Vector
from clubwright.belief.unknowns import club_with
from clubwright.club.build import Build, Conventions
from clubwright.club.earlier import club_then
from clubwright.club.part_figures import PART_FIGURES
from clubwright.club.part_paths import at_path
from clubwright.club.parts import Club
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import Stage
from clubwright.errors import NotPossible
from clubwright.units import Number

STEP = 1e-30


class Prediction(msgspec.Struct, frozen=True, kw_only=True):
    """Joint Gaussian of some quantities, for each of C sets of fitted weights.

    Attributes:
        keys: The q quantities.
        mean: Shape (C, q).
        covariance: Shape (C, q, q).
        slope: Derivatives by the n unknowns, shape (C, q, n).
    """

    keys: tuple[str, ...]
    mean: Vector
    covariance: NDArray[np.float64]
    slope: NDArray[np.float64]

    def sd(self) -> Vector:
        """Return the standard deviations, shape (C, q)."""
        variances = np.diagonal(self.covariance, axis1=1, axis2=2)
        return np.sqrt(np.maximum(variances, 0.0))


def values(
    template: Club,
    conventions: Conventions,
    names: Sequence[str],
    theta: Sequence[Number],
    keys: Sequence[str],
    stage: Stage,
    fitted: Sequence[Number],
    then: int | None = None,
) -> list[Number]:
    """Evaluate quantities (keys, part paths, part figures) of the club that goes with one guess, or an array of guesses.

    With `then` it is the club as it was before that change of it.

    Raises:
        NotPossible: for a number of a part that the club has not.
    """
    club = club_with(template, names, theta)
    if then is not None:
        club = club_then(club, then)
    build = Build(club=club, stage=stage, fitted=tuple(fitted), conventions=conventions)
    return [_value(build, club, key) for key in keys]


def _value(build: Build, club: Club, key: str) -> Number:
    if key in QUANTITIES:
        return QUANTITIES[key].of(build)
    if key in PART_FIGURES:
        return PART_FIGURES[key](build.club)
    try:
        number: Number = at_path(club, key)
    except (IndexError, AttributeError) as gone:
        raise NotPossible(f"this club has no part {key}", "Read it of the club that had it.") from gone
    return number


def linearise(
    template: Club,
    conventions: Conventions,
    names: Sequence[str],
    at: Vector,
    keys: Sequence[str],
    stage: Stage,
    fitted: Matrix,
    then: int | None = None,
) -> tuple[Vector, NDArray[np.float64]]:
    """Evaluate quantities and their derivatives by the unknowns.

    Args:
        template: The club whose named numbers are replaced.
        conventions: Definitions in use.
        names: The n unknowns.
        at: Where to evaluate, shape (n).
        keys: The q quantities.
        stage: Stage of the build.
        fitted: Counts of each of w weights, shape (C, w).
        then: The change before which the club is asked about; None for the club as it is now.

    Returns:
        Values, shape (C, q), and derivatives, shape (C, q, n).
    """
    size, sets = len(names), fitted.shape[0]
    # Guess k, in column k, is the estimate with unknown k alone stepped off the real axis.
    theta: list[Number] = list(at[:, None] + 1j * STEP * np.eye(size))
    counts: list[Number] = [fitted[:, [column]].astype(complex) for column in range(fitted.shape[1])]
    shape = (sets, size)
    found = [np.broadcast_to(v, shape) for v in values(template, conventions, names, theta, keys, stage, counts, then)]
    stacked = np.stack(found, axis=1)
    return stacked[:, :, 0].real.copy(), stacked.imag / STEP


def predict(
    belief: Gaussian,
    template: Club,
    conventions: Conventions,
    keys: Sequence[str],
    stage: Stage,
    fitted: Matrix,
) -> Prediction:
    """Say what a belief holds of some quantities at one stage, for each set of fitted weights (linearised at its mean)."""
    mean, slope = linearise(template, conventions, belief.names, belief.mean, keys, stage, fitted)
    covariance = slope @ belief.covariance @ np.swapaxes(slope, 1, 2)
    return Prediction(keys=tuple(keys), mean=mean, covariance=covariance, slope=slope)
