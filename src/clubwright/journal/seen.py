"""How far somebody had seen the facts that an action is decided on: the last number of each bench, as a form carries it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from clubwright.journal.facts import Place

MOST_DIGITS = 12
_SIGNS = (("%", "%25"), (":", "%3A"), (",", "%2C"))
"""What parts the word, and how a bench's name that holds it is written."""


def seen_of(places: Iterable[Place]) -> dict[str, int]:
    """Return the last number of each bench among some facts."""
    found: dict[str, int] = {}
    for site, number in places:
        found[site] = max(number, found.get(site, 0))
    return found


def seen_text(seen: Mapping[str, int]) -> str:
    """Write it as one word, such as ``bench:12,van:5``."""
    return ",".join(f"{_written(site)}:{number}" for site, number in sorted(seen.items()))


def read_seen(text: str, site: str) -> dict[str, int] | None:
    """Read such a word; None where it is none. A number alone is of the bench that asks.

    Args:
        text: As it was sent.
        site: That bench.
    """
    found: dict[str, int] = {}
    for part in text.split(",") if text else []:
        name, colon, number = part.rpartition(":")
        if not (number.isascii() and number.isdigit() and len(number) <= MOST_DIGITS):
            return None
        found[_read(name) if colon else site] = int(number)
    return found or None


def later_than(places: Iterable[Place], seen: Mapping[str, int]) -> list[Place]:
    """Return the facts that came after what was seen."""
    return [(site, number) for site, number in places if number > seen.get(site, 0)]


def _written(site: str) -> str:
    for sign, instead in _SIGNS:
        site = site.replace(sign, instead)
    return site


def _read(name: str) -> str:
    for sign, instead in reversed(_SIGNS):
        name = name.replace(instead, sign)
    return name
