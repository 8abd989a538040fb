"""Errors that several measured figures have in common: each one unknown, by which the figures hang together.

A scale that shows ``b`` too much makes every mass that it weighs ``y - b``. With nothing else known of the masses, the
belief about them and about ``b`` is the solution of the general linear least-squares problem ``y = x + b + noise`` with
``b`` known to be 0 give or take its standard uncertainty. Derivation: docs/theory/belief.md; checked in
tests/published/test_published_scale_error.py.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian


class SharedError(NamedTuple):
    """The error of one measured figure that it has in common with whatever names the same unknown.

    Attributes:
        unknown: Its name (`clubwright.belief.unknowns`).
        sd: Its standard uncertainty, in SI.
        slopes: By the path of each number that rests on the figure, how far it moves with the figure.
    """

    unknown: str
    sd: float
    slopes: Mapping[str, float]


def hung_together(belief: Gaussian, errors: Sequence[SharedError]) -> Gaussian:
    """Return a belief whose figures share their errors.

    Args:
        belief: Its variances have those errors in them already, each figure by itself.
        errors: One for each figure and error; those of one name are one unknown, of the largest uncertainty that is said.

    Returns:
        The belief with one more unknown for each name, its mean 0; the variance of each number stays what it was.
    """
    names = list(dict.fromkeys(error.unknown for error in errors))
    if not names:
        return belief
    spread = {name: max(error.sd for error in errors if error.unknown == name) for name in names}
    found = belief.extended({name: (0.0, sd) for name, sd in spread.items()})
    covariance = found.covariance.copy()
    for name in names:
        columns = [_column(found, error.slopes) for error in errors if error.unknown == name]
        whole, place, variance = np.sum(columns, axis=0), found.index(name), spread[name] ** 2
        alone = np.sum([np.outer(column, column) for column in columns], axis=0)
        covariance += variance * (np.outer(whole, whole) - alone)
        covariance[place] -= variance * whole
        covariance[:, place] -= variance * whole
    return msgspec.structs.replace(found, covariance=covariance)


def _column(belief: Gaussian, slopes: Mapping[str, float]) -> np.ndarray:
    column = np.zeros(len(belief.names))
    for path, slope in slopes.items():
        if path in belief.names:
            column[belief.index(path)] = slope
    return column
