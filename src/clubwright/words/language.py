"""What a language is made of: its phrases, its words for the keys of the registers, and how it lists things."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import ModuleType
from typing import NamedTuple


class Counted(NamedTuple):
    """A phrase that reads otherwise of one thing than of none or several, by its place ``count``."""

    one: str
    other: str


Template = str | Counted
"""Text with the names of its places in braces."""


class Language(NamedTuple):
    """One language.

    Attributes:
        phrases: Key of the register to the phrase.
        word: Register and key to a word.
        words: Words of the registers that are listed whole: register, then key, to word.
        joints: Between the things of a list, by how they are listed; for ``and``, before the last.
    """

    phrases: Mapping[str, Template]
    word: Callable[[str, str], str]
    words: Mapping[str, Mapping[str, str]]
    joints: Mapping[str, str]


def one_table(*modules: ModuleType) -> dict[str, Template]:
    """Return the phrases of several modules as one table; each key stands in one of them."""
    found: dict[str, Template] = {}
    for module in modules:
        twice = found.keys() & module.PHRASES.keys()
        assert not twice, twice
        found |= module.PHRASES
    return found
