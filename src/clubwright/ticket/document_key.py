"""A ticket's document as the key of what follows from it, so that the same ticket is read and worked once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


class DocumentKey:
    """A document that equals another when the two read the same."""

    __slots__ = ("document", "text")

    def __init__(self, document: Mapping[str, Any]) -> None:
        self.document = document
        self.text = repr(document)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, DocumentKey) and other.text == self.text

    def __hash__(self) -> int:
        return hash(self.text)
