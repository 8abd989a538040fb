"""A bend as data to be said: how much, which way, and where to push.

Words and signs (common practice, no source): more loft is weak, less is strong; more lie is upright, less is flat. The
words round to a quarter of a degree; the exact figure with its sign always stands beside them.
"""

from __future__ import annotations

from clubwright.club.parts import Hand
from clubwright.planning.said.phrases import Amount, Phrase, Value, Word, phrase
from clubwright.units import DEGREE_RAD


def quarters_of(amount_rad: float) -> int:
    """Return how many quarters of a degree an angle has, sign apart."""
    return round(abs(amount_rad) / DEGREE_RAD * 4)


def direction(angle: str, amount_rad: float) -> Word:
    """Return the trade's word for the sign of a change of an angle."""
    return Word("direction", f"{angle} {'more' if amount_rad > 0 else 'less'}")


def quarters(amount_rad: float) -> Value:
    """Return the size of an angle in quarters of a degree; what is less than one is said so."""
    if quarters_of(amount_rad) == 0:
        return phrase("under a quarter of a degree")
    return Amount("angle", abs(amount_rad), form="quarters of degrees")


def bend_amount(angle: str, amount_rad: float) -> Phrase:
    """Return how much and which way an angle is bent: ``1/2 deg flat (-0.50 deg)``."""
    return phrase(
        "bend amount",
        size=quarters(amount_rad),
        way=direction(angle, amount_rad),
        signed=Amount("angle", amount_rad, form="signed degrees"),
    )


def in_quarters(angle: str, amount_rad: float) -> Phrase:
    """Return how much and which way an angle is bent, for where the signed figure stands near by: ``1/2 deg flat``."""
    return phrase("lie.bent", size=quarters(amount_rad), way=direction(angle, amount_rad))


def push(angle: str, amount_rad: float, hand: Hand) -> Phrase:
    """Return which way the grip end of the shaft goes, with the head held fast, soled and square as at address.

    Left and right are as seen by the player at address, who stands on the heel side and looks at the face's top edge.
    Weak is a shaft brought toward the target: put back upright in the gauge, the face then looks further up.
    """
    if angle == "lie":
        return phrase("push upright" if amount_rad > 0 else "push flat")
    to_target = amount_rad > 0
    side = "left" if to_target == (hand == "right") else "right"
    return phrase("push weak" if to_target else "push strong", side=Word("side", side), hand=Word("hand", hand))
