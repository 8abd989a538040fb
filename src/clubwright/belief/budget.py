"""Where the uncertainty of a quantity comes from, unknown by unknown, and what each reading took off it.

With slopes ``c`` and the covariance ``S`` of the unknowns, the variance of a quantity is the double sum
``u^2 = sum_i sum_j c_i c_j S_ij`` (JCGM 100:2008, 5.2.2, equation 13: correlated input quantities). The share of unknown
``i`` is its row of that sum, ``c_i (S c)_i / u^2``. Shares sum to 1. Where nothing is correlated it is the usual
``(c_i u_i)^2 / u^2``; a share below 0 is that of an unknown whose error takes off what others bring. Derivation:
docs/theory/belief.md; checked in tests/published/test_published_budget.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector, condition
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import carried, groups_of, together
from clubwright.belief.update import predict_readings
from clubwright.club.build import Conventions
from clubwright.club.parts import Club
from clubwright.errors import Where


class BudgetRow(msgspec.Struct, frozen=True, kw_only=True):
    """One unknown in the budget of a quantity.

    Attributes:
        unknown: Its name (`clubwright.belief.unknowns`).
        slope: How far the quantity moves for each unit of it, both in SI.
        sd: Its own standard uncertainty, in SI.
        contribution: Slope times sd, in the unit of the quantity, with the sign of the slope.
        share: Its share of the variance; all shares sum to 1, and one may be below 0 where errors hang together.
    """

    unknown: str
    slope: float
    sd: float
    contribution: float
    share: float


class Learnt(msgspec.Struct, frozen=True, kw_only=True):
    """What one reading did to a quantity, all other readings taken as they are.

    Attributes:
        where: Place of the reading in the input.
        mean_without, sd_without: The quantity without this reading, in SI.
        sd: With it.
    """

    where: Where
    mean_without: float
    sd_without: float
    sd: float

    @property
    def sharpened(self) -> float:
        """Share of the standard uncertainty that the reading took off: 0 for nothing, 1 for all of it."""
        return 0.0 if self.sd_without <= 0 else 1.0 - self.sd / self.sd_without


def budget(names: Sequence[str], slope: Vector, covariance: Matrix) -> tuple[BudgetRow, ...]:
    """Return the budget of one quantity, the largest share first.

    Args:
        names: The n unknowns.
        slope: Derivatives of the quantity by them, shape (n).
        covariance: Of the unknowns, shape (n, n).

    Returns:
        A row for each unknown that the quantity depends on; none when nothing is uncertain of it.
    """
    pulled = covariance @ slope
    variance = float(slope @ pulled)
    if variance <= 0:
        return ()
    spread = np.sqrt(np.maximum(np.diagonal(covariance), 0.0))
    rows = [
        BudgetRow(
            unknown=name,
            slope=float(slope[place]),
            sd=float(spread[place]),
            contribution=float(slope[place] * spread[place]),
            share=float(slope[place] * pulled[place]) / variance,
        )
        for place, name in enumerate(names)
        if slope[place] != 0 and spread[place] > 0
    ]
    return tuple(sorted(rows, key=lambda row: (-abs(row.share), row.unknown)))


def learnt(
    prior: Gaussian,
    template: Club,
    conventions: Conventions,
    taken: Sequence[Reading],
    at: Vector,
    mean: float,
    slope: Vector,
) -> tuple[Learnt, ...]:
    """Say of each reading what a quantity would be without it, linearised where all of them have led.

    Args:
        prior: Belief before any reading, with the biases of their gauges among its n unknowns (`with_biases`).
        template: The club.
        conventions: Definitions in use.
        taken: The m readings that are in the belief.
        at: The belief's mean after all of them, shape (n).
        mean: The quantity there.
        slope: Its derivatives there, shape (n).

    Returns:
        One for each reading, in their order. Exact where the club answers in straight lines, to second order elsewhere.
    """
    if not taken:
        return ()
    groups = groups_of(prior, template, conventions, taken)
    values, slopes = predict_readings(template, conventions, prior.names, at, taken)
    seen = np.array([reading.value for reading in taken]) - values + slopes @ at

    def after(places: Sequence[int]) -> tuple[float, float]:
        read = [taken[place] for place in places]
        rows = slopes[list(places)]
        means, noise = together(read, [groups[place] for place in places], carried(prior, read, rows))
        rows = means @ rows
        belief = condition(prior, lambda guess: (rows @ guess, rows), means @ seen[list(places)], noise)
        return mean + float(slope @ (belief.mean - at)), _sd(slope, belief.covariance)

    every = range(len(taken))
    _, whole = after(every)
    found = []
    for place in every:
        others = [other for other in every if other != place]
        alone = (mean + float(slope @ (prior.mean - at)), _sd(slope, prior.covariance))
        without, sd = after(others) if others else alone
        found.append(Learnt(where=taken[place].where, mean_without=without, sd_without=sd, sd=whole))
    return tuple(found)


def _sd(slope: Vector, covariance: Matrix) -> float:
    return float(np.sqrt(max(float(slope @ covariance @ slope), 0.0)))
