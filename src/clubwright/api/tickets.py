"""Tickets from Python, with no record kept: worked to an answer, planned, read from words, written."""

from __future__ import annotations

from pathlib import Path

from clubwright.api.given import Ticket, ticket_given
from clubwright.errors import InputError
from clubwright.importers.shop_file import load_shop
from clubwright.services.actions.orders.new_ticket import new_ticket as written
from clubwright.services.answer.answer import empty_answer
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.services.answer.order_words import answer_words
from clubwright.services.jobs.job_answer import with_plan
from clubwright.services.report.plan_part import plan_part
from clubwright.services.told.answer import Answer
from clubwright.services.told.job import StepAnswer
from clubwright.services.told.words import NewTicketAnswer, WordsAnswer
from clubwright.ticket.shop.settings import ShopSettings


def work(ticket: Ticket, *, shop_file: Path | str | None = None) -> Answer:
    """Work one ticket to its answer: the same that `clubwright work TICKET.toml --json` prints.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text (a string with a line
            break is taken as text, any other as a path).
        shop_file: The shop's settings, a TOML file that says once what the ticket then need not say; none is looked for.

    Returns:
        ``cut``, ``finished``, ``stages``, ``advice``, ``gates``, ``verdicts`` and ``findings``, SI inside and trade text
        beside it, with the number of its ``schema``, which `clubwright schema answer` prints. Read it by attribute
        (``answer.cut.text``) or by key as in JSON (``answer["cut"]["text"]``); ``answer.json()`` is its text. A ticket that
        cannot be taken is answered by its findings, all at once, and nothing else.
    """
    try:
        settings = load_shop(None if shop_file is None else Path(shop_file))
        return answer_document(*ticket_given(ticket), settings=settings)
    except InputError as refused:
        return empty_answer(refused.findings)


def plan(ticket: Ticket, *, shop_file: Path | str | None = None) -> tuple[StepAnswer, ...]:
    """Plan one ticket: the same that `clubwright plan TICKET.toml --json` prints.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
        shop_file: The shop's settings.

    Returns:
        Every step in order, with its figures, what a gauge should show, its cautions, and the gate it waits for.

    Raises:
        InputError: with every finding, when the ticket or the settings cannot be taken.
    """
    settings = load_shop(None if shop_file is None else Path(shop_file))
    document, source = ticket_given(ticket)
    return plan_part(with_plan(work_document(document, source, settings=settings)).steps)


def words(text: str) -> WordsAnswer:
    """Read an order in words: the same that `clubwright words "TEXT" --json` prints.

    Args:
        text: As said, such as ``54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps``.

    Returns:
        ``document`` (the ticket as far as it is said), ``said`` (each stretch of words with its meaning), ``left`` (words
        that are not taken) and ``findings``.
    """
    return answer_words(text)


def new_ticket(words: str, *, number: str = "", shop_file: Path | str | None = None) -> NewTicketAnswer:
    """Write a ticket from words: the same that `clubwright new WORDS --json` prints.

    Args:
        words: As said at the counter, such as ``54 mid bounce, 35 1/4 to the cap, D4``; up to 500 characters.
        number: Ticket number; left to be filled in when empty.
        shop_file: The shop's settings; what is usual in them is named on the ticket.

    Returns:
        ``document`` (tables of strings), ``text`` (a ticket file whose last line names what must be filled in) and
        ``findings``: an error for words that were not understood, a warning for what is to be asked.
    """
    try:
        settings = load_shop(None if shop_file is None else Path(shop_file))
    except InputError as refused:
        settings = ShopSettings(source=str(shop_file), findings=refused.findings)
    return written(words, number, settings).answer()
