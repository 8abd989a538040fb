"""What the ticket asks for: each target with its half-width, the ticket's own or the shop's default."""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.belief.probability import box_probability
from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.notation import parse_difference
from clubwright.state.ticket import Ticket

GUARD_FACTORS = {"guard 2u": 2.0, "guard 95 %": 1.6448536269514722, "simple": 0.0}
"""How many standard uncertainties a figure must keep from a limit, by the decision rule that a ticket names; held equal to
`clubwright.conformity.rules` by tests/unit/planning/steps/test_steps.py."""


class Goal(msgspec.Struct, frozen=True, kw_only=True):
    """One target.

    Attributes:
        key: The quantity.
        target: Wanted value, in SI.
        half_width: Tolerance either side, in SI.
        typed: As the ticket writes the target.
        tolerance_typed: As the ticket or the shop writes the tolerance.
    """

    key: str
    target: float
    half_width: float
    typed: str
    tolerance_typed: str

    @property
    def low(self) -> float:
        """Lower end of the window."""
        return self.target - self.half_width

    @property
    def high(self) -> float:
        """Upper end of the window."""
        return self.target + self.half_width

    def chance(self, mean: float, sd: float) -> float:
        """Return the chance that a quantity believed to be ``N(mean, sd^2)``, in SI, lies in the window."""
        low, high = np.array([self.low]), np.array([self.high])
        return float(box_probability(np.array([[mean]]), np.array([[[sd * sd]]]), low, high)[0])


def goals_of(ticket: Ticket) -> tuple[Goal, ...]:
    """Return the ticket's targets in the register's order, those this version can compute."""
    found = []
    given = ticket.order.tolerances.numbers
    for key in TARGETS:
        entry, quantity = ticket.targets.get(key), QUANTITIES[key]
        if entry is None or quantity.function is None:
            continue
        if key in given:
            width, typed = given[key].value, given[key].typed
        else:
            width, typed = (
                parse_difference(quantity.tolerance_kind, quantity.tolerance, where="defaults").value,
                quantity.tolerance,
            )
        found.append(Goal(key=key, target=entry.value, half_width=abs(width), typed=entry.typed, tolerance_typed=typed))
    return tuple(found)
