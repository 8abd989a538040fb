"""What is believed of a shaft's bending stiffness before it is measured: log EI at a few nodes from tip to butt.

Two priors: a broad one for a shaft of which nothing is known, and one round the profile of its family. Derivation:
docs/theory/stiffness-fit.md; checked in tests/published/test_published_stiffness_fit.py.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector
from clubwright.club.beam.stiffness import StiffnessProfile, from_table

NODES = 17
"""About one every 2.4 in, a quarter of the length over which stiffness hangs together; 9 miss a step-taper tube."""
TIP_EI_N_M2 = 22.0
BUTT_EI_N_M2 = 85.0
"""Middle of the band of US patent 6,652,389: 18 to 36 N m2 at the tip, 60 to 120 a metre from it."""
LEVEL_SD = 0.35
"""Of the whole shaft's log EI: two of them are a factor of two either way. Our judgement of that band, no source."""
LOCAL_SD = 0.25
"""Of log EI at one place against the whole: our judgement, no source."""
TOGETHER_M = 0.25
"""Length over which the local share falls to 1/e: our judgement, no source."""
FAMILY_FACTOR_SD = 0.05
FAMILY_LOCAL_SD = 0.03
"""Spread of one shaft of a family round its profile, as a whole and at one place: from memory, no source."""


class StiffnessPrior(msgspec.Struct, frozen=True, kw_only=True):
    """A Gaussian over log EI (EI in N m2) at nodes.

    Attributes:
        nodes_m: Places from the raw tip, rising, n of them; EI runs straight between them.
        belief: Over the n logarithms.
    """

    nodes_m: tuple[float, ...]
    belief: Gaussian


def profile_at(nodes_m: tuple[float, ...], log_ei: Vector) -> StiffnessProfile:
    """Return the profile whose EI is ``exp(log_ei)`` at the nodes and straight between them."""
    return from_table(nodes_m, [float(value) for value in np.exp(log_ei)])


def broad_prior(
    raw_length_m: float,
    *,
    tip_ei_n_m2: float = TIP_EI_N_M2,
    butt_ei_n_m2: float = BUTT_EI_N_M2,
    level_sd: float = LEVEL_SD,
    local_sd: float = LOCAL_SD,
    together_m: float = TOGETHER_M,
    nodes: int = NODES,
) -> StiffnessPrior:
    """Return a smooth prior round a straight line from tip to butt.

    Covariance of log EI at x and y: ``level^2 + local^2 exp(-|x - y| / together)``.
    """
    places = np.linspace(0.0, raw_length_m, nodes)
    mean = np.log(np.linspace(tip_ei_n_m2, butt_ei_n_m2, nodes))
    return _prior(places, mean, level_sd, local_sd, together_m)


def _prior(places: Vector, mean: Vector, level_sd: float, local_sd: float, together_m: float) -> StiffnessPrior:
    apart = np.abs(places[:, None] - places[None, :])
    covariance: Matrix = level_sd**2 + local_sd**2 * np.exp(-apart / together_m)
    names = tuple(f"log EI {number}" for number in range(len(places)))
    return StiffnessPrior(
        nodes_m=tuple(float(place) for place in places),
        belief=Gaussian(names=names, mean=np.asarray(mean, dtype=float), covariance=covariance),
    )
