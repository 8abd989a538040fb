"""Shorthand for the length of a club: ``35 1/4 to the cap``, ``1/2 in over``, ``std-1/32``, ``inch longer``."""

from __future__ import annotations

import re

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.shorthand_say import COUNTED, Doubt, Found, Rule, Say, absolute, fits

SHORTEST_M, LONGEST_M = 0.5, 1.3
"""A vulgar fraction without a unit is a club's length only in here; 63 1/2 may be a lie."""

_UNIT = "(?:in|inch|inches|\"|''|\u2033|\u201d|mm|cm)"
_END = r"(?: (?:to (?:the )?(?:end of the )?cap|eog|to (?:the )?end of (?:the )?grip))?"
_AMOUNTS = {"half": "1/2", "half an": "1/2", "quarter": "1/4", "an": "1", "a": "1", "": "1", "one": "1", "two": "2"}


def relative(words: str) -> Found:
    """``1/2 in over``, ``+1/4 in``, ``inch longer``, ``half inch short``."""
    if match := fits(rf"([+-]) ?(NUMBER) ?({_UNIT})(?: (?:long|length|in length))?", words):
        return _counted(match[1], match[2], match[3])
    match = fits(
        rf"(?:(half an|half|quarter|an|a|one|two|[0-9]|[0-9][ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]?\.[0-9]+|[½¼¾⅛]) ?)?"
        rf"({_UNIT})? ?(longer|long|over|shorter|short|under)(?: length)?",
        words,
    )
    if match is None or not (match[1] or match[2]):
        return None
    amount = (match[1] or "").lower()
    if not match[2] and re.fullmatch(r"one|two|[0-9]", amount):
        return Doubt(f"{words} has no unit", f"Write {amount} in {match[3]}.")
    sign = "+" if match[3].lower() in ("longer", "long", "over") else "-"
    return _counted(sign, _AMOUNTS.get(amount, amount), match[2] or "in")


def _counted(sign: str, amount: str, unit: str) -> Found:
    spelled = unit.lower() if unit.lower() in ("mm", "cm") else "in"
    text = f"{sign}{amount} {spelled}"
    try:
        parse("length", text, base=0.9)
    except InputError as refused:
        return Doubt(refused.findings[0].what, refused.findings[0].mend)
    return [Say("target.length", text, f"length: {text}{COUNTED}")]


def standard(words: str) -> Found:
    """``std length``, ``std lie``, ``std-1/32``; ``std`` alone does not say of what."""
    if match := fits(r"(?:std|standard) (length|lie|loft)", words):
        key = match[1].lower()
        return [Say(f"target.{key}", "std", f"{key}: the standard{COUNTED}")]
    if fits(r"std|standard", words):
        return Doubt(f"{words} does not say of what", "Write std length, std lie or std loft.")
    match = fits(rf"std ?([+-]) ?(NUMBER) ?({_UNIT})?( length)?", words)
    if match is None:
        return None
    on_a_rule = re.search(r"/(16|32|64)$", match[2])  # nobody bends, weighs or wraps in 32nds
    if not (match[3] or match[4] or on_a_rule):
        mend = f"Write std{match[1]}{match[2]} in for the length, or the degrees with up, flat, strong or weak."
        return Doubt(f"{words} may be length or an angle", mend)
    return _counted(match[1], match[2], match[3] or "in")


def whole(words: str) -> Found:
    """``35 1/4``, ``35.25 in to the cap``, ``length 895 mm``: measured to the outer face of the cap."""
    match = fits(rf"(length )?(NUMBER) ?({_UNIT})?( long| length)?({_END})", words)
    if match is None:
        return None
    if fits(r"[0-9]{2}/[0-9]{1,2}|[4-6][0-9]\.[0-9]{2}", words):  # loft and bounce
        return None
    if fits(r"[0-9]{2}\.[0-9]+", words):
        return Doubt(f"{words} has no unit", f"Write {words} in for a length, or {words} deg for a loft.")
    said, number, unit, tail, end = match.groups()
    vulgar = not number.replace(".", "").isdigit()
    if not (said or unit or tail or end or vulgar):
        return None
    text = f"{number} {unit}" if unit else number
    found = absolute("target.length", "length", text)
    if isinstance(found, Doubt):
        return found
    inside = SHORTEST_M <= parse("length", text).value <= LONGEST_M
    if not inside:
        mend = "Write length, lie, loft or bounce with it, or the whole length of the club."
        return Doubt(f"{words} is no club's length, and does not say what else it is", mend)
    return found


LENGTH_RULES: tuple[Rule, ...] = (standard, relative, whole)
