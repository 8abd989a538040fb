"""The words of an order, answered: what they say, the ticket they make, and what of them is left over or asked."""

from __future__ import annotations

import msgspec

from clubwright.services.answer.answer import Plain, findings_part
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import read_shorthand


def answer_words(text: str) -> Plain:
    """Return what a line of shorthand says, as plain data; never raises.

    Returns:
        ``document`` (the ticket as far as it is said, the words under ``asked``), ``said`` (each stretch of words with its
        field, value and meaning), ``left`` (words that are not taken: what they may be, and how to write it), and
        ``findings`` (both kinds of things to look at). Every word of the text is in ``said`` or in ``left``.
    """
    shorthand = read_shorthand(text)
    return {
        "document": document_of(shorthand),
        "findings": findings_part(shorthand.findings),
        "left": [msgspec.to_builtins(item) for item in shorthand.left],
        "said": [msgspec.to_builtins(item) for item in shorthand.said],
    }
