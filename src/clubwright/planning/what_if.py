"""What the finished club would read if a number of it were another: the rest is believed as it is.

A number that the belief knows is moved there with its doubt; what the readings taught of everything else stays. Derivation:
docs/theory/belief.md (the linearised prediction); checked in tests/unit/test_what_if.py.
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
from clubwright.planning.situation import Situation

Figures = dict[str, tuple[float, float]]
"""Quantity to (mean, standard uncertainty), in SI."""


def shifted(situation: Situation, numbers: Mapping[str, float]) -> tuple[Gaussian, Club]:
    """Return belief and club with some numbers of parts, by path, at other values; each as well known as before."""
    belief = situation.belief
    mean = belief.mean.copy()
    for name, value in numbers.items():
        if name in belief.names:
            mean[belief.index(name)] = value
    club = club_with(situation.prior.club, list(numbers), list(numbers.values()))
    return msgspec.structs.replace(belief, mean=np.asarray(mean)), club


def finished_if(situation: Situation, numbers: Mapping[str, float], keys: Sequence[str]) -> Figures:
    """Return quantities of the finished club with the weights fitted now, were some numbers of its parts others.

    Args:
        situation: The club.
        numbers: Path (``head.mass_kg``) to value in SI; empty for the club as it is.
        keys: Quantities; those that cannot be predicted are left out.
    """
    known = [key for key in keys if situation.can_predict(key)]
    belief, club = shifted(situation, numbers)
    found = predict(belief, club, situation.prior.conventions, known, FINISHED, situation.fitted_now)
    spread = found.sd()[0]
    return {key: (float(found.mean[0, column]), float(spread[column])) for column, key in enumerate(known)}
