"""The words of an order, answered: what they say, the ticket they make, and what of them is left over or asked."""

from __future__ import annotations

from clubwright.notation import CANONICAL, Typist
from clubwright.services.answer.answer import findings_part
from clubwright.services.told.words import WordsAnswer
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import read_shorthand


def answer_words(text: str, typist: Typist = CANONICAL) -> WordsAnswer:
    """Return what a line of shorthand says; never raises.

    Args:
        text: As said.
        typist: How numbers are typed in it.
    """
    shorthand = read_shorthand(text, typist)
    return WordsAnswer(
        document=document_of(shorthand),
        findings=findings_part(shorthand.findings),
        left=shorthand.left,
        said=shorthand.said,
    )
