"""What a text in the record may be: plain characters, and no more of them than a person types or a file holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from clubwright.errors import Finding

LONGEST_NAME = 200
"""Characters of a bench's, a person's or a key's name, and of a ticket number."""
LONGEST_TEXT = 64 * 1024
"""Characters of any other text: as many as one field of a form may carry."""
MOST_ENTRIES = 5000
"""Entries of a fact's content in all: the answer that a signature was shown has some hundred."""
DEEPEST = 16
"""Levels of a fact's content: the answer at a signature has eight."""
LARGEST = 2**31 - 1
"""Whole numbers in a fact: they are counts, and numbers of facts."""

_LINES = "\t\n\r"
_MEND = "Write it as plain text."


def is_text(text: str, *, lines: bool) -> bool:
    """True for characters that every record can hold: no control characters, no halves of a pair."""
    allowed = _LINES if lines else ""
    return not any(
        (char < " " and char not in allowed) or char == "\x7f" or "\ud800" <= char <= "\udfff" for char in text
    )


def name_findings(where: str, name: str) -> list[Finding]:
    """Say what is wrong with the name of a bench, a person, an action or a ticket: something seen, on one line."""
    shown = repr(name[:40])
    if not name.strip() or name != name.strip():
        return [Finding(where=where, what=f"{shown} is empty, or has outer spaces", mend="Write a name.")]
    if len(name) > LONGEST_NAME:
        return [Finding(where=where, what=f"{shown}... has {len(name)} characters", mend=f"At most {LONGEST_NAME}.")]
    if not is_text(name, lines=False) or not name.isprintable():
        return [Finding(where=where, what=f"{shown} has a sign that cannot be seen", mend="Type it anew.")]
    return []


def text_findings(where: str, text: str) -> list[Finding]:
    """Say what is wrong with any other text."""
    if len(text) > LONGEST_TEXT:
        what = f"it has {len(text)} characters, more than {LONGEST_TEXT}"
        return [Finding(where=where, what=what, mend="Leave out what does not belong there.")]
    if not is_text(text, lines=True):
        return [Finding(where=where, what=f"{text[:40]!r} holds control characters", mend=_MEND)]
    return []


def content_findings(where: str, content: Mapping[str, Any]) -> list[Finding]:
    """Say what is wrong with the content of a fact as it is stored: texts, whole numbers, yes and no, tables and lists."""
    found: list[Finding] = []
    for count, (value, level) in enumerate(_walked(content)):
        if level > DEEPEST or count > MOST_ENTRIES:
            what = f"it has more than {DEEPEST} levels or {MOST_ENTRIES} entries"
            return [*found, Finding(where=where, what=what, mend="Leave out what does not belong there.")]
        if isinstance(value, str):
            found += text_findings(where, value)
        elif isinstance(value, float):
            found.append(Finding(where=where, what=f"{value!r} is not kept as text", mend=_MEND))
        elif isinstance(value, int) and abs(value) > LARGEST:
            found.append(Finding(where=where, what=f"{value} is no count", mend="Write it as text."))
    return found


def _walked(content: Mapping[str, Any]) -> Iterator[tuple[Any, int]]:
    """Yield every key and value with its level; nothing nests, however deep the content is."""
    waiting: list[tuple[Any, int]] = [(content, 1)]
    while waiting:
        value, level = waiting.pop()
        yield value, level
        if isinstance(value, Mapping):
            waiting += [(item, level + 1) for pair in value.items() for item in pair]
        elif isinstance(value, list | tuple):
            waiting += [(item, level + 1) for item in value]
