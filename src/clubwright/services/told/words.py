"""The answers about what is written, typed: a file that is checked, an order in words, and the ticket that it makes."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from clubwright.services.told.answer import FindingAnswer
from clubwright.services.told.base import Told, says
from clubwright.ticket.shorthand.reader import Left, Said


class CheckedAnswer(Told, frozen=True, kw_only=True):
    """What is found in a ticket file, or in the shop's settings."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    taken: Annotated[bool, says("Whether it can be taken.")]
    understood: Annotated[tuple[str, ...], says("What each value was understood as; none where it cannot be read.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is wrong or worth knowing, all at once.")]


class NewTicketAnswer(Told, frozen=True, kw_only=True):
    """A ticket from words."""

    document: Annotated[dict[str, Any], says("What was understood, as the tables of a ticket file.")]
    text: Annotated[str, says("The same as a ticket file, with a comment that names what must be filled in.")]
    findings: Annotated[
        tuple[FindingAnswer, ...],
        says("What was not understood (error), what is to be asked (warning), what is open (note)."),
    ]


class WordsAnswer(Told, frozen=True, kw_only=True):
    """What an order in words says: every word of it is in `said` or in `left`."""

    document: Annotated[
        dict[str, Any],
        says("The ticket as far as it is said, as the tables of a ticket file; the words under `asked`."),
    ]
    said: Annotated[tuple[Said, ...], says("Each stretch of words with its field, value and meaning.")]
    left: Annotated[tuple[Left, ...], says("Words that are not taken: what they may be, and how to write it.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is to be looked at.")]
