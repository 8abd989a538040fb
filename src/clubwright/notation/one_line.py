"""A text on one line."""

from __future__ import annotations


def one_line(text: str) -> str:
    """Return a text on one line, its words parted by single spaces."""
    return " ".join(text.split())
