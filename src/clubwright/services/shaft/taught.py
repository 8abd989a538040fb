"""What the frequency of one club said of the stiffness factor of its shaft: its prior divided out, its doubt in two parts.

Derivation: docs/theory/family.md, "From the record"; checked in tests/published/test_published_family.py and
tests/unit/services/shaft/test_shaft_family.py.
"""

from __future__ import annotations

import math
from functools import lru_cache

import msgspec
import numpy as np

from clubwright.belief.readings import Reading
from clubwright.belief.update import Judged
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.planning.club_state import ClubState
from clubwright.services.record.other_jobs import club_of
from clubwright.services.shaft.curves import FACTOR, factor_of
from clubwright.state.key import StateKey
from clubwright.state.ticket import Ticket

TAUGHT = 0.95
"""A club whose readings left its factor with more than this share of its first doubt has taught nothing."""
LEAST_SD = 0.001
"""A factor is never known better: the step in which it is written."""
SHARED = ("head.cg_from_ground_m", "head.cg_off_axis_m", "head.own_inertia_kg_m2")
"""Figures that come from a drawing or a guess, the same for every head of a kind: their errors are common."""


class TaughtShaft(msgspec.Struct, frozen=True, kw_only=True):
    """One shaft: the job it was built in, and what the frequency of that club said of its factor.

    Attributes:
        job: Ticket number.
        profile: The stiffness that the factor multiplies.
        factor, sd: Stiffness factor, and the doubt of what was read.
        shared_sd: The part of that doubt which all shafts of the family share.
        undecided: Whether a reading was set aside and nobody has decided about it; it is counted in here all the same.
    """

    job: str
    profile: StiffnessProfile
    factor: float
    sd: float
    shared_sd: float
    undecided: bool

    @property
    def own_sd(self) -> float:
        """The part of the doubt that is this shaft's own."""
        return math.sqrt(max(self.sd**2 - self.shared_sd**2, LEAST_SD**2))


def divided_out(before: tuple[float, float], after: tuple[float, float]) -> tuple[float, float] | None:
    """Return what a measurement said by itself, from the normal belief before and after it: (mean, sd); None if nothing.

    Precisions add: ``1/e^2 = 1/s1^2 - 1/s0^2`` and ``y = e^2 (m1/s1^2 - m0/s0^2)``.
    """
    (m0, s0), (m1, s1) = before, after
    if not s1 < TAUGHT * s0:
        return None
    precision = 1 / s1**2 - 1 / s0**2
    return (m1 / s1**2 - m0 / s0**2) / precision, math.sqrt(1 / precision)


@lru_cache(maxsize=512)
def taught_by(ticket: StateKey[Ticket], job: str) -> TaughtShaft | None:
    """Return what one club's frequency said of its shaft's factor; None when nothing, or when it cannot be worked."""
    if not any(reading.quantity == "frequency" for reading in ticket.state.readings):
        return None
    judged = club_of(ticket)
    if judged is None:
        return None
    undecided = any(_waits(item) for item in judged.learned.judged)
    counted = club_of(StateKey(_all_kept(ticket.state))) if undecided else judged
    if counted is None or FACTOR not in counted.belief.names:
        return None
    profile = counted.ticket.club.stiffness
    read = [item.reading for item in counted.learned.judged if item.taken and item.reading.quantity == "frequency"]
    found = divided_out(factor_of(counted.prior.belief), factor_of(counted.belief)) if read else None
    if found is None or profile is None:
        return None
    shared = min(_shared_sd(counted, read[-1], found[0]), found[1])
    return TaughtShaft(job=job, profile=profile, factor=found[0], sd=found[1], shared_sd=shared, undecided=undecided)


def _all_kept(ticket: Ticket) -> Ticket:
    """Return a ticket whose undecided frequencies are used: what this ticket expected must not choose among them."""
    readings = tuple(
        msgspec.structs.replace(reading, keep=True)
        if reading.quantity == "frequency" and reading.keep is None
        else reading
        for reading in ticket.readings
    )
    return msgspec.structs.replace(ticket, club=msgspec.structs.replace(ticket.club, readings=readings))


def _waits(item: Judged) -> bool:
    """True for a frequency that was set aside and that nobody has decided about."""
    return item.reading.quantity == "frequency" and not item.taken and item.reading.keep is None


def _shared_sd(club_state: ClubState, reading: Reading, factor: float) -> float:
    """Return the doubt of a factor that comes from the meter's bias and from figures that nobody measured on this part."""
    fitted = np.array([reading.fitted], dtype=float)
    prior, found = club_state.prior.belief, club_state.predict(["frequency"], reading.stage, fitted)
    slope = dict(zip(club_state.belief.names, found.slope[0, 0], strict=True))
    by_figures = [slope[name] * prior.sd_of(name) / slope[FACTOR] for name in SHARED if name in prior.names]
    # the frequency goes with the root of the factor: a bias of the meter counts twice in it
    by_meter = 2 * factor * reading.instrument.bias / reading.value
    return math.sqrt(by_meter**2 + sum(each**2 for each in by_figures))
