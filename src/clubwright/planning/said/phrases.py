"""What there is to say, as data: a phrase of the register, and what it is about.

Sentences are made of it in `clubwright.words`. A text in such data is a name or a figure as somebody typed it; it is passed
on as it is. Nothing here is prose.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.club.quantities import QUANTITIES

Form = Literal[
    "plain",
    "in full",
    "at the mark",
    "fine",
    "with mm",
    "tenths",
    "hundredths",
    "points",
    "change of points",
    "grams",
    "change of grams",
    "hundredths of grams",
    "percent",
    "tenths of percent",
    "degrees",
    "tenths of degrees",
    "signed degrees",
    "quarters of degrees",
    "yards",
    "mm2",
    "cm3",
    "newton",
    "kilonewton",
    "megapascal",
    "times",
    "metres per second",
    "metres",
    "per hundred",
    "whole minutes",
    "tenths of points",
]
"""How an amount is written; ``plain`` is the notation of its kind."""


class Amount(msgspec.Struct, frozen=True, tag="amount"):
    """A figure in SI.

    Attributes:
        kind: Kind of notation, as `clubwright.notation.render` knows it.
        value: The figure.
        sd: Its standard uncertainty; None where none is said.
        form: How it is written.
    """

    kind: str
    value: float
    sd: float | None = None
    form: Form = "plain"


class Word(msgspec.Struct, frozen=True, tag="word"):
    """One word of a register, such as the name of a quantity, by its key there."""

    register: str
    key: str


class Listed(msgspec.Struct, frozen=True, tag="list"):
    """Several things, said one after the other."""

    items: tuple[Value, ...]
    by: Literal["comma", "and", "plus", "semicolon", "then", "or"] = "comma"


class Phrase(msgspec.Struct, frozen=True, tag="phrase"):
    """A phrase of the register, and what fills it.

    Attributes:
        key: Its key in the register of phrases (`clubwright.words`).
        data: Name of each place and what stands in it, in order of names.
    """

    key: str
    data: tuple[tuple[str, Value], ...] = ()


Value = Amount | Word | Listed | Phrase | str | int
"""What can be said."""


def phrase(key: str, **data: Value) -> Phrase:
    """Return a phrase of the register."""
    return Phrase(key, tuple(sorted(data.items())))


def length(value_m: float, sd_m: float | None = None, form: Form = "plain") -> Amount:
    """Return a length in m."""
    return Amount("length", value_m, sd_m, form)


def in_full(value_m: float) -> Amount:
    """Return a length in m, to be written in full: the mark of the rule and what is beyond it, and its decimals."""
    return length(value_m, form="in full")


def at_mark(value_m: float) -> Amount:
    """Return a length in m, to be written as the rule is read."""
    return length(value_m, form="at the mark")


def fine(value_m: float) -> Amount:
    """Return a small length in m, to be written as the gauges of a joint show it."""
    return length(value_m, form="fine")


def figure(kind: str, value: float, sd: float | None = None) -> Amount:
    """Return a figure in the notation of its kind, in SI."""
    return Amount(kind, value, sd)


def percent(chance: float) -> Amount:
    """Return a chance."""
    return Amount("number", chance, form="percent")


def points(value: float, form: Form = "change of points", sd: float | None = None) -> Amount:
    """Return a change of the swing weight in points."""
    return Amount("points", value, sd, form)


def tools(*names: str) -> Listed:
    """Return what something is measured or worked with."""
    return Listed(tuple(Word("tool", name) for name in names))


def quantity(key: str) -> Word:
    """Return the name of a quantity of the register."""
    return Word("quantity", key)


def reads(key: str, mean: float, sd: float | None = None) -> Phrase:
    """Return a quantity of the register with what it reads, in SI."""
    return phrase("reads", what=quantity(key), amount=Amount(QUANTITIES[key].kind, mean, sd))


def pieces(names: tuple[str, ...] | list[str]) -> Value:
    """Return weights by their names, equal ones counted; nothing fitted is a phrase of its own."""
    counted: tuple[Value, ...] = tuple(
        name if names.count(name) == 1 else phrase("several pieces", count=names.count(name), name=name)
        for name in dict.fromkeys(names)
    )
    return Listed(counted, "plus") if counted else phrase("no weight")
