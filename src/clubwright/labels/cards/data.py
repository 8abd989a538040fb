"""What pencil cards are made of: plain data, texts ready to print."""

from __future__ import annotations

import msgspec

from clubwright.labels.sheet.data import Line


class BlankLine(msgspec.Struct, frozen=True, kw_only=True):
    """One place to write: what is written there, how, and what is known of it already."""

    label: str
    how: str = ""
    known: str = ""


class PencilCard(msgspec.Struct, frozen=True, kw_only=True):
    """One step on paper.

    Attributes:
        number: Its place in the plan, of how many.
        title: Verb first.
        waits: Why its gate is closed, a sentence each.
        act_on: The figures to act on, large.
        what: How it is done, a sentence each.
        numbers: Further figures.
        instrument: What it is measured with; empty where nothing is.
        expected: What that should show.
        done_when: How to see that it is done.
        cautions: What can hurt, all of it.
        gate: The gate that is signed before; empty where there is none.
        blanks: Places to write what is read.
    """

    number: str
    title: str
    waits: tuple[str, ...] = ()
    act_on: tuple[Line, ...] = ()
    what: tuple[str, ...] = ()
    numbers: tuple[Line, ...] = ()
    instrument: str = ""
    expected: tuple[Line, ...] = ()
    done_when: str = ""
    cautions: tuple[str, ...] = ()
    gate: str = ""
    blanks: tuple[BlankLine, ...] = ()


class CardsData(msgspec.Struct, frozen=True, kw_only=True):
    """All that the pencil cards of one job show; the cards' own words in the language of whoever prints them."""

    ticket_id: str
    player: str
    label: str
    kind: str
    hand: str
    job: str
    date: str
    cards: tuple[PencilCard, ...]
    invented: bool = False
    record_hash: str = ""
    words: dict[str, str] = {}
