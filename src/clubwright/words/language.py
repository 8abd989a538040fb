"""What a language is made of: its phrases, its words for the keys of the registers, and how it lists things."""

from __future__ import annotations

from collections.abc import Callable, Mapping
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
        joints: Between the things of a list, by how they are listed; for ``and``, before the last.
    """

    phrases: Mapping[str, Template]
    word: Callable[[str, str], str]
    joints: Mapping[str, str]
