"""How much one request may carry, and that it is text: anything else is refused before a page or the record sees it."""

from __future__ import annotations

import json
import math
from typing import Any

from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.requests import Request
from starlette.types import Message, Receive

from clubwright.errors import Finding, InputError
from clubwright.journal.texts import LONGEST_TEXT, is_text

BODY_BYTES = 256 * 1024
ADDRESS_CHARACTERS = 2000
FIELDS, FILES = 1000, 4
NAME_CHARACTERS, VALUE_CHARACTERS = 100, LONGEST_TEXT
DEEPEST = 12
"""Levels of a JSON body; a ticket document has four."""

FORM_TYPES = ("application/x-www-form-urlencoded", "multipart/form-data")


class TooLarge(Exception):
    """A body of more than `BODY_BYTES`."""


class LeftMeanwhile(Exception):
    """The other end hung up before the body was there."""


async def read_body(receive: Receive, announced: str | None) -> bytes:
    """Read a request's body, and stop as soon as it is too large.

    Raises:
        TooLarge: when it is, or says that it will be.
        LeftMeanwhile: when the other end hung up.
    """
    if announced is not None and (not announced.isdecimal() or len(announced) > 9 or int(announced) > BODY_BYTES):
        raise TooLarge
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise LeftMeanwhile
        part = message.get("body", b"")
        size += len(part)
        if size > BODY_BYTES:
            raise TooLarge
        parts.append(part)
        if not message.get("more_body", False):
            return b"".join(parts)


def replay(body: bytes, receive: Receive) -> Receive:
    """Hand a body that was read to whoever reads next; after it the connection is as it was."""
    waiting = [body]

    async def again() -> Message:
        if waiting:
            return {"type": "http.request", "body": waiting.pop(), "more_body": False}
        return await receive()

    return again


def address_findings(path: str, query: str) -> list[Finding]:
    """Say what is wrong with an address."""
    if len(path) + len(query) > ADDRESS_CHARACTERS:
        what = f"it is longer than {ADDRESS_CHARACTERS} characters"
        return [Finding(where="address", what=what, mend="Use the page's own links.")]
    if not is_text(path, lines=False) or not is_text(query, lines=True):
        return [Finding(where="address", what="it holds control characters", mend="Use the page's own links.")]
    return []


async def read_form(request: Request) -> FormData:
    """Read a form, and refuse one that is no text. Its texts stay; files of it are closed.

    Raises:
        InputError: with every finding about it.
    """
    try:
        form = await request.form(max_files=FILES, max_fields=FIELDS, max_part_size=BODY_BYTES)
    except (HTTPException, MultiPartException, ValueError, LookupError) as refused:
        what = str(getattr(refused, "detail", None) or getattr(refused, "message", "it cannot be read"))
        raise InputError([Finding(where="form", what=what, mend="Send it from the page.")]) from None
    findings = []
    for name, value in form.multi_items():
        findings += _field_findings(name, await _text_of(value))
    await form.close()
    if findings:
        raise InputError(findings)
    return form


async def _text_of(value: UploadFile | str) -> str | None:
    if isinstance(value, str):
        return value
    content = await value.read()
    try:
        # a byte order mark is how some editors begin a text file
        return (value.filename or "") + content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return None


def _field_findings(name: str, value: str | None) -> list[Finding]:
    if len(name) > NAME_CHARACTERS or not is_text(name, lines=False):
        return [Finding(where="form", what="a field's name is too long or no text", mend="Send it from the page.")]
    if value is None or not is_text(value, lines=True):
        return [Finding(where=name, what="it is not plain text", mend="Type it, or choose a text file in UTF-8.")]
    if len(value) > VALUE_CHARACTERS:
        what = f"it has {len(value)} characters, more than {VALUE_CHARACTERS}"
        return [Finding(where=name, what=what, mend="Leave out what does not belong there.")]
    return []


def check_json(body: bytes) -> None:
    """Refuse a JSON body that the rest of the program should not have to think about.

    Raises:
        InputError: for what is not JSON in UTF-8, a number that is not finite, control characters, or too many levels.
    """
    try:
        found = json.loads(body.decode("utf-8"), parse_constant=_no_constant)
    except (ValueError, RecursionError) as refused:
        mend = "Send one JSON object in UTF-8."
        what = "it is nested too deeply" if isinstance(refused, RecursionError) else f"it is no JSON ({refused})"
        raise InputError([Finding(where="body", what=_printable(what), mend=mend)]) from None
    waiting: list[tuple[Any, int]] = [(found, 1)]
    while waiting:
        value, level = waiting.pop()
        if level > DEEPEST:
            raise InputError([Finding(where="body", what=f"it has more than {DEEPEST} levels", mend="Send it flat.")])
        if isinstance(value, dict):
            waiting += [(item, level + 1) for pair in value.items() for item in pair]
        elif isinstance(value, list):
            waiting += [(item, level + 1) for item in value]
        elif isinstance(value, float) and not math.isfinite(value):
            raise InputError([Finding(where="body", what="a number is not finite", mend="Send values as text.")])
        elif isinstance(value, str) and not is_text(value, lines=True):
            mend = "Send plain text."
            raise InputError([Finding(where="body", what="a text holds control characters", mend=mend)])


def whole_number(text: str) -> int | None:
    """Return a whole number of at most nine digits, as a form carries one; None for anything else.

    Not `isdigit`: that takes a superscript two, which `int` does not.
    """
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= 9 else None


def _no_constant(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _printable(text: str) -> str:
    return text.encode("ascii", "replace").decode()[:200]
