"""What a form of the page sent: its fields as lists of texts, and how one of them is taken out."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import Request
from fastapi.concurrency import run_in_threadpool

from clubwright.errors import Finding, InputError
from clubwright.journal.names import AT
from clubwright.web.sessions import session_of
from clubwright.web.typed import canonical_form

Sent = Mapping[str, list[str]]


class WrongPartError(InputError):
    """The part in the hand is not the ticket's: everything stops until it is put back."""


async def sent_of(request: Request) -> Sent:
    """Return what the form of a request sent, its numbers as canonical text, however they are typed here."""
    form, session = await request.form(), session_of(request)
    sent = {name: [str(value) for value in form.getlist(name)] for name in form}
    return canonical_form(sent, await run_in_threadpool(session.typist))


def one(sent: Sent, name: str) -> str:
    """Return one field, stripped; empty when it was not sent."""
    return sent.get(name, [""])[0].strip()


def lines(sent: Sent, name: str) -> list[str]:
    """Return the lines of one field of several, stripped, without empty ones."""
    return [line.strip() for line in one(sent, name).splitlines() if line.strip()]


def marks(sent: Sent, name: str) -> dict[str, str]:
    """Return what one field carries of several things, each with its mark behind a colon."""
    return dict(mark.partition(":")[::2] for mark in one(sent, name).split())


def going_on(sent: Sent, start: str) -> list[str]:
    """Return how the fields go on whose names start like that."""
    return [name.removeprefix(start) for name in sent if name.startswith(start)]


def line_of_trail(text: str) -> tuple[str, str | None]:
    """Return the number of a line of the trail, and the bench that wrote it where the button says so."""
    number, at, site = text.partition(AT)
    return number, site if at else None


def needed(sent: Sent, name: str, label: str) -> str:
    """Return one field that must not be empty.

    Raises:
        InputError: when it is.
    """
    value = one(sent, name)
    if not value:
        raise InputError([Finding(where=label, what="nothing was typed", mend="Type it, with its unit.")])
    return value
