"""The key of a number: an address with a slash between its parts, as a page, a person or a program gives it."""

from __future__ import annotations


def first_of(key: str) -> tuple[str, str]:
    """Return the first part of a key, which says what kind of number it is, and the rest."""
    kind, _, rest = key.partition("/")
    return kind, rest


def last_of(key: str) -> tuple[str, str]:
    """Return all of a key but its last part, and that."""
    rest, _, last = key.rpartition("/")
    return rest, last
