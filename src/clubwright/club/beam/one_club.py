"""The first mode of one club in plain numbers: what `clubwright.club.beam.first_mode` does for many, several times as fast.

The same elements, put together otherwise (`clubwright.club.beam.chain`), since a call of an array library costs as much as
fifty products. From the clamp down to one node, and from the tip up to it, each link is worked into two by two numbers, with
their slopes by L, the square of the angular frequency over a scale. The club swings where nothing holds that node: Newton's
steps from rest, which are Rayleigh quotients of ever better shapes, so each doubles the digits. They come down on the first
mode from above; that no step went beyond the first mode with the node held is seen by its pivots, all positive below it
(W. H. Wittrick and F. W. Williams, Q. J. Mech. Appl. Math. 24 (1971) 263, from memory). Derivation:
docs/theory/frequency.md; checked in tests/published/test_published_stretch.py and tests/unit/club/test_one_club.py.
"""

from __future__ import annotations

from clubwright.club.beam.chain import Chain, One, Three, TipLink, chain_of, powers_of
from clubwright.club.beam.plain import Plain, Ten
from clubwright.club.beam.solve import not_stiff

STEPS = 40
SETTLED = 2e-6
"""Relative step after which the next one would be lost in rounding: it is under a tenth of the square of this one."""


def first_square(plain: Plain, one: One, compliance_rad_n_m: float) -> float | None:
    """Return ``w^2`` of the first mode of a club that lies level, in 1/s2; None where Newton's steps do not settle.

    Args:
        plain: Of the raw shaft.
        one: The club.
        compliance_rad_n_m: Give of the clamp.

    Raises:
        NotPossible: when the stiffness is not positive.
    """
    if not one.factor > 0:
        raise not_stiff()
    chain = chain_of(plain, one, compliance_rad_n_m, whole=False)
    found = _root(chain)
    if found is not None and found > chain.reach:
        chain = chain_of(plain, one, compliance_rad_n_m, whole=True)
        found = _root(chain)
    return None if found is None else found * one.factor / chain.level


class _Beyond(Exception):
    """L lies above the first mode with a node held."""


def _root(chain: Chain) -> float | None:
    """Return L of the first mode, by Newton's steps from 0; None where there is none, or they do not settle."""
    at = 0.0
    if not chain.level > 0:
        return None
    for _ in range(STEPS):
        try:
            (s0, s1, s2), (ds0, ds1, ds2) = _from_clamp(chain, at)
            (z0, z1, z2), (dz0, dz1, dz2) = _from_tip(chain.tip, at)
        except _Beyond:
            at /= 2
            continue
        s0, s1, s2 = s0 + z0, s1 + z1, s2 + z2
        if not s0 > 0:
            at /= 2
            continue
        slope = -s1 / s0
        left = s2 + slope * s1
        by_square = ds2 + dz2 + slope * (2 * (ds1 + dz1) + slope * (ds0 + dz0))
        if not by_square < 0:
            return None
        step = left / by_square
        at -= step
        if abs(step) <= SETTLED * at:
            return at
    return None


def _from_clamp(chain: Chain, at: float) -> tuple[Three, Three]:
    """Return how the shaft above the node resists its (slope, deflection), with the slopes of that by L."""
    k, m = chain.last
    s: Three = (k[0] - at * m[0], k[1] - at * m[1], k[2] - at * m[2])
    ds: Three = (-m[0], -m[1], -m[2])
    if chain.soft:
        # the clamped end turns: it follows with x
        pivot = k[5] - at * m[5]
        if not pivot > 0:
            raise _Beyond
        x0, x1 = (at * m[3] - k[3]) / pivot, (at * m[4] - k[4]) / pivot
        s = (s[0] - x0 * x0 * pivot, s[1] - x0 * x1 * pivot, s[2] - x1 * x1 * pivot)
        ds = (
            ds[0] - 2 * x0 * m[3] - x0 * x0 * m[5],
            ds[1] - x0 * m[4] - x1 * m[3] - x0 * x1 * m[5],
            ds[2] - 2 * x1 * m[4] - x1 * x1 * m[5],
        )
    for k, m in chain.above:
        s, ds = _down([one - at * other for one, other in zip(k, m, strict=True)], [-other for other in m], s, ds)
    if chain.series is None:
        return s, ds
    both = (powers_of(at) @ chain.series).tolist() if at else chain.series[0].tolist()
    return _down(both[:10], both[10:], s, ds)


def _down(v: Ten, d: Ten, s: Three, ds: Three) -> tuple[Three, Three]:
    """Take one link in: what holds its upper end is known, what holds its lower end is sought."""
    u0, u1, u2 = v[5] + s[0], v[8] + s[1], v[9] + s[2]
    du0, du1, du2 = d[5] + ds[0], d[8] + ds[1], d[9] + ds[2]
    _, _, _, c0, c1, _, c2, c3, _, _ = v
    d0, d1, d2, dc0, dc1, _, dc2, dc3, _, _ = d
    # the upper end follows the lower one by X = -U^-1 C
    det = u0 * u2 - u1 * u1
    if not (u0 > 0 and det > 0):
        raise _Beyond
    over = -1 / det
    x0, x1 = (u2 * c0 - u1 * c2) * over, (u2 * c1 - u1 * c3) * over
    x2, x3 = (u0 * c2 - u1 * c0) * over, (u0 * c3 - u1 * c1) * over
    y0, y1, y2, y3 = du0 * x0 + du1 * x2, du0 * x1 + du1 * x3, du1 * x0 + du2 * x2, du1 * x1 + du2 * x3
    return (
        (v[0] + c0 * x0 + c2 * x2, v[1] + c1 * x0 + c3 * x2, v[2] + c1 * x1 + c3 * x3),
        (
            d0 + 2 * (dc0 * x0 + dc2 * x2) + x0 * y0 + x2 * y2,
            d1 + dc0 * x1 + dc2 * x3 + dc1 * x0 + dc3 * x2 + x1 * y0 + x3 * y2,
            d2 + 2 * (dc1 * x1 + dc3 * x3) + x1 * y1 + x3 * y3,
        ),
    )


def _from_tip(links: list[TipLink], at: float) -> tuple[Three, Three]:
    """Return how what lies below the node drives its (slope, deflection), with the slopes of that by L."""
    z0 = z1 = z2 = dz0 = dz1 = dz2 = 0.0
    for h, (k0, k1, k2), (m0, m1, m2), (p0, p1, p2, p3), (u0, u1, u2) in links:
        a0, a1, a2 = k0 + z0 - at * m0, k1 + z1 - at * m1, k2 + z2 - at * m2
        da0, da1, da2 = dz0 - m0, dz1 - m1, dz2 - m2
        z3, dz3 = z1 - h * z2, dz1 - h * dz2
        c0, c1, c2, c3 = z0 - h * z1 - at * p0, z1 - at * p1, z3 - at * p2, z2 - at * p3
        dc0, dc1, dc2, dc3 = dz0 - h * dz1 - p0, dz1 - p1, dz3 - p2, dz2 - p3
        # the bend follows the upper end by X = -A^-1 C
        det = a0 * a2 - a1 * a1
        if not (a0 > 0 and det > 0):
            raise _Beyond
        over = -1 / det
        x0, x1 = (a2 * c0 - a1 * c2) * over, (a2 * c1 - a1 * c3) * over
        x2, x3 = (a0 * c2 - a1 * c0) * over, (a0 * c3 - a1 * c1) * over
        y0, y1, y2, y3 = da0 * x0 + da1 * x2, da0 * x1 + da1 * x3, da1 * x0 + da2 * x2, da1 * x1 + da2 * x3
        z0, z1, z2 = (
            z0 - h * (z1 + z3) - at * u0 + c0 * x0 + c2 * x2,
            z3 - at * u1 + c1 * x0 + c3 * x2,
            z2 - at * u2 + c1 * x1 + c3 * x3,
        )
        dz0, dz1, dz2 = (
            dz0 - h * (dz1 + dz3) - u0 + 2 * (dc0 * x0 + dc2 * x2) + x0 * y0 + x2 * y2,
            dz3 - u1 + dc0 * x1 + dc2 * x3 + dc1 * x0 + dc3 * x2 + x1 * y0 + x3 * y2,
            dz2 - u2 + 2 * (dc1 * x1 + dc3 * x3) + x1 * y1 + x3 * y3,
        )
    return (z0, z1, z2), (dz0, dz1, dz2)
