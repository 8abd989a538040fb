"""What the lie error that is still there does to the face, in words for the step where it can be mended.

Derivation and sources: docs/theory/loft-lie-bounce.md; the formulas are those of `clubwright.club.loft_lie`.
"""

from __future__ import annotations

from math import pi

from clubwright.club.loft_lie import face_direction_rad, side_words, sideways_miss_m
from clubwright.club.parts import Hand
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.bends import direction
from clubwright.planning.said.phrases import Amount, Phrase, Value, Word, figure, phrase
from clubwright.units import DEGREE_RAD

DISTANCE_YD = 100
"""Distance at which the miss is told."""

LEAST_ERROR_RAD = 0.05 * DEGREE_RAD
"""A lie error below this is not told: no gauge of the bench shows it (estimate of ours)."""


def rule_direction_rad(loft_rad: float, lie_error_rad: float) -> float:
    """Return what a published rule linear in loft gives, ``loft x error / 90 degrees``: shown, never used."""
    return loft_rad * lie_error_rad / (pi / 2)


def lie_lines(club_state: ClubState) -> tuple[tuple[Value, Value], ...]:
    """Return what the lie as it stands does against the one ordered; nothing where it fits or is not known.

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
    return ((phrase("label.lie does"), lie_said(float(head.loft_rad), error_rad, club_state.ticket.hand)),)


def lie_said(loft_rad: float, lie_error_rad: float, hand: Hand) -> Phrase:
    """Return a lie error and where it points the face, the rule of thumb beside the exact figure.

    The ball starts mostly, not wholly, where the face points.

    Args:
        loft_rad: Loft of the head as it stands.
        lie_error_rad: Lie less the one that fits, upright positive.
        hand: Hand the club is for.
    """
    direction_rad = float(face_direction_rad(loft_rad, lie_error_rad))
    bent = phrase("lie.bent", size=figure("angle", abs(lie_error_rad)), way=direction("lie", lie_error_rad))
    side = side_words(direction_rad, hand)
    if side == "at the target":
        return phrase("lie.still", bent=bent)
    miss_yd = abs(float(sideways_miss_m(DISTANCE_YD, loft_rad, lie_error_rad)))  # in the distance's own unit
    return phrase(
        "lie.points",
        bent=bent,
        off=Amount("angle", abs(direction_rad), form="tenths of degrees"),
        side=Word("side of the target", side),
        miss=Amount("number", miss_yd, form="yards"),
        distance=DISTANCE_YD,
        rule=Amount("angle", abs(rule_direction_rad(loft_rad, lie_error_rad)), form="tenths of degrees"),
    )
