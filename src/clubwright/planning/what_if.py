"""What the finished club would read if a number of it were another: the rest is believed as it is.

A number that the belief knows is moved there with its doubt; what the readings taught of everything else stays. Derivation:
docs/theory/belief.md (the linearised prediction); checked in tests/unit/planning/test_what_if.py.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.prediction import predict
from clubwright.belief.unknowns import club_with
from clubwright.club.parts import Club
from clubwright.club.stages import FINISHED
from clubwright.planning.club_state import ClubState

Figures = dict[str, tuple[float, float]]
"""Quantity to (mean, standard uncertainty), in SI."""


def shifted(club_state: ClubState, numbers: Mapping[str, float]) -> tuple[Gaussian, Club]:
    """Return belief and club with some numbers of parts, by path, at other values; each as well known as before."""
    belief = club_state.belief
    mean = belief.mean.copy()
    for name, value in numbers.items():
        if name in belief.names:
            mean[belief.index(name)] = value
    club = club_with(club_state.prior.club, list(numbers), list(numbers.values()))
    return msgspec.structs.replace(belief, mean=np.asarray(mean)), club


def finished_if(club_state: ClubState, numbers: Mapping[str, float], keys: Sequence[str]) -> Figures:
    """Return quantities of the finished club with the weights fitted now, were some numbers of its parts others.

    Args:
        club_state: The club.
        numbers: Path (``head.mass_kg``) to value in SI; empty for the club as it is.
        keys: Quantities; those that cannot be predicted are left out.
    """
    known = [key for key in keys if club_state.can_predict(key)]
    belief, club = shifted(club_state, numbers)
    found = predict(belief, club, club_state.prior.conventions, known, FINISHED, club_state.fitted_now)
    spread = found.sd()[0]
    return {key: (float(found.mean[0, column]), float(spread[column])) for column, key in enumerate(known)}
