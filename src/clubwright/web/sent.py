"""What a form of the page sent: its fields as lists of texts, and how one of them is taken out."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import Request

from clubwright.errors import Finding, InputError

Sent = Mapping[str, list[str]]


class WrongPartError(InputError):
    """The part in the hand is not the ticket's: everything stops until it is put back."""


async def sent_of(request: Request) -> Sent:
    """Return what the form of a request sent."""
    form = await request.form()
    return {name: [str(value) for value in form.getlist(name)] for name in form}


def one(sent: Sent, name: str) -> str:
    """Return one field, stripped; empty when it was not sent."""
    return sent.get(name, [""])[0].strip()


def needed(sent: Sent, name: str, label: str) -> str:
    """Return one field that must not be empty.

    Raises:
        InputError: when it is.
    """
    value = one(sent, name)
    if not value:
        raise InputError([Finding(where=label, what="nothing was typed", mend="Type it, with its unit.")])
    return value
