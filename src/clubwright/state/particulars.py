"""Figures as they were typed, and the base of every struct that holds what is known of one thing."""

from __future__ import annotations

from functools import cache
from typing import TypeVar

import msgspec

from clubwright.errors import DocumentPlace

Kind = TypeVar("Kind", bound="Particulars")


class Entry(msgspec.Struct, frozen=True, kw_only=True):
    """One figure.

    Attributes:
        where: Its place, such as ``[head] mass``.
        typed: As typed.
        value: In SI.
        sd: Standard uncertainty typed behind it, in SI, or None.
        echo: What was understood, in words.
        stepped: Whether it was typed as an amount from a base.
    """

    where: DocumentPlace
    typed: str
    value: float
    sd: float | None
    echo: str
    stepped: bool = False


class Particulars(msgspec.Struct, frozen=True, kw_only=True):
    """What is known of one thing: figures (`Entry`) and words, each an attribute; None where nobody said it.

    A word without which nothing can be taken in (such as the name of a weight) is empty while it is missing.

    Attributes:
        where: Its place, such as ``[head]``, for findings.
        given: False where nothing at all was said of it, not even that it is there.
    """

    where: DocumentPlace
    given: bool = True

    @property
    def numbers(self) -> dict[str, Entry]:
        """The figures that are known, by key, in the order of the register of fields."""
        found = ((name, getattr(self, name)) for name, _ in said_of(type(self)))
        return {name: value for name, value in found if isinstance(value, Entry)}

    @property
    def words(self) -> dict[str, str]:
        """The words that are known, by key, likewise."""
        found = ((name, getattr(self, name), absent) for name, absent in said_of(type(self)))
        return {name: value for name, value, absent in found if isinstance(value, str) and value != absent}

    def entry(self, key: str) -> Entry | None:
        """Return the figure of that key; None when it is not known, or is no figure."""
        value = getattr(self, key, None)
        return value if isinstance(value, Entry) else None

    def word(self, key: str) -> str:
        """Return the word of that key; empty when it is not known, or is no word."""
        return self.words.get(key, "")

    def value(self, key: str) -> float | None:
        """Return the figure of that key in SI, or None when it is not known."""
        return in_si(self.entry(key))


class StiffnessTyped(msgspec.Struct, frozen=True, kw_only=True):
    """The stiffness of a shaft as it was typed.

    Attributes:
        words: Where it is nothing but words.
        values: Else its form (``kind``) and the texts of its values, by key; of a table, one text for each station.
    """

    words: str = ""
    values: dict[str, str | tuple[str, ...]] = {}


class Part(Particulars, frozen=True, kw_only=True):
    """One piece that goes on a club or comes off it.

    Attributes:
        name: What it is called.
    """

    name: str | None = None


@cache
def said_of(kind: type[Particulars]) -> tuple[tuple[str, str | None], ...]:
    """Return the keys of what may be known of a kind of thing, in order, each with what stands there while it is not."""
    own = Particulars.__struct_fields__
    found = {field.name: field.default for field in msgspec.structs.fields(kind) if field.name not in own}
    return tuple((name, absent if isinstance(absent, str) else None) for name, absent in found.items())


def in_si(entry: Entry | None) -> float | None:
    """Return a figure in SI, or None when it is not known."""
    return None if entry is None else entry.value


def whole_number(entry: Entry | None, otherwise: int) -> int:
    """Return a whole number, or a stated one when it is not known."""
    return otherwise if entry is None else round(entry.value)
