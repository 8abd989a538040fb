"""How a phrase falls into parts: of all ways to split it, the one that leaves the fewest words unread.

``D4 1/2 flat`` is D4 and half flat, since D4 1/2 would leave ``flat`` over. Two ways that read every word and say different
things (``lie 63 1/2 in over``) leave the phrase undecided. Words that mean two things as a whole are never taken apart
(`shorthand_asked`), and what stands beside a word that is not understood is not taken: the word may change what it means
(``balance point 30 in``, ``not D2``).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import msgspec

from clubwright.ticket.shorthand.asked import asked
from clubwright.ticket.shorthand.clubs import CLUB_RULES
from clubwright.ticket.shorthand.grip import GRIP_RULES
from clubwright.ticket.shorthand.lengths import LENGTH_RULES
from clubwright.ticket.shorthand.name import may_measure, name_alone, name_in, named_after_for
from clubwright.ticket.shorthand.say import Doubt, Found
from clubwright.ticket.shorthand.values import VALUE_RULES
from clubwright.ticket.shorthand.words import WORD_RULES, alone, is_filler, player

MOST_WORDS = 7
"""Words of the longest part that has a rule of its own."""

MOST_WAYS = 6
"""Ways of splitting that are followed side by side."""

KEPT = 8192
"""Stretches of words whose reading is kept: a phrase is read once for each way of splitting it."""

Content = frozenset[tuple[str, str]]


class Piece(msgspec.Struct, frozen=True, kw_only=True):
    """Words from `first` up to, not including, `last`, and what they say; None when nothing."""

    first: int
    last: int
    found: Found


class Way(msgspec.Struct, frozen=True, kw_only=True):
    """One way of splitting the rest of a phrase.

    Attributes:
        unread: Words that no rule fits; fewer is better.
        doubts: Parts that are doubted; fewer is better.
        doubted: Words of those parts; of as many doubts the longer ones are taken, for they leave less to be guessed
            (``1/64 in over`` is doubted whole, and not read as an inch over beside a doubted 1/64).
        pieces: The parts.
        content: What they say.
    """

    unread: int = 0
    doubts: int = 0
    doubted: int = 0
    pieces: tuple[Piece, ...] = ()
    content: Content = frozenset()

    def rank(self) -> tuple[int, int, int]:
        """Return what makes one way better than another: the smaller the better."""
        return self.unread, self.doubts, -self.doubted

    def clashes(self) -> bool:
        """True when it says two things of one field."""
        fields = [field for field, _ in self.content if field and field != "ticket.note"]
        return len(fields) > len(set(fields))

    def refines(self, other: Way) -> bool:
        """True when it only takes the other's parts further apart: ``by Wed`` and ``15:00`` of ``by Wed 15:00``."""
        return {piece.first for piece in self.pieces} >= {piece.first for piece in other.pieces}


def split(words: Sequence[str]) -> tuple[Way, Way | None]:
    """Return the best way to split a phrase, and another as good that says something else, if there is one."""
    if (said := _by_itself(words)) is not None:
        return Way(pieces=(Piece(first=0, last=len(words), found=said),)), None
    whole = _asked_as_a_whole(words)
    inside = {place for first, (last, _) in whole.items() for place in range(first + 1, last)}
    ways: list[list[Way]] = [[] for _ in words] + [[Way()]]
    for first in reversed(range(len(words))):
        if first in inside:
            continue
        found: list[Way] = []
        least = first
        if first in whole:
            least, doubt = whole[first]
            found += [_before(Piece(first=first, last=least, found=doubt), way) for way in ways[least]]
        for last in range(min(len(words), first + MOST_WORDS), least, -1):
            said = None if last in inside else rule_for(" ".join(words[first:last]))
            if last in inside or (said is None and last > first + 1):
                continue
            piece = Piece(first=first, last=last, found=said)
            found += [_before(piece, way) for way in ways[last]]
        ways[first] = _best(found)
    best = ways[0]
    equal = (way for way in best[1:] if way.rank() == best[0].rank())
    rival = next((way for way in equal if not (way.clashes() and way.refines(best[0]))), None)
    return _beside_what_is_open(words, best[0]), rival


def _by_itself(words: Sequence[str]) -> Found:
    """Return what is clear only where nothing stands beside it: ``now``, ``for Mara Oldfield``."""
    if len(words) == 1:
        return alone(words[0])
    plain = _plain(words)
    return named_after_for(plain) if isinstance(rule_for(plain), Doubt) and name_in(plain) else None


def _asked_as_a_whole(words: Sequence[str]) -> dict[int, tuple[int, Doubt]]:
    """Return where words begin that are asked about as a whole, where they end, and the doubt; those that overlap as one."""
    found: dict[int, tuple[int, Doubt]] = {}
    end = 0
    for first in range(len(words)):
        for last in range(min(len(words), first + MOST_WORDS), first + 1, -1):
            doubt = asked(_plain(words[first:last]))
            if doubt is None:
                continue
            if first < end:
                start = max(found)
                found[start] = (max(end, last), found[start][1])
            else:
                found[first] = (last, doubt)
            end = max(end, last)
            break
    return found


def _beside_what_is_open(words: Sequence[str], way: Way) -> Way:
    """Doubt what stands beside a word that is not understood, and what could be read together with doubted words."""
    weighty = [piece for piece in way.pieces if not _is_filler(words, piece)]
    pieces = {piece.first: piece for piece in way.pieces}
    for place, piece in enumerate(weighty):
        if not isinstance(piece.found, list):
            continue
        beside = [*weighty[max(place - 1, 0) : place], *weighty[place + 1 : place + 2]]
        unread = [other for other in beside if other.found is None]
        doubted = [other for other in beside if isinstance(other.found, Doubt) and _could_join(words, piece, other)]
        if unread or doubted:
            said = " ".join(words[piece.first : piece.last])
            others = " and ".join(" ".join(words[other.first : other.last]) for other in (*unread, *doubted))
            why = "which is not understood and may change what it means" if unread else "and may belong to it"
            mend = "Set it off by commas if it stands by itself, or say both in other words."
            doubt = Doubt(f"{said} stands beside {others}, {why}", mend)
            pieces[piece.first] = Piece(first=piece.first, last=piece.last, found=doubt)
    for piece in weighty:
        if isinstance(pieces[piece.first].found, list) and any(_contradicts(piece, other) for other in weighty):
            said = " ".join(words[piece.first : piece.last])
            doubt = Doubt(f"{said} says another value of the same field", "Say it once, or write it in its field.")
            pieces[piece.first] = Piece(first=piece.first, last=piece.last, found=doubt)
    return msgspec.structs.replace(way, pieces=tuple(pieces.values()))


def _contradicts(one: Piece, other: Piece) -> bool:
    """True when two parts say different values of one field: neither is taken, even when the other is doubted anyhow."""
    first, second = (
        {say.field: say.value for say in piece.found if not say.implied} if isinstance(piece.found, list) else {}
        for piece in (one, other)
    )
    return any(
        field != "ticket.note" and first[field] != second[field] for field in first.keys() & second.keys() if field
    )


def _could_join(words: Sequence[str], piece: Piece, other: Piece) -> bool:
    """True when some words of a part and of one beside it say something together: 63 of ``lie 63`` with the 1/2 behind."""
    low, high = min(piece.first, other.first), max(piece.last, other.last)
    if other.first < piece.first and name_in(" ".join(words[other.first : other.last])):
        return may_measure(_plain(words[piece.first : piece.last]))
    border = piece.last if piece.first < other.first else piece.first
    spans = ((first, last) for first in range(low, border) for last in range(border + 1, high + 1))
    short = (words[first:last] for first, last in spans if last - first <= MOST_WORDS)
    return any(isinstance(rule_for(" ".join(span)), list) for span in short)


def _is_filler(words: Sequence[str], piece: Piece) -> bool:
    return piece.last == piece.first + 1 and is_filler(words[piece.first])


@lru_cache(maxsize=KEPT)
def rule_for(words: str) -> Found:
    """Return what the words say as a whole, or None when no rule fits them; what it returns is not to be changed."""
    plain = _plain([words])
    found = _by_a_rule(plain)
    if found is None and (name := name_in(plain)) is not None and not _meaning_inside(name.split(" "), 0):
        return name_alone(plain)
    return found


@lru_cache(maxsize=KEPT)
def _by_a_rule(plain: str) -> Found:
    for rule in (*CLUB_RULES, *WORD_RULES, *GRIP_RULES, *LENGTH_RULES, *VALUE_RULES):
        found = rule(plain)
        if found is not None:
            return _sure_name(plain) if rule is player else found
    return None


def _meaning_inside(parts: Sequence[str], begin: int) -> str | None:
    """Return the first words from a place on that have a meaning of their own, None when there are none."""
    for first in range(begin, len(parts)):
        for last in range(first + 1, len(parts) + 1):
            part = " ".join(parts[first:last])
            if not is_filler(part) and _by_a_rule(part) is not None:
                return part
    return None


def _sure_name(words: str) -> Found:
    """Doubt a player's name that holds words with a meaning of their own: ``player left hand``."""
    part = _meaning_inside(words.split(" "), 1)
    if part is None:
        return player(words)
    what = f"{part} may be part of the name, or said of the club"
    return Doubt(what, "Set the name off by a comma, or write it in its field.")


def _plain(words: Sequence[str]) -> str:
    return " ".join(words).replace("\N{MINUS SIGN}", "-").replace("\N{FRACTION SLASH}", "/")


def _before(piece: Piece, way: Way) -> Way:
    count = piece.last - piece.first
    said = [] if piece.found is None or isinstance(piece.found, Doubt) else piece.found
    return Way(
        unread=way.unread + (count if piece.found is None else 0),
        doubts=way.doubts + int(isinstance(piece.found, Doubt)),
        doubted=way.doubted + (count if isinstance(piece.found, Doubt) else 0),
        pieces=(piece, *way.pieces),
        content=way.content | {(say.field, say.value) for say in said if say.field},
    )


def _best(ways: list[Way]) -> list[Way]:
    """Order ways, best first, and keep one for each content."""
    ordered = sorted(ways, key=lambda way: (*way.rank(), len(way.pieces)))
    kept: dict[Content, Way] = {}
    for way in ordered:
        kept.setdefault(way.content, way)
    return list(kept.values())[:MOST_WAYS]
