"""Which steps one club needs, and in which order.

The order is the trade's common practice with three decisions of ours: the tip is trimmed before it is prepared; the
ferrule is turned before solvent for the grip is opened; and bends come before the cut where a bend after it would cost
length, or where the shaft is graphite. Derivation: docs/theory/plan.md.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from clubwright.club.quantities import ANGLES
from clubwright.planning.bending.metals import stays_as_it_is
from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.gates import bend_first_reasons
from clubwright.planning.said.phrases import Value, phrase
from clubwright.planning.steps.inputs import Bench
from clubwright.planning.steps.types import StepKey
from clubwright.state.particulars import in_si
from clubwright.state.steps import STEPS

LARGE_LIE_BEND_RAD = math.radians(2.0)
"""A lie bend above this is made before assembly (common practice, no source)."""


def keys_of(bench: Bench) -> tuple[StepKey, ...]:
    """Return the keys of the steps of this job, in order: those of its edition of the plan that this club needs."""
    job = bench.club_state.ticket.job
    keys = [
        key
        for key, step in STEPS.items()
        if job in step.jobs and step.in_edition(bench.edition) and (key not in WANTED or WANTED[key](bench))
    ]
    for key in [key for key in keys if STEPS[key].or_behind in keys and not _stays(key, bench)]:
        keys.remove(key)
        keys.insert(keys.index(STEPS[key].or_behind) + 1, key)
    return tuple(keys)


def _stays(key: StepKey, bench: Bench) -> bool:
    """True for a step that comes in its own place, though it could come later.

    A bend that was made first stays first while the joint is open, though nothing is left to bend; a head that can neither
    be bent nor set is measured before anything is cut for it.
    """
    first = bool(bends_first_because(bench.club_state)) or (_is_only_measured(bench) and not bench.has_sleeve)
    return key == "loft and lie" and (first or (key in bench.done and "cure" not in bench.done))


def _is_only_measured(bench: Bench) -> bool:
    ticket = bench.club_state.ticket
    return stays_as_it_is(ticket.club.head.metal, ticket.kind)


def wants_angles(club_state: ClubState) -> bool:
    """True when the ticket orders a loft, a lie or a bounce."""
    return any(club_state.goal(key) is not None for key in ANGLES)


def wants_tip_trim(club_state: ClubState) -> bool:
    """True when the ticket gives a tip trim from the shaft's own sheet, and the tip is not a taper."""
    ticket = club_state.ticket
    return (in_si(ticket.club.shaft.tip_trim) or 0.0) > 0 and not ticket.taper_trim


WANTED: dict[StepKey, Callable[[Bench], bool]] = {
    "loft and lie": lambda bench: bench.club_state.ticket.job == "loft-lie" or wants_angles(bench.club_state),
    "tip trim": lambda bench: wants_tip_trim(bench.club_state),
    "ferrule": lambda bench: bench.club_state.ticket.fits_ferrule,
    "ferrule finish": lambda bench: bench.club_state.ticket.fits_ferrule and not bench.has_sleeve,
}
"""Steps that not every club needs in the kinds of work that have them, and which does."""


def lie_bend_rad(club_state: ClubState) -> float | None:
    """Return the lie still to be bent, flatter below zero; None when none is ordered or the lie was not measured."""
    goal = club_state.goal("lie")
    if goal is None or club_state.ticket.club.head.lie is None:
        return None
    return goal.target - float(club_state.club.head.lie_rad)


def bends_first_because(club_state: ClubState) -> tuple[Value, ...]:
    """Say why bends come before assembly; nothing when they come after the cure."""
    if club_state.ticket.job == "loft-lie" or not wants_angles(club_state):
        return ()
    if stays_as_it_is(club_state.ticket.club.head.metal, club_state.ticket.kind):
        return ()
    reasons: list[Value] = []
    if club_state.ticket.material == "graphite":
        reasons.append(phrase("loft and lie.graphite"))
    bend = lie_bend_rad(club_state)
    if bend is not None and abs(bend) > LARGE_LIE_BEND_RAD:
        reasons.append(phrase("loft and lie.large"))
    return (*reasons, *bend_first_reasons(club_state))
