"""The belief's update with hardly any prior is a least-squares fit: certified straight lines and a certified parabola.

Norris: a calibration of ozone monitors. Pontius: a calibration of load cells. NoInt1: a line through the origin. With the
noise set to the certified residual standard deviation, the belief's standard deviations are the certified ones.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import pytest

from clubwright.belief.gaussian import Gaussian, condition

Published = Callable[..., None]

# y and x in the order of the file, as NIST gives them (copy in scipy: stats/tests/data/nist_linregress/Norris.dat).
NORRIS = (
    (0.1, 0.2), (338.8, 337.4), (118.1, 118.2), (888.0, 884.6), (9.2, 10.1), (228.1, 226.5),
    (668.5, 666.3), (998.5, 996.3), (449.1, 448.6), (778.9, 777.0), (559.2, 558.2), (0.3, 0.4),
    (0.1, 0.6), (778.1, 775.5), (668.8, 666.9), (339.3, 338.0), (448.9, 447.5), (10.8, 11.6),
    (557.7, 556.0), (228.3, 228.1), (998.0, 995.8), (888.8, 887.6), (119.6, 120.2), (0.3, 0.3),
    (0.6, 0.3), (557.6, 556.8), (339.3, 339.1), (888.0, 887.2), (998.5, 999.0), (778.9, 779.0),
    (10.2, 11.1), (117.6, 118.3), (228.9, 229.2), (668.4, 669.1), (449.2, 448.9), (0.2, 0.5),
)  # fmt: skip
PONTIUS_Y = (
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146,
    1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844,
    0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150,
    1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
)  # fmt: skip
PONTIUS_X = tuple(150_000.0 * place for place in range(1, 21)) * 2


def _fit(design: np.ndarray, seen: Sequence[float], residual_sd: float, wide: Sequence[float]) -> Gaussian:
    """Condition a prior of standard deviation `wide` about zero on all the points at once."""
    names = tuple(f"b{place}" for place in range(design.shape[1]))
    prior = Gaussian.independent({name: (0.0, sd) for name, sd in zip(names, wide, strict=True)})
    noise = residual_sd**2 * np.eye(len(seen))
    return condition(prior, lambda at: (design @ at, design), np.array(seen), noise)


def _compare(
    published: Published,
    name: str,
    belief: Gaussian,
    certified: Sequence[tuple[float, float]],
    scale: Sequence[float],
    relative: float,
    source: str,
) -> None:
    for place, (value, deviation) in enumerate(certified):
        unknown = f"b{place}"
        for quantity, theirs, ours in (
            ("coefficient", value, belief.mean_of(unknown) / scale[place]),
            ("standard deviation of", deviation, belief.sd_of(unknown) / scale[place]),
        ):
            published(
                quantity=f"{name}: {quantity} b{place}, belief with a very wide prior",
                source=source,
                theirs=theirs,
                ours=ours,
                tolerance=relative * abs(theirs),
                standing="seen",
            )


def test_norris(published: Published) -> None:
    x = np.array([pair[1] for pair in NORRIS])
    seen = [pair[0] for pair in NORRIS]
    assert len(seen) == 36
    belief = _fit(np.stack([np.ones_like(x), x / 1000], axis=1), seen, 0.884796396144373, (1e3, 3e4))
    certified = ((-0.262323073774029, 0.232818234301152), (1.00211681802045, 0.000429796848199937))
    _compare(published, "Norris", belief, certified, (1.0, 1000.0), 1e-6, "NIST StRD Norris, certified")


def test_pontius(published: Published) -> None:
    x = np.array(PONTIUS_X) / 3e6
    belief = _fit(np.stack([np.ones_like(x), x, x * x], axis=1), PONTIUS_Y, 0.000205177424076185, (0.1, 50.0, 1.0))
    certified = (
        (0.000673565789473684, 0.000107938612033077),
        (7.32059160401003e-07, 1.57817399981659e-10),
        (-3.16081871345029e-15, 4.86652849992036e-17),
    )
    source = "NIST StRD Pontius, certified; read in a public test suite"
    _compare(published, "Pontius", belief, certified, (1.0, 3e6, 9e12), 1e-5, source)


def test_line_through_the_origin(published: Published) -> None:
    x = np.arange(60.0, 71.0)
    belief = _fit(x[:, None], list(x + 70), 3.56753034006338, (100.0,))
    source = "NIST StRD NoInt1, certified; read in a public test suite"
    _compare(published, "NoInt1", belief, ((2.07438016528926, 0.0165289256198347),), (1.0,), 1e-7, source)


@pytest.mark.parametrize("share", [0.25, 0.5])
def test_points_in_two_batches_say_the_same(share: float) -> None:
    """What the first batch leaves is the prior of the second."""
    x = np.array([pair[1] for pair in NORRIS]) / 1000
    seen = np.array([pair[0] for pair in NORRIS])
    design = np.stack([np.ones_like(x), x], axis=1)
    whole = _fit(design, list(seen), 0.88, (100.0, 2000.0))
    cut = int(share * len(x))
    first = _fit(design[:cut], list(seen[:cut]), 0.88, (100.0, 2000.0))
    both = condition(first, lambda at: (design[cut:] @ at, design[cut:]), seen[cut:], 0.88**2 * np.eye(len(x) - cut))
    assert both.mean == pytest.approx(whole.mean, rel=1e-7)
    assert both.covariance == pytest.approx(whole.covariance, rel=1e-6)
