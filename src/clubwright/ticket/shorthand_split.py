"""How a phrase falls into parts: of all ways to split it, the one that leaves the fewest words unread.

``D4 1/2 flat`` is D4 and half flat, since D4 1/2 would leave ``flat`` over. Two ways that read every word and say different
things (``lie 63 1/2 in over``) leave the phrase undecided.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from clubwright.ticket.shorthand_lengths import LENGTH_RULES
from clubwright.ticket.shorthand_say import Doubt, Found
from clubwright.ticket.shorthand_values import VALUE_RULES
from clubwright.ticket.shorthand_words import WORD_RULES

MOST_WORDS = 7
"""Words of the longest part that has a rule of its own."""

MOST_WAYS = 6
"""Ways of splitting that are followed side by side."""

Content = frozenset[tuple[str, str]]


class Piece(msgspec.Struct, frozen=True, kw_only=True):
    """Words from `first` up to, not including, `last`, and what they say; None when nothing."""

    first: int
    last: int
    found: Found


class Way(msgspec.Struct, frozen=True, kw_only=True):
    """One way of splitting the rest of a phrase: words unread and doubted (fewer is better), parts, what they say."""

    unread: int = 0
    doubted: int = 0
    pieces: tuple[Piece, ...] = ()
    content: Content = frozenset()

    def clashes(self) -> bool:
        """True when it says two things of one field."""
        fields = [field for field, _ in self.content if field and field != "ticket.note"]
        return len(fields) > len(set(fields))


def split(words: Sequence[str]) -> tuple[Way, Way | None]:
    """Return the best way to split a phrase, and another as good that says something else, if there is one."""
    ways: list[list[Way]] = [[] for _ in words] + [[Way()]]
    for first in reversed(range(len(words))):
        found: list[Way] = []
        for last in range(min(len(words), first + MOST_WORDS), first, -1):
            said = rule_for(" ".join(words[first:last]))
            if said is None and last > first + 1:
                continue
            piece = Piece(first=first, last=last, found=said)
            found += [_before(piece, way) for way in ways[last]]
        ways[first] = _best(found)
    best = _best([way for way in ways[0] if not way.clashes()]) or ways[0]
    rivals = [way for way in best[1:] if (way.unread, way.doubted) == (best[0].unread, best[0].doubted)]
    return best[0], rivals[0] if rivals and not best[0].clashes() else None


def rule_for(words: str) -> Found:
    """Return what the words say as a whole, or None when no rule fits them."""
    plain = words.replace("\N{MINUS SIGN}", "-").replace("\N{FRACTION SLASH}", "/")
    for rule in (*WORD_RULES, *LENGTH_RULES, *VALUE_RULES):
        found = rule(plain)
        if found is not None:
            return found
    return None


def _before(piece: Piece, way: Way) -> Way:
    count = piece.last - piece.first
    said = [] if piece.found is None or isinstance(piece.found, Doubt) else piece.found
    return Way(
        unread=way.unread + (count if piece.found is None else 0),
        doubted=way.doubted + (count if isinstance(piece.found, Doubt) else 0),
        pieces=(piece, *way.pieces),
        content=way.content | {(say.field, say.value) for say in said if say.field},
    )


def _best(ways: list[Way]) -> list[Way]:
    """Order ways, best first, and keep one for each content."""
    ordered = sorted(ways, key=lambda way: (way.unread, way.doubted, len(way.pieces)))
    kept: dict[Content, Way] = {}
    for way in ordered:
        kept.setdefault(way.content, way)
    return list(kept.values())[:MOST_WAYS]
