"""Shorthand that is words: which club, which hand, logo, tip, steps, hot melt, how soon, whose."""

from __future__ import annotations

import re
from datetime import datetime

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.shorthand.promised import promised_moment
from clubwright.ticket.shorthand.say import Doubt, Found, Rule, Say, absolute, fits, refusal

_ANY_DAY = datetime(2000, 1, 3)  # noqa: DTZ001 - only asks whether words can be read at all
_CLEARLY_A_TIME = re.compile(
    r"day\b|\b(?:mon|tues?|wed|thu|thurs|fri|sat|sun|tomorrow|tonight|noon)\b|[0-9]:[0-9]{2}|[0-9] ?[ap]m\b|[0-9]{4}-",
    re.IGNORECASE | re.ASCII,
)
_PLAIN: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (r"(?:rh|right[- ]?hand(?:ed|er)?)(?: (?:player|golfer|club))?", (("ticket.hand", "right"),)),
    (r"(?:lh|left[- ]?hand(?:ed|er)?)(?: (?:player|golfer|club))?|lefty", (("ticket.hand", "left"),)),
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
    (r"(?:check )?lofts?(?: (?:and|&|/) | ?[-/&] ?)lies?(?: only)?", (("ticket.job", "loft-lie"),)),
    (r"bend(?:ing)? only|only bend(?:ing)?", (("ticket.job", "loft-lie"),)),
    (r"wedge", (("ticket.kind", "wedge"),)),
    (r"driver", (("ticket.kind", "driver"), ("ticket.label", "driver"))),
    (r"putter", (("ticket.kind", "putter"), ("ticket.label", "putter"))),
    (r"(?:urgent|right now|right away)", (("ticket.priority", "now"),)),
    (r"today", (("ticket.priority", "today"),)),
    (r"this week", (("ticket.priority", "this week"),)),
)


_ALONE = {"left": ("ticket.hand", "left"), "right": ("ticket.hand", "right"), "now": ("ticket.priority", "now")}
_FILLERS = frozenset({"and", "with", "&", "a", "an", "the", "please"})


def is_filler(word: str) -> bool:
    """True of a word that says nothing by itself: what stands on either side of it stands together all the same."""
    return word.lower() in _FILLERS and word != "A"  # an A wedge is one wedge, a wedge is any


def alone(words: str) -> Found:
    """``left``, ``right``, ``now``: clear where nothing stands beside them, and only there."""
    if words.lower() not in _ALONE:
        return None
    field, value = _ALONE[words.lower()]
    return [Say(field, value, f"{field.rpartition('.')[2]}: {value}")]


def beside_others(words: str) -> Found:
    """The same words with others beside them: ``logo right``, ``was 35 now 36``; and what says nothing by itself."""
    if is_filler(words):
        return [Say("", words.lower(), "says nothing by itself")]
    if words.lower() not in _ALONE:
        return None
    _, value = _ALONE[words.lower()]
    clear = "urgent" if value == "now" else f"{value} hand"
    mend = f"Set it off by commas, write {clear}, or leave it out knowingly."
    return Doubt(f"{words} may be said of the club, or of what stands beside it", mend)


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
    if match := fits(r"([1-9])[ -]?(?:i|iron)", words):
        return _club("iron", f"{match[1]} iron")
    if match := fits(r"([2-9]|1[01])[ -]wood", words):
        return _club("fairway", f"{match[1]} wood")
    if match := fits(r"([1-9])[ -]?(?:hybrid|hy)", words):
        return _club("hybrid", f"{match[1]} hybrid")
    if fits(r"[1-9] ?h", words):
        return Doubt(f"{words} may be a hybrid or hours", f"Write {words[0]} hybrid.")
    if match := fits(r"(pw|gw|aw|lw|(?:pitching|gap|approach|sand|lob) wedge)", words):
        return _club("wedge", match[1].upper() if len(match[1]) == 2 else match[1].lower())
    if match := re.fullmatch(r"([PGASL])[ -]wedge", words):  # capitals only: "a wedge" is any wedge
        return _club("wedge", f"{match[1]}W")
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


NO_NAME = re.compile(
    r"in|over|under|long|short|up|flat|upright|strong|weak|hand(?:ed)?|grip|wraps?|layers?|tape|half|quarter|one|two|three|not?|"
    r"without|head|shaft|loft|lie|bounce|length|logo|weight|core|tip|cap|wood|iron",
    re.IGNORECASE,
)
"""Words of the bench: in a name they are asked about."""


PARTICLE = re.compile(r"(?:van|von|der|den|de|del|della|di|da|dos|du|la|le|bin|al|of|y)", re.IGNORECASE)
"""Words inside a name that begin without a capital."""


def player(words: str) -> Found:
    """``player A. Example``: names begin with capitals; a word of the bench in one is asked about."""
    match = re.fullmatch(r"(?:player|owner):? ([^\W\d_][^\d,;]*)", words, re.IGNORECASE)
    if match is None:
        return None
    names = [word for word in match[1].split(" ") if not PARTICLE.fullmatch(word)]
    if not names or any(word[:1].islower() for word in names):
        return None
    strange = [word for word in names if NO_NAME.fullmatch(word)]
    if strange:
        what = f"{' '.join(strange)} may be part of the name, or said of the club"
        return Doubt(what, "Set the name off by a comma, or write it in its field.")
    return [Say("ticket.player", match[1], f"player {match[1]}")]


def _note(text: str) -> Say:
    return Say("ticket.note", text, f"kept as a note: {text}")


WORD_RULES: tuple[Rule, ...] = (beside_others, plain, club, bounce_class, steps, added_mass, tip_trim, promised, player)
