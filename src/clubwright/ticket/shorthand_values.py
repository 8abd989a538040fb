"""Shorthand for what a club shall read: loft, lie, swing weight, mass, grip core, wraps.

Meanings are common practice, no source, unless the notation package reads the value itself. Words that mean two things at
the bench are doubted, never guessed.
"""

from __future__ import annotations

import re

from clubwright.errors import InputError
from clubwright.notation import grip_core, pair, parse
from clubwright.ticket.shorthand_say import COUNTED, Doubt, Found, Rule, Say, absolute, fits, refusal

LOFTS = range(49, 65)
"""A bare whole number in here is a wedge's loft: no club is that many inches long, and few are that strong."""

_COUNTS = {"no": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_AMOUNTS = {
    "half": "1/2",
    "a half": "1/2",
    "quarter": "1/4",
    "a quarter": "1/4",
    "one": "1",
    "a degree": "1",
    "two": "2",
}


def bare_loft(words: str) -> Found:
    """``54``, ``54 wedge``, ``54 deg``: the loft of a wedge; ``45`` may be inches."""
    match = fits(r"([0-9]{2}) ?(deg|degrees?|°)?( wedge)?", words)
    if match is None:
        return None
    number = int(match[1])
    if number not in LOFTS and not match[2] and not match[3]:
        return Doubt(f"{number} may be a loft in degrees or a length in inches", f"Write {number} deg or {number} in.")
    said = absolute("target.loft", "loft", f"{number} deg")
    wedge = number in LOFTS or match[3]
    if isinstance(said, list) and wedge:
        said += [Say("ticket.kind", "wedge", "wedge"), Say("ticket.label", f"{number} wedge", f"{number} wedge")]
    return said


def loft_pair(words: str) -> Found:
    """``54-10`` and ``58/08`` are loft and bounce; ``54.10`` may be either."""
    if fits(r"[4-6][0-9]\.[0-9]{2}", words):
        whole, part = words.split(".")
        mend = f"Write {whole}-{part} for loft and bounce, or {words} deg for the angle."
        return Doubt(f"{words} may be a loft of {words} degrees, or loft {whole} with bounce {part}", mend)
    if not fits(r"[0-9]{2}[-/][0-9]{1,2}", words):
        return None
    try:
        loft, bounce = pair(words)
    except InputError as refused:
        return refusal(refused)
    low, high = re.split("[-/]", words)
    return [
        Say("target.loft", f"{low} deg", loft.echo),
        Say("target.bounce", f"{int(high)} deg", bounce.echo),
        Say("ticket.kind", "wedge", "wedge"),
        Say("ticket.label", f"{low} wedge", f"{low} wedge"),
    ]


def angle(words: str) -> Found:
    """``lie 63 1/2``, ``64 deg lie``, ``10 bounce``, ``loft 54.5``."""
    match = fits(r"(loft|lie|bounce) (NUMBER) ?(?:deg|degrees?|°)?", words)
    name, number = (match[1], match[2]) if match else ("", "")
    if match is None:
        match = fits(r"(NUMBER) ?(?:deg|degrees?|°)? ?(loft|lie|bounce)", words)
        if match is None:
            match = fits(r"(NUMBER) ?(?:deg|degrees?|°)", words)
            if match is None:
                return None
            if fits(r"[0-9]{2}\.[0-9]+", match[1]) and int(match[1][:2]) in range(44, 65):
                return [Say("target.loft", f"{match[1]} deg", parse("angle", f"{match[1]} deg").echo)]
            return Doubt(f"{words} may be loft, lie or bounce", f"Write loft {words}, lie {words} or bounce {words}.")
        name, number = match[2], match[1]
    return absolute(f"target.{name.lower()}", name.lower(), f"{number} deg")


def up_flat_strong_weak(words: str) -> Found:
    """``half flat``, ``2U``, ``1 strong``: counted from a base; ``1S`` and ``1W`` may be something else."""
    match = fits(r"(NUMBER|[a-z]+|a [a-z]+) ?(?:deg|degrees?|°)? ?(upright|up|flat|strong|weak|u|f|s|w)", words)
    if match is None:
        return None
    typed, word = match[1].lower(), match[2].lower()
    amount = _AMOUNTS.get(typed, typed if typed[0] in ".0123456789½¼¾⅛⅜⅝⅞" else "")
    if not amount:
        return None
    if word == "s":
        return Doubt(
            f"{words} may be {amount} degree strong or a shaft stepped soft",
            f"Write {amount} strong for the loft, or SS{amount}x for the shaft.",
        )
    if word == "w":
        mend = f"Write {amount} weak for the loft, {amount} wrap for tape, or {amount} wood for the club."
        return Doubt(f"{words} may be {amount} degree weak, {amount} wrap of tape or a wood", mend)
    key = "lie" if word[0] in "uf" else "loft"
    spoken = {"u": "up", "f": "flat", "upright": "up"}.get(word, word)
    try:
        parse(key, f"{amount} {spoken}", base=1.0)
    except InputError as refused:
        return refusal(refused)
    return [Say(f"target.{key}", f"{amount} {spoken}", f"{key}: {amount} deg {spoken}{COUNTED}")]


def swing_weight(words: str) -> Found:
    """``D4``, ``D4+``, ``D4 1/4``, ``sw D4``; ``D35`` and ``F1`` are doubts."""
    match = fits(r"(?:(?:sw|swing ?weight) )?([a-g]) ?([0-9][0-9 ./-]*\+?)(?: (?:sw|swing ?weight))?", words)
    if match is None:
        return None
    text = f"{match[1].upper()}{match[2]}"
    if match[1].upper() == "F" and words == match[0] and " " not in words:
        return Doubt(f"{words} may be swing weight {text} or flat", f"Write sw {text}, or {match[2]} flat.")
    return absolute("target.swing_weight", "swing_weight", text)


def total_weight(words: str) -> Found:
    """``tw 472 g``, ``total 472 g``, ``472 g total``; a mass alone is a doubt."""
    match = fits(r"(?:tw|total(?: weight)?) (NUMBER ?g)", words) or fits(r"(NUMBER ?g) total(?: weight)?", words)
    if match is not None:
        return absolute("target.total_weight", "mass", match[1])
    if part := fits(r"(head|shaft|grip|ferrule) (?:mass )?(NUMBER ?g)", words):
        return absolute(f"{part[1].lower()}.mass", "mass", part[2])
    if fits(r"NUMBER ?g", words):
        return Doubt(f"{words} may be the total or a part", f"Write total {words}, or head {words}.")
    return None


def bare_signed(words: str) -> Found:
    """``+1`` alone may be an inch, a wrap, a point or a degree."""
    if not fits(r"[+-] ?NUMBER", words):
        return None
    size = words[1:].strip()
    said = f"Write {words} in for the length, {size} wraps in all, {words} pt, or {size} up."
    return Doubt(f"{words} may be length, wraps of tape, points or lie", said)


def frequency_and_inertia(words: str) -> Found:
    """``320 cpm`` and ``2760 kg cm2``."""
    if fits(r"NUMBER ?cpm", words):
        return absolute("target.frequency", "frequency", words)
    if fits(r"(?:moi )?NUMBER ?kg ?cm2", words):
        return absolute("target.moi", "moi", re.sub(r"(?i)^moi ", "", words))
    return None


def core(words: str) -> Found:
    """``M60``, ``58 round``, ``M60 rib``; a single R may be ribbed or round."""
    if match := fits(r"(m ?[0-9]{2}|[0-9]{2}) ?r", words):
        return Doubt(f"the R of {words} may be ribbed or round", f"Write {match[1]} rib or {match[1]} round.")
    if not (fits(r"m ?[0-9]{2}(?: ?(?:rib|ribbed|round))?", words) or fits(r"[0-9]{2} (?:rib|ribbed|round)", words)):
        return None
    try:
        found = grip_core(words)
    except InputError as refused:
        return refusal(refused)
    said = [Say("grip.core", re.sub(r"(?i) ?(rib|ribbed|round)$", "", words), f"grip core {found.echo}")]
    return said if found.shape is None else [*said, Say("grip.shape", found.shape, found.shape)]


def wraps(words: str) -> Found:
    """``two wraps``, ``2w +2 LH``; ``+1 wrap`` does not say from how many."""
    if match := fits(r"\+ ?([0-9]|one|two|three) (?:extra )?(?:wraps?|layers?)", words):
        return Doubt(
            f"{words} does not say from how many", f"Write how many there shall be in all, such as {match[1]} wraps."
        )
    match = fits(
        r"([0-9]|no|one|two|three|four|five|six) ?(?:extra )?(wraps?|layers?|w)"
        r"(?:,? ?(?:\+|and|plus) ?([0-9]|one|two|three|four) (?:extra )?(?:lh|lower(?: hand)?))?",
        words,
    )
    if match is None or (match[2].lower() == "w" and not match[3]):
        return None
    layers = _COUNTS.get(match[1].lower(), match[1])
    said = [
        Say("tape.0.name", "build-up", "tape under the grip: build-up"),
        Say("tape.0.layers", str(layers), f"{layers} layer(s) of build-up tape; the base layer is a line of its own"),
    ]
    if match[3]:
        lower = _COUNTS.get(match[3].lower(), match[3])
        said += [
            Say("tape.1.name", "build-up, lower hand", "tape under the lower hand"),
            Say("tape.1.layers", str(lower), f"{lower} more layer(s) under the lower hand"),
            Say("tape.1.covers", "lower", "only under the lower hand"),
        ]
    return said


VALUE_RULES: tuple[Rule, ...] = (
    bare_loft,
    loft_pair,
    angle,
    swing_weight,
    total_weight,
    wraps,
    core,
    up_flat_strong_weak,
    bare_signed,
    frequency_and_inertia,
)
