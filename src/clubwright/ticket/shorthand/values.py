"""Shorthand for what a club shall read: loft, lie, swing weight, mass, grip core, wraps.

Meanings are common practice, no source, unless the notation package reads the value itself. Words that mean two things at
the bench are doubted, never guessed.
"""

from __future__ import annotations

import math
import re

from clubwright.errors import InputError
from clubwright.notation import pair, parse
from clubwright.ticket.shorthand.say import Doubt, Found, Rule, Say, absolute, counted, fits, refusal

LOFTS = range(49, 61)
"""A bare whole number in here is a wedge's loft: no club is that many inches long, and few are that strong."""
LIES = range(61, 65)
"""In here a number of degrees may be the lie of an iron as well as the loft of a wedge."""
LIES_DEG = (45.0, 85.0)
"""The lie of any club, from a long driver to a putter."""

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
    if number in LIES and not match[3]:
        return Doubt(f"{words} may be the loft of a wedge, or a lie", f"Write {number} wedge, or lie {number}.")
    if number not in LOFTS and not match[2] and not match[3]:
        return Doubt(f"{number} may be a loft in degrees or a length in inches", f"Write {number} deg or {number} in.")
    said = absolute("target.loft", "loft", f"{number} deg")
    wedge = number in LOFTS or bool(match[3])
    if isinstance(said, list) and wedge:
        said += [Say("ticket.kind", "wedge", "wedge"), _called(f"{number} wedge")]
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
        _called(f"{low} wedge"),
    ]


def _called(label: str) -> Say:
    """Return what a wedge is called by its loft, where nobody calls it otherwise."""
    return Say("ticket.label", label, label, implied=True)


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
            if fits(r"[0-9]{2}\.[0-9]+", match[1]) and int(match[1][:2]) in range(44, LIES.start):
                return [Say("target.loft", f"{match[1]} deg", parse("angle", f"{match[1]} deg").echo)]
            return Doubt(f"{words} may be loft, lie or bounce", f"Write loft {words}, lie {words} or bounce {words}.")
        name, number = match[2], match[1]
    name = name.lower()
    if "/" in number and not re.search(r"[ -]", number):
        return None  # a fraction of a degree is a bend, and no angle of a club
    found = absolute(f"target.{name}", name, f"{number} deg")
    if (
        name == "lie"
        and isinstance(found, list)
        and not LIES_DEG[0] <= math.degrees(parse(name, f"{number} deg").value) <= LIES_DEG[1]
    ):
        return Doubt(
            f"{words} is no club's lie, and does not say what else it is", "Write the whole lie, such as lie 63 1/2."
        )
    return found


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
    return [counted(key, f"{amount} {spoken}")]


def swing_weight(words: str) -> Found:
    """``D4``, ``D4+``, ``D4 1/4``, ``sw D4``; ``D35`` and ``F1`` are doubts."""
    match = fits(r"(?:(?:sw|swing ?weight) )?([a-g]) ?([0-9][0-9 ./-]*\+?)(?: (?:sw|swing ?weight))?", words)
    if match is None:
        return None
    text = f"{match[1].upper()}{match[2]}"
    said = "sw" in words.lower()
    if match[1].upper() == "F" and not said:
        return Doubt(f"{words} may be swing weight {text} or flat", f"Write sw {text}, or {match[2]} flat.")
    if match[1].upper() in "AG" and not said:
        what = f"{words} would be a swing weight far from any club's, and may be something else"
        return Doubt(what, f"Write sw {text} if it is meant.")
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


VALUE_RULES: tuple[Rule, ...] = (
    bare_loft,
    loft_pair,
    angle,
    swing_weight,
    total_weight,
    up_flat_strong_weak,
    bare_signed,
    frequency_and_inertia,
)
