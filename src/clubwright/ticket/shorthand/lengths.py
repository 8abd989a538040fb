"""Shorthand for the length of a club: ``35 1/4 to the cap``, ``1/2 in over``, ``std-1/32``, ``inch longer``."""

from __future__ import annotations

import re

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.shorthand.say import UNIT, Doubt, Found, Rule, absolute, counted, fits, metres, refusal, spelled
from clubwright.units import INCH_M

SHORTEST_M, LONGEST_M = 0.5, 1.3
"""A vulgar fraction without a unit is a club's length only in here; 63 1/2 may be a lie."""

GRIP_STEP_M = 0.125 * INCH_M
"""Up to here an amount over or under may be that of a grip, which is sized in 64ths, 32nds and 16ths."""

_END = r"(?: (?:to (?:the )?(?:end of the )?cap|eog|to (?:the )?end of (?:the )?grip))?"
_AMOUNTS = {"half": "1/2", "half an": "1/2", "quarter": "1/4", "an": "1", "a": "1", "": "1", "one": "1", "two": "2"}


def relative(words: str) -> Found:
    """``1/2 in over``, ``+1/4 in``, ``inch longer``, ``half inch short``; up to 1/8 in it may be the grip's size."""
    if match := fits(rf"([+-]) ?(NUMBER) ?({UNIT})( long| length| in length)?", words):
        return _counted(words, match[1], match[2], match[3], sure=bool(match[4]))
    match = fits(
        rf"(?:(half an|half|quarter|an|a|one|two|[0-9]|[0-9][ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]?\.[0-9]+|[½¼¾⅛]) ?)?"
        rf"({UNIT})? ?(longer|long|over|shorter|short|under)( length)?",
        words,
    )
    if match is None or not (match[1] or (match[2] or "").lower() == "inch"):
        return None
    amount, side = (match[1] or "").lower(), match[3].lower()
    if not match[2] and re.fullmatch(r"an?|one|two|[0-9]", amount):
        return Doubt(f"{words} has no unit", f"Write {_AMOUNTS.get(amount, amount)} in {side}.")
    sign = "+" if side in ("longer", "long", "over") else "-"
    return _counted(
        words, sign, _AMOUNTS.get(amount, amount), match[2], sure=side not in ("over", "under") or bool(match[4])
    )


def _counted(words: str, sign: str, amount: str, unit: str | None, *, sure: bool) -> Found:
    text = f"{sign}{amount} {spelled(unit)}"
    size = metres(amount, unit)
    if size is not None and size <= GRIP_STEP_M and not sure:
        side = "longer" if sign == "+" else "shorter"
        return Doubt(
            f"{words} may be the length of the club, or the size of its grip",
            f"Write {amount} {spelled(unit)} {side} for the length, or grip {text} for the grip.",
        )
    try:
        parse("length", text, base=0.9)
    except InputError as refused:
        return refusal(refused)
    return [counted("length", text)]


def standard(words: str) -> Found:
    """``std length``, ``std lie``, ``std grip``; ``std`` alone does not say of what."""
    if match := fits(r"(?:std|standard) (length|lie|loft)", words):
        return [counted(match[1].lower(), "std")]
    if fits(r"(?:std|standard)(?: size)? grip(?: size)?", words):
        return [counted("grip_diameter_2in", "std")]
    if fits(r"std|standard", words):
        return Doubt(f"{words} does not say of what", "Write std length, std lie, std loft or std grip.")
    match = fits(rf"std ?([+-]) ?(NUMBER) ?({UNIT})?( length)?", words)
    if match is None:
        return None
    size = metres(match[2], match[3])
    small = size is not None and size <= GRIP_STEP_M
    if not (match[3] or match[4] or small):
        mend = f"Write std{match[1]}{match[2]} in for the length, or the degrees with up, flat, strong or weak."
        return Doubt(f"{words} may be length or an angle", mend)
    return _counted(words, match[1], match[2], match[3], sure=bool(match[4]))


def whole(words: str) -> Found:
    """``35 1/4``, ``35.25 in to the cap``, ``length 895 mm``: measured to the outer face of the cap."""
    match = fits(rf"(length )?(NUMBER) ?({UNIT})?( long| length)?({_END})", words)
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
