"""Shorthand that is words: which club, which hand, logo, tip, steps, hot melt, how soon, whose."""

from __future__ import annotations

import re
from datetime import datetime

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.promised import promised_moment
from clubwright.ticket.shorthand_say import Doubt, Found, Rule, Say, absolute, fits, refusal

_ANY_DAY = datetime(2000, 1, 3)  # noqa: DTZ001 - only asks whether words can be read at all
_CLEARLY_A_TIME = re.compile(
    r"day\b|\b(?:mon|tues?|wed|thu|thurs|fri|sat|sun|tomorrow|tonight|noon)\b|[0-9]:[0-9]{2}|[0-9] ?[ap]m\b|[0-9]{4}-",
    re.IGNORECASE | re.ASCII,
)
_PLAIN: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (r"rh|right(?:[- ]hand(?:ed)?)?", (("ticket.hand", "right"),)),
    (r"lh|left(?:[- ]hand(?:ed)?)?|lefty", (("ticket.hand", "left"),)),
    (r"logo down|ld", (("grip.logo", "down"),)),
    (r"logo up|lu", (("grip.logo", "up"),)),
    (r"(?:to (?:the )?cap|eog|to (?:the )?end of (?:the )?grip)", (("", "length is to the outer face of the cap"),)),
    (r"(?:on the )?60(?: deg(?:ree)?)? (?:plane|rule)", (("target.length_method", "60 degree plane"),)),
    (r"axis to ground", (("target.length_method", "axis to ground"),)),
    (r"steel(?: shaft)?", (("shaft.material", "steel"),)),
    (r"graphite(?: shaft)?", (("shaft.material", "graphite"),)),
    (r"taper(?: tip)?", (("shaft.tip", "taper"),)),
    (r"parallel(?: tip)?", (("shaft.tip", "parallel"),)),
    (r"\.355 ?t", (("shaft.tip", "taper"), ("shaft.tip_size", ".355 in"))),
    (r"\.370 ?p", (("shaft.tip", "parallel"), ("shaft.tip_size", ".370 in"))),
    (r"\.335", (("shaft.tip_size", ".335 in"),)),
    (r"re-?grip", (("ticket.job", "regrip"),)),
    (r"re-?shaft", (("ticket.job", "reshaft"),)),
    (r"(?:check )?(?:loft|lofts) (?:and|&|/) (?:lie|lies)", (("ticket.job", "loft-lie"),)),
    (r"wedge", (("ticket.kind", "wedge"),)),
    (r"driver", (("ticket.kind", "driver"), ("ticket.label", "driver"))),
    (r"putter", (("ticket.kind", "putter"), ("ticket.label", "putter"))),
    (r"(?:urgent|now|right now)", (("ticket.priority", "now"),)),
    (r"today", (("ticket.priority", "today"),)),
    (r"this week", (("ticket.priority", "this week"),)),
)


def plain(words: str) -> Found:
    """Words with one meaning only."""
    for pattern, fields in _PLAIN:
        if fits(pattern, words):
            return [
                Say(field, value, value if not field else f"{field.rpartition('.')[2].replace('_', ' ')}: {value}")
                for field, value in fields
            ]
    return None


def club(words: str) -> Found:
    """``6i``, ``PW``, ``3 wood``, ``4h``; ``SW`` may be a sand wedge or the swing weight."""
    if words.lower() == "sw":
        return Doubt("SW may be a sand wedge or the swing weight", "Write sand wedge, or the swing weight such as D4.")
    if match := fits(r"([1-9]) ?(?:i|iron)", words):
        return _club("iron", f"{match[1]} iron")
    if match := fits(r"([2-9]|1[01]) wood", words):
        return _club("fairway", f"{match[1]} wood")
    if match := fits(r"([1-9]) ?(?:hybrid|hy)", words):
        return _club("hybrid", f"{match[1]} hybrid")
    if fits(r"[1-9] ?h", words):
        return Doubt(f"{words} may be a hybrid or hours", f"Write {words[0]} hybrid.")
    if match := fits(r"(pw|gw|aw|lw|(?:pitching|gap|approach|sand|lob) wedge)", words):
        return _club("wedge", match[1].upper() if len(match[1]) == 2 else match[1].lower())
    return None


def _club(kind: str, label: str) -> Found:
    return [Say("ticket.kind", kind, f"kind: {kind}"), Say("ticket.label", label, label)]


def bounce_class(words: str) -> Found:
    """``mid bounce``: which head to pull; the bounce itself is measured at the head check."""
    match = fits(r"(low|mid|middle|medium|standard|std|high) bounce", words)
    if match is None:
        return None
    name = {"middle": "mid", "medium": "mid", "std": "standard"}.get(match[1].lower(), match[1].lower())
    return [_note(f"{name} bounce head")]


def steps(words: str) -> Found:
    """``HS1``, ``SS1x``, ``soft-step two``: the neighbouring club's shaft."""
    match = fits(r"(hs|ss|(?:hard|soft)[- ]?step(?:ped)?) ?(?:-? ?(once|twice|one|two|[1-3]) ?x?)?", words)
    if match is None:
        match = fits(r"([1-3]) ?(hs|ss)", words)
        if match is None:
            return None
        often, which = match[1], match[2]
    else:
        which, often = match[1], match[2] or ""
    if not often:
        return Doubt(f"{words} does not say how many steps", f"Write {words} once, or {words[:2].upper()}1x.")
    times = {"once": "1", "one": "1", "twice": "2", "two": "2"}.get(often.lower(), often)
    return [_note(f"shaft {'hard' if which[0].lower() == 'h' else 'soft'}-stepped {times} x")]


def added_mass(words: str) -> Found:
    """``HM 4g toe`` and ``LT 2 in heel``: hot melt and lead tape, kept as a note."""
    if match := fits(r"(?:hm|hot ?melt) (NUMBER ?g)(?: (?:in (?:the )?)?(toe|heel|back|front))?", words):
        kind, amount, what = "mass", match[1], "hot melt"
    elif match := fits(
        r"(?:lt|lead(?: tape)?) (NUMBER ?(?:in|\"|″|mm|g))(?: (?:on (?:the )?)?(toe|heel|back))?", words
    ):
        kind, amount, what = "mass" if match[1].lower().endswith("g") else "length", match[1], "lead tape"
    else:
        return None
    try:
        parse(kind, amount)
    except InputError as refused:
        return refusal(refused)
    return [_note(" ".join(part for part in (what, amount, match[2] or "") if part))]


def tip_trim(words: str) -> Found:
    """``tip 1/2``, ``tipped 1 in``."""
    match = fits(r"(?:tip|tipped|tip trim) (NUMBER) ?(in|inch|\"|″|mm)?", words)
    return None if match is None else absolute("shaft.tip_trim", "length", f"{match[1]} {match[2] or ''}".strip())


def promised(words: str) -> Found:
    """``by Wed 15:00``, ``promised tomorrow 9am``, ``Wed 15:00``."""
    match = fits(r"(?:by|for|due|promised|before)(?: for| by)? (.+)", words)
    said = match[1] if match else words
    clear = _CLEARLY_A_TIME.search(said)
    if not clear or promised_moment(said, _ANY_DAY) is None:
        return None
    return [Say("ticket.promised", said, f"promised {said}")]


def player(words: str) -> Found:
    """``player A. Example``."""
    match = fits(r"(?:player|owner):? ([^\W\d_][\w.' -]*)", words)
    return None if match is None else [Say("ticket.player", match[1], f"player {match[1]}")]


def _note(text: str) -> Say:
    return Say("ticket.note", text, f"kept as a note: {text}")


WORD_RULES: tuple[Rule, ...] = (plain, club, bounce_class, steps, added_mass, tip_trim, promised, player)
