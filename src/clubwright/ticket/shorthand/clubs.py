"""Shorthand for a club by its loft, for several clubs at once, and for an amount with what it is counted from.

``9.5 driver`` is one club; ``4-PW`` is a set, and a ticket is for one club, so it is asked about. Meanings are common
practice, no source.
"""

from __future__ import annotations

import math

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.shorthand.grip import COUNT, COUNTS, LOWER, TAPE
from clubwright.ticket.shorthand.lengths import LONGEST_M, SHORTEST_M, relative
from clubwright.ticket.shorthand.say import UNIT, Doubt, Found, Rule, Say, fits
from clubwright.ticket.shorthand.values import LIES_DEG, up_flat_strong_weak

LOFTS: dict[str, tuple[float, float]] = {"driver": (6.0, 15.0), "wood": (11.0, 30.0), "hybrid": (14.0, 34.0)}
"""A number beside the name of the club is its loft in here: no such club is that many inches long."""

_WEDGES = ("PW", "GW", "AW", "SW", "LW")
_OUT_OF = "(?:to|through|thru|-|\N{EN DASH})"


def with_its_loft(words: str) -> Found:
    """``9.5 driver``, ``driver 10.5 deg``, ``19 deg hybrid``, ``4 hybrid 22``, ``3 wood 15``."""
    number, unit = r"([0-9]{1,2}(?:\.[0-9]{1,2})?)", r" ?(?:deg|degrees?|°)?"
    before = fits(rf"{number}{unit} (driver|hybrid)", words)
    match = before or fits(rf"(?:([1-9]|1[01])[ -])?(driver|wood|hybrid) {number}{unit}", words)
    if match is None:
        return None
    which, name, loft = ("", match[2].lower(), match[1]) if before else (match[1] or "", match[2].lower(), match[3])
    low, high = LOFTS[name]
    if not low <= float(loft) <= high or (name == "wood") > bool(which) or (name == "driver" and which):
        return None
    label = f"{which} {name}" if which else f"{loft} {name}" if name == "driver" else f"{loft} deg {name}"
    kind = "fairway" if name == "wood" else name
    return [
        Say("target.loft", f"{loft} deg", parse("loft", f"{loft} deg").echo),
        Say("ticket.kind", kind, f"kind: {kind}"),
        Say("ticket.label", label, label),
    ]


def several(words: str) -> Found:
    """``4-PW``, ``5 to 9``, ``3i-SW``: which clubs these are, and that each is a ticket of its own."""
    match = fits(rf"([1-9]) ?(?:i|iron)? ?{_OUT_OF} ?([2-9]|[pgasl]w) ?(?:i|irons?)?", words)
    if match is None:
        return None
    first, last = int(match[1]), match[2].upper()
    end = int(last) if last.isdecimal() else 9
    if end < first or (last.isdecimal() and end == first):
        return None
    irons = [f"{number} iron" for number in range(first, end + 1)]
    wedges = [] if last.isdecimal() else list(_WEDGES[: _WEDGES.index(last) + 1])
    if len(wedges) > 1:
        return Doubt(
            f"{words} is a set from {irons[0]} to {last}, and sets differ in which wedges they have in between",
            f"A ticket is for one club: write {irons[0]} here, and take one ticket more for each club of the set.",
        )
    clubs = [*irons, *wedges]
    return Doubt(
        f"{words} is a set of {len(clubs)} clubs ({', '.join(clubs)})",
        f"A ticket is for one club: write {clubs[0]} here, and take one ticket more for each of the others.",
    )


def from_a_base(words: str) -> Found:
    """``half flat from 64``, ``2 strong off 46``, ``1/2 in over from 35``: the amount, and what it is counted from."""
    match = fits(rf"(.+?) (?:from|off) (NUMBER) ?(?:(deg|degrees?|°)|({UNIT}))?", words)
    if match is None:
        return None
    amount, number = match[1], match[2]
    angle = up_flat_strong_weak(amount)
    found = angle or relative(amount)
    if isinstance(found, Doubt) or found is None:
        return found
    (said,) = found
    key = said.field.rpartition(".")[2]
    if (angle and match[4]) or (not angle and match[3]):
        return Doubt(f"{words}: the amount and what it is counted from have different units", f"Write the whole {key}.")
    text = f"{number} {'deg' if angle else match[4] or 'in'}"
    try:
        base = parse(key, text)
    except InputError as refused:
        return Doubt(refused.findings[0].what, refused.findings[0].mend)
    if not _is_one(key, base.value):
        return Doubt(f"{number} is the {key} of no club", f"Write the whole {key} that it is counted from.")
    counted = Say(said.field, said.value, f"{key}: {said.value}, counted from {number}")
    return [counted, Say(f"base.{key}", text, f"{key} that it is counted from: {base.echo}")]


def _is_one(key: str, value: float) -> bool:
    if key == "length":
        return SHORTEST_M <= value <= LONGEST_M
    low, high = LIES_DEG if key == "lie" else (0.0, 70.0)
    return low <= math.degrees(value) <= high


def more_tape(words: str) -> Doubt | None:
    """``one more wrap in the lower hand``: more than under the upper hand, or more than there was?"""
    more = rf"(?:{COUNT} more|an?other|one further)"
    match = fits(rf"{more} {TAPE}( {LOWER})?", words)
    if match is None:
        return None
    many = COUNTS.get((match[1] or "one").lower()) or int(match[1])
    wraps = f"{many} wrap{'' if many == 1 else 's'}"
    if match[2]:
        return Doubt(
            f"{words} may be more than lies under the upper hand, or more than there was",
            f"Write {wraps} lower hand for what lies only there, or how many in all (2 wraps + 1 lower).",
        )
    return Doubt(f"{words} does not say from how many", "Write how many there shall be in all, such as 2 wraps.")


def of_a_putter(words: str) -> Found:
    """``face square``, ``half offset``, ``centre-shafted``, ``over-hosel``, ``double bend``: which parts to pull."""
    offset, shafted = r"(?:no|half|full|one)(?:[- ]shaft)?[- ]offset", r"(?:cent(?:er|re)|heel|toe)[- ]shafted"
    if not fits(
        rf"face square|square face|{offset}|{shafted}|over[- ]hosel|(?:single|double)[- ]bend(?: shaft)?", words
    ):
        return None
    return [Say("ticket.note", words, f"kept as a note: {words}")]


CLUB_RULES: tuple[Rule, ...] = (with_its_loft, several, from_a_base, more_tape, of_a_putter)
