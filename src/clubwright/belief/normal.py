"""The normal distribution function and its inverse, on numbers and on arrays.

Written out, since the library that also has them takes longer to load than a ticket takes to work
(docs/decisions/0024-what-a-command-loads.md). Checked against scipy, and against the standard library, in
tests/published/test_published_normal.py; the coefficients are written from memory, and a wrong digit would fail there.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import erfc
from typing import overload

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631: beyond 4, numerator and
# denominator by falling powers of 1 / x^2.
_FAR = (
    (
        1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1, 1.25781726111229246e-1,
        1.60837851487422766e-2, 6.58749161529837803e-4,
    ),
    (
        1.0, 2.56852019228982242e00, 1.87295284992346725e00, 5.27905102951428412e-1, 6.05183413124413191e-2,
        2.33520497626869185e-3,
    ),
)  # fmt: skip

# M. J. Wichura, algorithm AS 241, Applied Statistics 37 (1988) 477, PPND16: by falling powers, in 0.180625 - (p - 1/2)^2 in
# the middle, else in r - 1.6 and r - 5 with r = sqrt(-ln p).
_INNER = 0.425
_OUTER_R = 5.0
_CENTRE = (
    (
        2.5090809287301226727e3, 3.3430575583588128105e4, 6.7265770927008700853e4, 4.5921953931549871457e4,
        1.3731693765509461125e4, 1.9715909503065514427e3, 1.3314166789178437745e2, 3.3871328727963666080e0,
    ),
    (
        5.2264952788528545610e3, 2.8729085735721942674e4, 3.9307895800092710610e4, 2.1213794301586595867e4,
        5.3941960214247511077e3, 6.8718700749205790830e2, 4.2313330701600911252e1, 1.0,
    ),
)  # fmt: skip
_SHOULDER = (
    (
        7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1, 1.27045825245236838258e0,
        3.64784832476320460504e0, 5.76949722146069140550e0, 4.63033784615654529590e0, 1.42343711074968357734e0,
    ),
    (
        1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2, 1.48103976427480074590e-1,
        6.89767334985100004550e-1, 1.67638483018380384940e0, 2.05319162663775882187e0, 1.0,
    ),
)  # fmt: skip
_TAIL = (
    (
        2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3, 2.65321895265761230930e-2,
        2.96560571828504891230e-1, 1.78482653991729133580e0, 5.46378491116411436990e0, 6.65790464350110377720e0,
    ),
    (
        2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5, 7.86869131145613259100e-4,
        1.48753612908506148525e-2, 1.36929880922735805310e-1, 5.99832206555887937690e-1, 1.0,
    ),
)  # fmt: skip

_ROOT_HALF = 0.5**0.5
_AT_ONCE = 8192
"""So many numbers at once: what lies between them and the answer stays in the processor's cache."""
_REACH = 9
"""So far from the middle the table goes; above it the chance is 1 to the last digit."""
_GONE = -39.0
"""Below this nothing of the tail is left in a float."""
_STEPS = 512
"""Rows of the table for each standard deviation."""


@overload
def chance_below(z: float) -> float: ...
@overload
def chance_below(z: Array) -> Array: ...
def chance_below(z: float | Array) -> float | Array:
    """Return the chance that a standard normal quantity lies below z; relative error under 2e-14 from z = -9 on.

    Down to z = -37, where a float holds no smaller chance, it is under 2e-13.
    """
    if isinstance(z, float):
        return erfc(-z * _ROOT_HALF) / 2
    return _in_parts(_chance_below, z)


@overload
def quantile(p: float) -> float: ...
@overload
def quantile(p: Array) -> Array: ...
def quantile(p: float | Array) -> float | Array:
    """Return below which z a standard normal quantity lies with a chance p, from 0 to 1 (infinite there)."""
    if isinstance(p, float):
        return float(_quantile(np.array([p]))[0])
    return _in_parts(_quantile, p)


def _in_parts(function: Callable[[Array], Array], given: Array) -> Array:
    """Apply a function of a row of numbers to an array of any shape."""
    flat = np.asarray(given, dtype=np.float64).ravel()
    found = np.empty_like(flat)
    for start in range(0, flat.size, _AT_ONCE):
        part = slice(start, start + _AT_ONCE)
        found[part] = function(flat[part])
    return found.reshape(np.shape(given))


def _ratio(powers: tuple[tuple[float, ...], tuple[float, ...]], x: Array) -> Array:
    """Return the quotient of two polynomials, each by its falling powers."""
    above, below = (_polynomial(each, x) for each in powers)
    return above / below


def _polynomial(powers: tuple[float, ...], x: Array) -> Array:
    first, second, *rest = powers
    found = first * x
    found += second
    for each in rest:
        found *= x
        found += each
    return found


def _chance_below(z: Array) -> Array:
    """Return the chances below a row of places."""
    found = np.where(z > 0, 1.0, 0.0)
    near = np.abs(z) <= _REACH
    if near.all():
        return _near(z)
    found[near] = _near(z[near])
    tail = (z < -_REACH) & (z > _GONE)
    if tail.any():
        found[tail] = _tail(z[tail])
    found[np.isnan(z)] = np.nan
    return found


def _near(z: Array) -> Array:
    """Return what the nearest row of the table says, and Taylor's series from there to z.

    The derivatives of the normal density follow from its own: ``f' = -z f`` (M. Abramowitz and I. A. Stegun, Handbook of
    Mathematical Functions, 26.2, from memory). The first term left out is under 1e-15 of the chance.
    """
    chances, densities = _table()
    row = np.rint(z * _STEPS)
    at = row * (1 / _STEPS)
    places = row.astype(np.intp)
    places += _REACH * _STEPS
    h = z - at
    square = at * at
    # the fourth, third, second and first derivative over the density, at the row
    found = square - 6
    found *= square
    found += 3
    found *= h / 120
    found += (3 - square) * at / 24
    found *= h
    square -= 1
    square /= 6
    found += square
    found *= h
    at /= 2
    found -= at
    found *= h
    found += 1
    found *= h
    found *= densities[places]
    found += chances[places]
    return found


def _tail(z: Array) -> Array:
    """Return the same far below the middle."""
    x = -z * _ROOT_HALF
    # exp(-x^2) without the rounding of the square, which the exponent would magnify
    short = np.trunc(x * 16) / 16
    bell = np.exp(-short * short) * np.exp(-(x - short) * (x + short))
    square = 1 / (x * x)
    return np.asarray(bell / (2 * x) * (1 / np.sqrt(np.pi) - square * _ratio(_FAR, square)))


@cache
def _table() -> tuple[Array, Array]:
    """Return the chance below each row's place, and the density there."""
    places = np.arange(-_REACH * _STEPS, _REACH * _STEPS + 1) / _STEPS
    chances = np.array([erfc(-place * _ROOT_HALF) / 2 for place in places.tolist()])
    return chances, np.exp(-places * places / 2) / np.sqrt(2 * np.pi)


def _quantile(p: Array) -> Array:
    off = p - 0.5
    found = np.full_like(p, np.nan)
    centre = np.abs(off) <= _INNER
    q = off[centre]
    found[centre] = q * _ratio(_CENTRE, _INNER * _INNER - q * q)
    outside = ~centre & (p > 0) & (p < 1)
    share = p[outside]
    r = np.sqrt(-np.log(np.minimum(share, 1 - share)))
    far = _ratio(_SHOULDER, r - 1.6)
    tail = r > _OUTER_R
    if tail.any():
        far[tail] = _ratio(_TAIL, r[tail] - _OUTER_R)
    found[outside] = np.copysign(far, off[outside])
    found[p == 0], found[p == 1] = -np.inf, np.inf
    return found
