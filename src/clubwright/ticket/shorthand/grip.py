"""Shorthand for the grip: its size and core, and the tape under it, whole or under the lower hand.

``1/64 over`` is the size of a grip (common practice, no source): no club is ordered by so little longer. What makers call
midsize or jumbo differs between them, so such a word is asked about. Sizes are counted from the ticket's own base.
"""

from __future__ import annotations

import re

from clubwright.errors import InputError
from clubwright.notation import grip_core, parse
from clubwright.ticket.shorthand.say import (
    UNIT,
    Doubt,
    Found,
    Rule,
    Say,
    absolute,
    counted,
    fits,
    metres,
    refusal,
    spelled,
)
from clubwright.units import INCH_M

SURELY_GRIP_M = INCH_M / 16
"""Below this, over and under are of the grip: a club's length is not read so finely (tolerance 1/32 in)."""
MOST_OVER_M = INCH_M * 3 / 16
"""More than this over or under is no grip: the thickest are about 1/8 in over (common practice, no source)."""
THINNEST_M, THICKEST_M = 0.70 * INCH_M, 1.30 * INCH_M
"""Outside diameter of a grip 2 in below the cap; .580 in is a core."""

COUNTS = {"no": 0, "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
COUNT = r"([0-9]|no|an?|one|two|three|four|five|six)"
TAPE = r"(?:(?:extra )?(?:wraps?|layers?)(?: of (?:build-?up )?tape)?)"
LOWER = r"(?:(?:under |on |for |in )?(?:the )?(?:lower|bottom)(?:[- ]?hand)?(?: only)?)"
UPPER = r"(?:(?:under |on |for )?(?:the )?(?:upper|top)(?:[- ]?hand)?(?: only)?)"


def over_or_under(words: str) -> Found:
    """``1/64 over``, ``1/32 under``, ``1/64 oversize``, ``grip 1/16 over``, ``grip +1/64``."""
    match = fits(
        rf"(grips? )?(NUMBER) ?({UNIT})? ?(over|under)(sized?)?"
        r"( grips?| (?:on|of) (?:the )?grip)?",
        words,
    )
    if match is not None:
        sure = bool(match[1] or match[5] or match[6])
        number, unit, sign = match[2], match[3], "+" if match[4].lower() == "over" else "-"
    else:
        match = fits(rf"grips? ?([+-]) ?(NUMBER) ?({UNIT})?", words) or fits(
            rf"([+-]) ?(NUMBER) ?({UNIT})? ?(?:grips?|on (?:the )?grip)", words
        )
        if match is None:
            return None
        sure, number, unit, sign = True, match[2], match[3], match[1]
    size = metres(number, unit)
    if not sure and (unit is not None or size is None or size >= SURELY_GRIP_M):
        return None
    if size is not None and size > MOST_OVER_M:
        return Doubt(f"{words}: no grip differs so much from the standard", f"Write {number} in longer for the length.")
    return _relative(f"{sign}{number} {spelled(unit)}")


def _relative(text: str) -> Found:
    try:
        parse("diameter", text, base=0.9 * INCH_M)
    except InputError as refused:
        return refusal(refused)
    return [counted("grip_diameter_2in", text)]


def diameter(words: str) -> Found:
    """``grip .900``, ``grip .810 at 6 in``, ``.900 in at 2 in``: outside, below the cap; ``grip .600`` may be its core."""
    at = r"(?: ?(?:@|at) ?(2|6) ?(?:in|inch|inches|\"|″)?)"
    match = (
        fits(rf"grip(?: size| diameter)? (NUMBER) ?({UNIT})?{at}?", words)
        or fits(rf"(NUMBER) ?({UNIT})? grip(?: size| diameter)?{at}?", words)
        or fits(rf"(NUMBER) ?({UNIT})?{at}", words)
    )
    if match is None:
        return None
    number, unit, place = match[1], match[2], match[3] or "2"
    size = metres(number, unit)
    if size is None or not THINNEST_M <= size <= THICKEST_M:
        what = f"{words} is no outside diameter of a grip, and does not say what else it is"
        return Doubt(what, "Write the core, such as M60 or 60 round, or the diameter, such as grip .900 in at 2 in.")
    return absolute(f"target.grip_diameter_{place}in", "diameter", f"{number} {spelled(unit)}")


def size_word(words: str) -> Found:
    """``midsize``, ``jumbo``, ``undersize``: makers differ by what they measure, so it is asked."""
    pattern = r"(mid-?size|mid size|jumbo|over-?sized?|under-?sized?|(?:ladies|women'?s|men'?s|junior)(?: standard)?)"
    match = fits(rf"{pattern} grips?|grips? {pattern}|mid-?size|mid size|jumbo|over-?sized?|under-?sized?", words)
    if match is None:
        return None
    mend = "Write how much (grip 1/16 over) or the diameter (grip .960 in); a grip's own name goes in its field."
    return Doubt(f"{words} is a size that differs between makers", mend)


def core(words: str) -> Found:
    """``M60``, ``58 round``, ``core 60``, ``M60 rib``; a single R may be ribbed or round."""
    said = re.sub(r"(?i)^(?:grip )?core (?=\S)|(?<=round|..rib|ibbed) grip$", "", words)
    if match := fits(r"(m ?[0-9]{2}|[0-9]{2}) ?r", said):
        return Doubt(f"the R of {words} may be ribbed or round", f"Write {match[1]} rib or {match[1]} round.")
    stamped = fits(r"m ?[0-9]{2}(?: ?(?:rib|ribbed|round))?", said) or fits(r"[0-9]{2} (?:rib|ribbed|round)", said)
    if not (stamped or (said != words and fits(rf"[0-9]{{2}}|\.[0-9]+ ?{UNIT}", said))):
        return None
    try:
        found = grip_core(said)
    except InputError as refused:
        return refusal(refused)
    value = re.sub(r"(?i) ?(rib|ribbed|round)$", "", said)
    shape = [] if found.shape is None else [Say("grip.shape", found.shape, found.shape)]
    return [Say("grip.core", value, f"grip core {found.echo}"), *shape]


def wraps(words: str) -> Found:
    """``two wraps``, ``2w + 2 lower``, ``1 wrap lower hand``; ``+1 wrap`` does not say from how many."""
    if match := fits(rf"\+ ?{COUNT} {TAPE}", words):
        how = f"Write how many there shall be in all, such as {match[1]} wraps."
        return Doubt(f"{words} does not say from how many", how)
    if fits(rf"{COUNT} {TAPE},? ?{UPPER}|{COUNT} (?:extra )?{UPPER} {TAPE}", words):
        mend = "Write the wraps under both hands and those under the lower hand, and the rest as a note."
        return Doubt(f"{words}: tape under the upper hand only has no field of its own", mend)
    if match := fits(rf"{COUNT} {TAPE},? ?{LOWER}", words) or fits(rf"{COUNT} (?:extra )?{LOWER} {TAPE}", words):
        return _lower(match[1])
    match = fits(
        rf"{COUNT} ?(?:{TAPE}|(w))(?:,? ?(?:\+|and|plus) ?{COUNT} (?:extra )?(?:{TAPE} )?{LOWER}(?: {TAPE})?)?", words
    )
    if match is None or (match[2] and not match[3]):
        return None
    return [*_whole(match[1]), *(_lower(match[3]) if match[3] else [])]


def _count(word: str) -> int:
    return COUNTS[word.lower()] if word.lower() in COUNTS else int(word)


def _whole(word: str) -> list[Say]:
    layers = _count(word)
    return [
        Say("tape.0.name", "build-up", "tape under the grip: build-up"),
        Say("tape.0.layers", str(layers), f"{layers} layer(s) of build-up tape; the base layer is a line of its own"),
    ]


def _lower(word: str) -> list[Say]:
    layers = _count(word)
    return [
        Say("tape.1.name", "build-up, lower hand", "tape under the lower hand"),
        Say("tape.1.layers", str(layers), f"{layers} layer(s) under the lower hand"),
        Say("tape.1.covers", "lower", "only under the lower hand"),
    ]


GRIP_RULES: tuple[Rule, ...] = (over_or_under, diameter, size_word, wraps, core)
