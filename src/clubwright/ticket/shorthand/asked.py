"""Words that belong together and mean two things: they are asked about as a whole, and never read part by part.

``1 wrap left hand`` is tape under a hand or a club for a left-hander; read part by part it would silently be the second.
Each doubt names both meanings and how to write each.
"""

from __future__ import annotations

from clubwright.ticket.shorthand.clubs import more_tape
from clubwright.ticket.shorthand.grip import COUNT, TAPE
from clubwright.ticket.shorthand.lengths import LONGEST_M, SHORTEST_M
from clubwright.ticket.shorthand.say import UNIT, Doubt, fits, metres

_UNDER = r"(?:(?:under|on|for|in|beneath|below) )?(?:(?:the|his|her|my) )?"
_HAND = rf"{_UNDER}(?:(?:left|right|l|r)[- ]?hand|[lr]h)"
_SIDE = r"(?:longer|long|over|shorter|short|under)"
_TILT = r"(?:upright|up|flat|strong|weak|[ufsw])"
FEW = 3
"""From here on a whole number before a fraction may be the club: 7 1/2 over may be a 7 iron, half an inch over."""

FINE = ("/16", "/32", "/64")
"""In these a grip is sized: a whole number before them may be anything."""


def asked(words: str) -> Doubt | None:
    """Return the doubt about words that are only understood as a whole; None for all others."""
    return (
        more_tape(words)
        or _wraps_and_a_hand(words)
        or _length_over(words)
        or _angle_over(words)
        or _club_and_amount(words)
    )


def _wraps_and_a_hand(words: str) -> Doubt | None:
    wrapped = (
        rf"(?:{COUNT} ?(?:{TAPE}|w|(?:extra )?(?:lower|upper)(?:[- ]?hand)? {TAPE})|(?:extra )?(?:wraps?|layers?))"
    )
    plus = rf"(?:\+|and|plus) ?{COUNT} (?:extra )?(?:{TAPE} )?"
    behind = rf"{wrapped} (?:{plus})?{_HAND}|{wrapped}\+[0-9] {_HAND}|{plus}{_HAND}"
    before = rf"{_HAND} (?:{wrapped}|{plus}{TAPE})"
    if fits(rf"{behind}|{before}", words):
        return Doubt(
            f"{words} may be tape under one hand, or tape under the whole grip of a club for that hand",
            "Write lower hand for the tape (1 wrap lower hand, 2 wraps + 1 lower), or set the club's hand off by a comma "
            "(1 wrap, left-handed).",
        )
    return None


def _length_over(words: str) -> Doubt | None:
    match = fits(rf"([2-9][0-9])[ -]([0-9]+/[0-9]+|[½¼¾⅛⅜⅝⅞]) ?({UNIT})? ?({_SIDE})", words)
    if match is None:
        return None
    size = metres(f"{match[1]} {match[2]}", match[3])
    if size is None or not SHORTEST_M <= size <= LONGEST_M:
        return None
    whole = f"{match[1]} {match[2]}"
    return Doubt(
        f"{words} may be a length of {whole} in, or {match[2]} in {match[4]}",
        f"Write {whole} in, or {match[1]} in, {match[2]} in {match[4]} with the length it is counted from as the base.",
    )


def _angle_over(words: str) -> Doubt | None:
    match = fits(rf"(lie|loft|bounce) ([0-9]+)[ -]([0-9]+/[0-9]+|[½¼¾⅛⅜⅝⅞]) ?({UNIT})? ?({_SIDE})", words)
    if match is None:
        return None
    name, whole, part, unit, side = match[1].lower(), match[2], match[3], match[4] or "in", match[5]
    return Doubt(
        f"{words} may be a {name} of {whole} with {part} {unit} {side}, or a {name} of {whole} {part}",
        f"Set the parts off by commas: {name} {whole}, {part} {unit} {side}.",
    )


def _club_and_amount(words: str) -> Doubt | None:
    match = fits(rf"([0-9]{{1,2}})[ -]([0-9]+/[0-9]+|[½¼¾⅛⅜⅝⅞]) ?({UNIT}|deg|degrees?|°)? ?({_SIDE}|{_TILT})", words)
    if match is None or not (FEW if match[2][-3:] not in FINE else 1) <= int(match[1]) <= 12:
        return None
    unit = f" {match[3]}" if match[3] else ""
    return Doubt(
        f"{words} may be club {match[1]}, {match[2]}{unit} {match[4]}, or {match[1]} {match[2]}{unit} {match[4]}",
        f"Write {match[1]} iron, {match[2]}{unit} {match[4]}, or the whole figure that it shall read.",
    )
