"""How far a hosel of each metal is usually bent: routine and expert limits as data, each with its source and standing.

The limits are totals for the life of the head, per angle, either way. The head's maker knows better: a maker's limit
replaces these. A metal that is not known is not bent until it is.
Sources: [A] "Bending golf clubs: facts & fallacies", clubrepairnews.com, 2004 (hardness); [B] gameimprovementgolf.com,
bending forged and cast irons (limits). What is marked common practice has no source. See docs/theory/bending.md.
"""

from __future__ import annotations

import re
from typing import Literal

import msgspec

from clubwright.notation.one_line import one_line
from clubwright.planning.said.phrases import Phrase, phrase
from clubwright.units import DEGREE_RAD

JobStatus = Literal["seen", "memory", "common practice", "estimate"]


class MetalLimit(msgspec.Struct, frozen=True, kw_only=True):
    """How far a hosel of one metal is usually bent.

    Attributes:
        name: The metal, by the name used here.
        loft_limit_rad, lie_limit_rad: Routine limit of all bends of that angle together; 0 means no bend is advised.
        expert_loft_limit_rad, expert_lie_limit_rad: The most that practised hands go to, on their own judgement.
        why: The reason, in words for the bench.
        source: Where the routine limit comes from.
        standing: How well it is known.
        cautions: What to mind with this metal.
    """

    name: str
    loft_limit_rad: float
    lie_limit_rad: float
    expert_loft_limit_rad: float
    expert_lie_limit_rad: float
    why: str
    source: str
    standing: JobStatus
    cautions: tuple[Phrase, ...] = ()

    @property
    def may_bend(self) -> bool:
        """True when a bend is advised at all."""
        return self.loft_limit_rad > 0 or self.lie_limit_rad > 0


_FORGED_AND_CAST = "gameimprovementgolf.com, bending forged and cast irons"
_PRACTICE = "common practice, no source"


def _bends(
    name: str,
    loft: tuple[float, float],
    lie: tuple[float, float],
    why: str,
    source: str,
    standing: JobStatus,
    *cautions: Phrase,
) -> MetalLimit:
    """Return a limit from (routine, expert) degrees of loft and of lie."""
    return MetalLimit(
        name=name,
        loft_limit_rad=loft[0] * DEGREE_RAD,
        lie_limit_rad=lie[0] * DEGREE_RAD,
        expert_loft_limit_rad=loft[1] * DEGREE_RAD,
        expert_lie_limit_rad=lie[1] * DEGREE_RAD,
        why=why,
        source=source,
        standing=standing,
        cautions=cautions,
    )


def _stays(name: str, why: str, source: str, standing: JobStatus, *cautions: Phrase) -> MetalLimit:
    return _bends(name, (0, 0), (0, 0), why, source, standing, *cautions)


_ENTRIES = (
    _bends(
        "forged carbon steel",
        (2, 3),
        (2, 3),
        "soft (about Rb 70 to 80) and bends readily; experts are said to go 3 to 4 degrees, of which the lower is taken",
        _FORGED_AND_CAST,
        "seen",
        phrase("metal.soft"),
        phrase("metal.chrome"),
        phrase("metal.forged"),
    ),
    _bends(
        "cast 431 stainless",
        (2, 4),
        (2, 4),
        "the softer of the usual casts (about HRC 18 to 25); some are bent to 4 degrees",
        _FORGED_AND_CAST,
        "seen",
    ),
    _bends(
        "cast 17-4 stainless",
        (1, 2),
        (1, 2),
        "heat-treated and hard (about HRC 34 to 38): it springs back and can snap",
        _PRACTICE,
        "common practice",
        phrase("metal.hair crack"),
    ),
    _bends(
        "putter soft stainless",
        (1, 2),
        (2, 3),
        "putter necks of soft stainless or carbon steel are commonly bent 2 degrees of lie and 1 to 2 of loft",
        _PRACTICE,
        "common practice",
        phrase("metal.mallet"),
    ),
    _stays("maraging", "hard, and mostly welded or glued to another metal", _PRACTICE, "common practice"),
    _stays("titanium", "stiff and springy, with thin welded walls", _PRACTICE, "common practice"),
    _stays("multi-piece", "welds and resin joints do not bear a bend", _PRACTICE, "common practice"),
    _stays("tungsten-loaded", "welds and inserts do not bear a bend", _PRACTICE, "common practice"),
    _stays("zinc", "it breaks instead of bending", "from memory", "memory"),
    _stays(
        "beryllium copper",
        "its dust is toxic: decline grinding, and bend only as its maker says",
        "toledoblade.com 1999, latimes.com 1989 (beryllium disease)",
        "seen",
        phrase("metal.beryllium"),
    ),
)

METALS: dict[str, MetalLimit] = {entry.name: entry for entry in _ENTRIES}
"""Every metal by its name; what a ticket may write."""

_NEVER_FIRST: tuple[tuple[str, str], ...] = (
    ("beryllium", "beryllium copper"),
    ("becu", "beryllium copper"),
    ("zinc", "zinc"),
    ("titanium", "titanium"),
    ("maraging", "maraging"),
    ("tungsten", "tungsten-loaded"),
    ("multi-piece", "multi-piece"),
    ("multi-metal", "multi-piece"),
    ("hollow", "multi-piece"),
)
"""A word that forbids the bend wins over any other in the text."""

_BENDABLE: tuple[tuple[str, str], ...] = (
    ("17-4", "cast 17-4 stainless"),
    ("17/4", "cast 17-4 stainless"),
    ("431", "cast 431 stainless"),
    ("forged carbon steel", "forged carbon steel"),
)
_PUTTER_WORDS = ("soft stainless", "303", "304", "carbon steel")
"""Putter steels taken as soft (303 and 304 from memory)."""

UNKNOWN = _stays(
    "not known",
    "nobody has said which metal it is, and a hard cast snaps where a soft forging bends",
    _PRACTICE,
    "common practice",
)

_WOOD = _stays(
    "wood",
    "heads of woods are thin and welded or moulded",
    _PRACTICE,
    "common practice",
    phrase("metal.adapter"),
)


def _says(text: str, word: str) -> bool:
    """True when the word stands in the text and is no part of a longer number: 431 is not in 1431."""
    return re.search(rf"(?<![0-9]){re.escape(word)}(?![0-9])", text) is not None


def names_metal(text: str, metal: str) -> bool:
    """True when a name that a person gave, such as of a weight, has the name of a metal in it, in any case."""
    return metal in text.casefold()


def stays_as_it_is(metal: str | None, kind: str) -> bool:
    """True for a head that is known never to be bent: a wood, a metal that breaks; not for one whose metal nobody said."""
    limit = limit_for(metal, kind)
    return limit is not UNKNOWN and not limit.may_bend


def limit_for(metal: str | None, kind: str) -> MetalLimit:
    """Return how far a head may be bent.

    Args:
        metal: As the ticket has it, in any case; None when nobody said.
        kind: Kind of club. Drivers and fairway woods are never advised a bend; putters have limits of their own.

    Returns:
        The limit, or `UNKNOWN` when the text names no metal of `METALS`: "stainless" or "forged" alone does not.
    """
    text = one_line((metal or "").casefold())
    for word, name in _NEVER_FIRST:
        if _says(text, word):
            return METALS[name]
    if kind in ("driver", "fairway"):
        return _WOOD
    for word, name in _BENDABLE:
        if _says(text, word) and not (kind == "putter" and name == "forged carbon steel"):
            return METALS[name]
    if kind == "putter" and any(_says(text, word) for word in _PUTTER_WORDS):
        return METALS["putter soft stainless"]
    return UNKNOWN
