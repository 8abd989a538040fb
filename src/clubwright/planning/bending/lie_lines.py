"""What the lie error that is still there does to the face, in words for the step where it can be mended.

Derivation and sources: docs/theory/loft-lie-bounce.md; the formulas are those of `clubwright.club.loft_lie`.
"""

from __future__ import annotations

from math import degrees, pi

from clubwright.club.loft_lie import face_direction_rad, side_words, sideways_miss_m
from clubwright.club.parts import Hand
from clubwright.notation import render
from clubwright.planning.bending.words import direction_word
from clubwright.planning.club_state import ClubState
from clubwright.units import DEGREE_RAD

DISTANCE_YD = 100
"""Distance at which the miss is told."""

LEAST_ERROR_RAD = 0.05 * DEGREE_RAD
"""A lie error below this is not told: no gauge of the bench shows it (estimate of ours)."""


def rule_direction_rad(loft_rad: float, lie_error_rad: float) -> float:
    """Return what a published rule linear in loft gives, ``loft x error / 90 degrees``: shown, never used."""
    return loft_rad * lie_error_rad / (pi / 2)


def lie_lines(club_state: ClubState) -> tuple[tuple[str, str], ...]:
    """Say what the lie as it stands does against the one ordered; nothing where it fits or is not known.

    Told for a head whose loft and lie were measured, from the belief's mean of both. Not for a putter, which has too
    little loft for its lie to turn the face.
    """
    goal, known = club_state.goal("lie"), club_state.ticket.club.head
    if goal is None or club_state.ticket.kind == "putter" or known.loft is None or known.lie is None:
        return ()
    head = club_state.club.head
    error_rad = float(head.lie_rad) - goal.target
    if abs(error_rad) < LEAST_ERROR_RAD:
        return ()
    return (("what the lie does as it stands", lie_words(float(head.loft_rad), error_rad, club_state.ticket.hand)),)


def lie_words(loft_rad: float, lie_error_rad: float, hand: Hand) -> str:
    """Say a lie error and where it points the face, the rule of thumb beside the exact figure.

    The ball starts mostly, not wholly, where the face points.

    Args:
        loft_rad: Loft of the head as it stands.
        lie_error_rad: Lie less the one that fits, upright positive.
        hand: Hand the club is for.
    """
    direction_rad = float(face_direction_rad(loft_rad, lie_error_rad))
    bent = f"{render('angle', abs(lie_error_rad))} {direction_word('lie', lie_error_rad)}"
    side = side_words(direction_rad, hand)
    if side == "at the target":
        return f"{bent}: the face still points {side}"
    miss_yd = abs(float(sideways_miss_m(DISTANCE_YD, loft_rad, lie_error_rad)))  # in the distance's own unit
    rule = degrees(abs(rule_direction_rad(loft_rad, lie_error_rad)))
    return (
        f"{bent}: the face points {degrees(abs(direction_rad)):.1f} deg {side}, {miss_yd:.1f} yd at {DISTANCE_YD} yd "
        f"(a rule linear in loft says {rule:.1f} deg)"
    )
