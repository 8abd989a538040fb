"""Which steps one club needs, and in which order.

The order is the trade's common practice with three decisions of ours: the tip is trimmed before it is prepared; the
ferrule is turned before solvent for the grip is opened; and bends come before the cut where a bend after it would cost
length, or where the shaft is graphite. Derivation: docs/theory/plan.md.
"""

from __future__ import annotations

import math

from clubwright.club.quantities import ANGLES
from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.gates import bend_first_reasons
from clubwright.planning.steps.inputs import Bench
from clubwright.planning.steps.types import StepKey
from clubwright.state.particulars import in_si

LARGE_LIE_BEND_RAD = math.radians(2.0)
"""A lie bend above this is made before assembly (common practice, no source)."""


def keys_of(bench: Bench) -> tuple[StepKey, ...]:
    """Return the keys of the steps of this job, in order."""
    job = bench.club_state.ticket.job
    if job == "regrip":
        return ("pull", "weigh", "strip grip", "tape", "grip", "inspect", "tag")
    if job == "loft-lie":
        return ("pull", "head check", "loft and lie", "inspect", "tag")
    if job == "weight":
        return ("pull", "weigh", "choose weight", "inspect", "tag")
    return _assembly(bench)


def _assembly(bench: Bench) -> tuple[StepKey, ...]:
    club_state = bench.club_state
    rework: tuple[StepKey, ...] = (
        ("as it came", "pull head", "clean bore") if club_state.ticket.job == "reshaft" else ()
    )
    bends: tuple[StepKey, ...] = ("loft and lie",) if wants_angles(club_state) else ()
    # A bend that was made first stays first while the joint is open, though nothing is left to bend.
    first = bool(bends_first_because(club_state)) or ("loft and lie" in bench.done and "cure" not in bench.done)
    trim: tuple[StepKey, ...] = ("tip trim",) if wants_tip_trim(club_state) else ()
    ferrule: tuple[StepKey, ...] = ("ferrule",) if club_state.ticket.fits_ferrule else ()
    turned: tuple[StepKey, ...] = ("ferrule finish",) if club_state.ticket.fits_ferrule and not bench.has_sleeve else ()
    return (
        "pull",
        *rework,
        "weigh",
        "head check",
        "bore to ground",
        *(bends if first else ()),
        *trim,
        "tip prep",
        *ferrule,
        "dry fit",
        "mark and cut",
        "tape",
        "dry reading",
        "choose weight",
        "mix",
        "glue",
        "cure",
        *turned,
        "grip",
        *(() if first else bends),
        "inspect",
        "tag",
    )


def wants_angles(club_state: ClubState) -> bool:
    """True when the ticket orders a loft, a lie or a bounce."""
    return any(club_state.goal(key) is not None for key in ANGLES)


def wants_tip_trim(club_state: ClubState) -> bool:
    """True when the ticket gives a tip trim from the shaft's own sheet, and the tip is not a taper."""
    ticket = club_state.ticket
    return (in_si(ticket.club.shaft.tip_trim) or 0.0) > 0 and not ticket.taper_trim


def lie_bend_rad(club_state: ClubState) -> float | None:
    """Return the lie still to be bent, flatter below zero; None when none is ordered or the lie was not measured."""
    goal = club_state.goal("lie")
    if goal is None or club_state.ticket.club.head.lie is None:
        return None
    return goal.target - float(club_state.club.head.lie_rad)


def bends_first_because(club_state: ClubState) -> tuple[str, ...]:
    """Say why bends come before assembly; nothing when they come after the cure."""
    if club_state.ticket.job == "loft-lie" or not wants_angles(club_state):
        return ()
    reasons = []
    if club_state.ticket.material == "graphite":
        reasons.append("the shaft is graphite: bend the head before the shaft is in it (common practice, no source)")
    bend = lie_bend_rad(club_state)
    if bend is not None and abs(bend) > LARGE_LIE_BEND_RAD:
        reasons.append("the lie moves by more than 2 deg: bend before assembly (common practice, no source)")
    return (*reasons, *bend_first_reasons(club_state))
