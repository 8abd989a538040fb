"""What the parts of one family teach about the next one: shafts of one model, grips of one lot, heads of one kind.

A normal hierarchy. Part i has the true value ``t_i ~ N(m, s^2)`` and was measured as ``y_i ~ N(t_i, e_i^2)``; the family's
mean m and spread s are unknown. For a given s all is closed form; s itself, one number, is integrated over numerically, so
that with few parts its own doubt is in the answer, which a single best s would leave out. Source: A. Gelman et al.,
Bayesian Data Analysis, 5.4 (the hierarchical normal model; section from memory). Derivation: docs/theory/family.md;
checked in tests/published/test_published_family.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import hypot, isfinite, sqrt

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.errors import Finding, InputError

Values = NDArray[np.float64]

POINTS = 100
"""Gauss-Legendre points over the spread."""
OUTLIER = 3.2905
"""Standard deviations off the others from which a part is none of their family: one in a thousand, as for a reading."""
OF_A_NORMAL = 1.4826
"""Standard deviation of a normal in units of its median distance from the median: 1 / 0.6745."""
REACH = 8.0
"""Scales of the half-normal prior up to which is integrated: beyond it lies 1e-15 of it."""


class PastPart(msgspec.Struct, frozen=True, kw_only=True):
    """One part of the family: what was found of it, with the standard deviation of that finding."""

    name: str
    value: float
    sd: float


class FamilyPrior(msgspec.Struct, frozen=True, kw_only=True):
    """What is believed of a family before any part of it was measured.

    Attributes:
        mean, sd: Of the family's mean, a normal; an infinite sd says nothing.
        spread_scale: Of the spread of its parts, a half-normal (its root mean square).
    """

    mean: float
    sd: float
    spread_scale: float


STIFFNESS_FACTOR = FamilyPrior(mean=1.0, sd=0.05, spread_scale=0.03)
"""For the stiffness factor of shafts of one family: from memory, no source."""


class FamilyForecast(msgspec.Struct, frozen=True, kw_only=True):
    """The next part of a family, and the family itself.

    Attributes:
        mean, sd: Predicted for the true value of the next part.
        family_mean, family_mean_sd: Of the family's mean.
        spread, spread_sd: Mean and standard deviation of the spread of its parts.
        parts: How many were measured.
    """

    mean: float
    sd: float
    family_mean: float
    family_mean_sd: float
    spread: float
    spread_sd: float
    parts: int


def forecast_next(parts: Sequence[PastPart], prior: FamilyPrior) -> FamilyForecast:
    """Return what is expected of the next part of a family.

    With no part it is the prior's: mean, and ``sd^2 + spread_scale^2`` as variance.

    Args:
        parts: Those measured; any number.
        prior: What holds before them; a part's own doubt and the prior's keep the same unit.

    Raises:
        InputError: A number that cannot be one, a name twice, or an infinite prior sd with no part: every finding.
    """
    _check(parts, prior)
    values, sds = _arrays(parts)
    nodes, weights = _points()
    top = REACH * prior.spread_scale
    # Points crowd towards 0 (spread = top u^2), where few parts leave most of the weight.
    u = (nodes + 1) / 2
    spreads = top * u * u
    logs = log_marginal(spreads, values, sds, prior) - 0.5 * (spreads / prior.spread_scale) ** 2
    shares = weights * u * np.exp(logs - logs.max())
    shares /= shares.sum()
    means, variances = mean_given_spread(spreads, values, sds, prior)
    family_mean = float(shares @ means)
    family_variance = float(shares @ (variances + (means - family_mean) ** 2))
    spread = float(shares @ spreads)
    square = float(shares @ spreads**2)
    return FamilyForecast(
        mean=family_mean,
        sd=sqrt(family_variance + square),
        family_mean=family_mean,
        family_mean_sd=sqrt(family_variance),
        spread=spread,
        spread_sd=sqrt(max(square - spread**2, 0.0)),
        parts=len(parts),
    )


def outliers_of(parts: Sequence[PastPart], prior: FamilyPrior) -> tuple[PastPart, ...]:
    """Return the parts that do not belong to the family of the others, as they came.

    Each is held against the median of all, in units of its own doubt and of a spread that a few far ones cannot widen: the
    prior's scale and 1.4826 times the median distance from the median (P. J. Rousseeuw and C. Croux, J. Am. Stat. Assoc. 88
    (1993) 1273, from memory). Of two that differ nobody can tell which it is, and half of them is never set aside.

    Args:
        parts: Those measured.
        prior: What holds before them.

    Raises:
        InputError: as `forecast_next`.
    """
    _check(parts, prior)
    if len(parts) < 3:
        return ()
    values, sds = _arrays(parts)
    off = np.abs(values - np.median(values))
    spread = hypot(prior.spread_scale, OF_A_NORMAL * float(np.median(off)))
    far = off > OUTLIER * np.hypot(sds, spread)
    return tuple(part for part, is_far in zip(parts, far, strict=True) if is_far)


def mean_given_spread(spread: Values, values: Values, sds: Values, prior: FamilyPrior) -> tuple[Values, Values]:
    """Return mean and variance of the family's mean for each given spread, by inverse-variance weights.

    Args:
        spread: Shape (S).
        values: Of the n parts.
        sds: Standard deviation of each.
        prior: Its mean counts as one more part, of standard deviation ``prior.sd``.
    """
    precision = 1 / (sds[None, :] ** 2 + spread[:, None] ** 2)
    before = 1 / prior.sd**2
    total = precision.sum(axis=1) + before
    return (precision @ values + before * prior.mean) / total, 1 / total


def log_marginal(spread: Values, values: Values, sds: Values, prior: FamilyPrior) -> Values:
    """Return the logarithm of the likelihood of each spread with the family's mean integrated out, up to a constant.

    With an infinite ``prior.sd`` it is the restricted likelihood (REML). Shapes as `mean_given_spread`.
    """
    variance = sds[None, :] ** 2 + spread[:, None] ** 2
    mean, mean_variance = mean_given_spread(spread, values, sds, prior)
    misfit = ((values[None, :] - mean[:, None]) ** 2 / variance).sum(axis=1) + ((mean - prior.mean) / prior.sd) ** 2
    found: Values = 0.5 * (np.log(mean_variance) - np.log(variance).sum(axis=1) - misfit)
    return found


@lru_cache(maxsize=1)
def _points() -> tuple[Values, Values]:
    return np.polynomial.legendre.leggauss(POINTS)


def _arrays(parts: Sequence[PastPart]) -> tuple[Values, Values]:
    return np.array([part.value for part in parts]), np.array([part.sd for part in parts])


def _check(parts: Sequence[PastPart], prior: FamilyPrior, least: int = 0) -> None:
    findings = []
    names = [part.name for part in parts]
    for part in parts:
        if not isfinite(part.value):
            mend = "Measure it again, or leave the part out."
            findings.append(Finding(where=part.name, what=f"{part.value!r} is no number", mend=mend))
        if not (isfinite(part.sd) and part.sd > 0):
            mend = "Give the uncertainty of what was found of this part."
            findings.append(Finding(where=part.name, what=f"an uncertainty of {part.sd!r}", mend=mend))
    for name in sorted({name for name in names if names.count(name) > 1}):
        mend = "Give each part once, with all its readings in its value."
        findings.append(Finding(where=name, what=f"this part is given {names.count(name)} times", mend=mend))
    if not (isfinite(prior.mean) and prior.sd > 0 and isfinite(prior.spread_scale) and prior.spread_scale > 0):
        mend = "Give a mean, and an sd and a scale of the spread above zero."
        findings.append(Finding(where="family", what="the prior is none", mend=mend))
    if len(parts) < max(least, 0 if isfinite(prior.sd) else 1):
        what, mend = f"{len(parts)} parts do not tell", "Measure more of them, or give a prior with a finite sd."
        findings.append(Finding(where="family", what=what, mend=mend))
    if findings:
        raise InputError(findings)
