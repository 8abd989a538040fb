"""Pencil cards: each step of a job on paper, with its cautions and places to write what is read."""

from __future__ import annotations

from clubwright.labels.cards.data import CardsData
from clubwright.labels.code import ticket_code
from clubwright.labels.printable import printable
from clubwright.labels.sheet.sheet import Paper
from clubwright.labels.typesetting import typeset

CODE_MM = 15.0


def pencil_cards(data: CardsData, *, paper: Paper = "a4") -> bytes:
    """Return the pencil cards as a PDF, as many on a page as find room; no card is parted. The same data, the same bytes.

    Raises:
        InputError: When the id cannot be coded.
        NotPrinted: When the typesetter has anything to warn of.
    """
    code = ticket_code(data.ticket_id, side_mm=CODE_MM)
    return typeset("cards.typ", printable(data), format="pdf", paper=paper, code=code)
