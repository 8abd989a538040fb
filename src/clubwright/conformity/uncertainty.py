"""Standard uncertainty of a figure, and how sure that uncertainty itself is; a gauge's own: `clubwright.belief.instruments`.

Rules of JCGM 100:2008 (the GUM). Derivation: docs/theory/conformity.md; checked in tests/published/
test_published_gum.py.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.normal import quantile
from clubwright.conformity.rules import require_numbers
from clubwright.errors import Finding, InputError


class TypeA(msgspec.Struct, frozen=True, kw_only=True):
    """A series of readings, evaluated by its own scatter (JCGM 100:2008, 4.2).

    Attributes:
        mean: Arithmetic mean.
        sd: Experimental standard deviation of one reading.
        u: Standard uncertainty of the mean, sd / sqrt(n).
        dof: Degrees of freedom, n - 1.
    """

    mean: float
    sd: float
    u: float
    dof: int


def type_a(readings: Sequence[float]) -> TypeA:
    """Evaluate a series of at least two readings, in the unit they are in.

    Raises:
        InputError: Fewer than two readings, or one that is not finite.
    """
    require_numbers(any_sign={f"reading {i}": value for i, value in enumerate(readings, 1)}, at_least_zero={})
    if len(readings) < 2:
        message = f"{len(readings)} reading shows no scatter"
        raise InputError([Finding(where="readings", what=message, mend="Take at least two.")])
    values = np.asarray(readings, dtype=float)
    sd = float(values.std(ddof=1))
    return TypeA(mean=float(values.mean()), sd=sd, u=sd / math.sqrt(len(values)), dof=len(values) - 1)


def rectangular_u(half_width: float) -> float:
    """Return the standard uncertainty of a value anywhere within +-half_width, a / sqrt(3) (JCGM 100:2008, 4.3.7)."""
    return half_width / math.sqrt(3)


def triangular_u(half_width: float) -> float:
    """Return the standard uncertainty of a value likeliest in the middle, a / sqrt(6) (JCGM 100:2008, 4.3.9)."""
    return half_width / math.sqrt(6)


def resolution_u(step: float) -> float:
    """Return the share of a scale's step, step / sqrt(12): half a step either way (JCGM 100:2008, F.2.2.1)."""
    return rectangular_u(step / 2)


def combined_u(contributions: Sequence[float]) -> float:
    """Return the root sum of squares of independent contributions, each sensitivity times u (JCGM 100:2008, 5.1.2)."""
    return math.hypot(*contributions)


def effective_dof(contributions: Sequence[float], dof: Sequence[float]) -> float:
    """Return the Welch-Satterthwaite degrees of freedom (JCGM 100:2008, G.4.1).

    Args:
        contributions: Independent contributions, each sensitivity times u.
        dof: Degrees of freedom of each, above 0; infinity for a contribution that is known well.

    Returns:
        ``u_c^4 / sum(u_i^4 / dof_i)``; infinity when nothing scatters.

    Raises:
        InputError: The lists differ in length, or a number of degrees of freedom is not above 0.
    """
    if len(contributions) != len(dof):
        message = f"{len(dof)} for {len(contributions)} contributions"
        raise InputError([Finding(where="degrees of freedom", what=message, mend="Give one for each contribution.")])
    if any(not value > 0 for value in dof):
        message = f"{list(dof)} holds one that is not above 0"
        raise InputError([Finding(where="degrees of freedom", what=message, mend="Use infinity for a known value.")])
    scatter = math.fsum(u**4 / v for u, v in zip(contributions, dof, strict=True))
    return combined_u(contributions) ** 4 / scatter if scatter > 0 else math.inf


def coverage_factor(probability: float, dof: float = math.inf) -> float:
    """Return k for a two-sided interval y +- k u of that coverage, by Student's t (JCGM 100:2008, G.3).

    Args:
        probability: Coverage, above 0 and below 1.
        dof: Effective degrees of freedom, above 0.
    """
    if math.isinf(dof):
        return quantile((1 + probability) / 2)
    from scipy.special import stdtrit  # a tenth of a second, for the few that ask

    return float(stdtrit(dof, (1 + probability) / 2))
