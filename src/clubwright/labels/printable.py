"""Texts made ready for the print font: what it has no sign for leaves a line to write on by hand.

Typst sets a letter that no font has as an empty box without a word. A name in other letters than the font's must not keep
a club without its tag, and must not be guessed at either: a line is printed in its place, and it is said.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from typing import Any, TypeVar

import msgspec

from clubwright.errors import Finding
from clubwright.labels.glyphs import letters

BLANK_LEAST, BLANK_MOST = 4, 12
"""Signs of the line that stands for letters the font does not have."""

Data = TypeVar("Data", bound=msgspec.Struct)


def printable(data: Data) -> Data:
    """Return the same data, every text with signs of the print font only."""
    return msgspec.convert(_mapped(msgspec.to_builtins(data), printable_text), type(data))


def printable_text(text: str) -> str:
    """Return a text with a line to write on for each run of letters without a sign; composed, unseen signs left out."""
    found: list[str] = []
    missing = 0
    for letter in [*_composed(text), ""]:
        if letter and not has_sign(letter):
            missing += 1
            continue
        if missing:
            found.append("_" * min(max(BLANK_LEAST, 2 * missing), BLANK_MOST))
            missing = 0
        found.append(letter)
    return "".join(found)


def unprintable(data: msgspec.Struct) -> tuple[Finding, ...]:
    """Return a note for everything that is left to be written in by hand, with the first text that has it."""
    found: dict[tuple[str, ...], Finding] = {}

    def look(text: str) -> str:
        missing = letters_without_sign(text)
        if missing and missing not in found:
            named = ", ".join(f"{letter} (U+{ord(letter):04X})" for letter in missing)
            found[missing] = Finding(
                where=f'"{text}"',
                what=f"the print font has no sign for {named}: a line is printed in its place",
                mend="Write it in by hand, or write the ticket in Latin, Greek or Cyrillic letters.",
                severity="note",
            )
        return text

    _mapped(msgspec.to_builtins(data), look)
    return tuple(found.values())


def letters_without_sign(text: str) -> tuple[str, ...]:
    """Return the letters of a text for which a line is printed, each once."""
    return tuple(dict.fromkeys(letter for letter in _composed(text) if not has_sign(letter)))


def has_sign(letter: str) -> bool:
    """True when the print font draws this letter."""
    return letter == "\n" or ord(letter) in letters()


def _composed(text: str) -> str:
    """Compose accents with their letters, turn control signs into spaces, and leave out what is never seen."""
    composed = unicodedata.normalize("NFC", text)
    spaced = "".join(" " if unicodedata.category(sign) == "Cc" and sign != "\n" else sign for sign in composed)
    return "".join(sign for sign in spaced if unicodedata.category(sign) not in ("Cf", "Cs") and not _selects(sign))


def _selects(sign: str) -> bool:
    return "\ufe00" <= sign <= "\ufe0f"  # variation selectors: they say how the sign before them is drawn


def _mapped(value: Any, change: Callable[[str], str]) -> Any:
    if isinstance(value, str):
        return change(value)
    if isinstance(value, dict):
        return {key: _mapped(inner, change) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_mapped(inner, change) for inner in value]
    return value
