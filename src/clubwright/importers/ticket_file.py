"""Ticket files: TOML in, TOML out."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from clubwright.errors import Finding, InputError
from clubwright.importers.opening import opening
from clubwright.importers.toml_slips import slips_of

BYTE_ORDER_MARK = "\N{ZERO WIDTH NO-BREAK SPACE}"
"""How some editors begin a text file; it says nothing."""


def load_ticket(path: Path) -> dict[str, Any]:
    """Return the tables of a ticket file.

    Raises:
        InputError: when the file is not there, is not text, or is not TOML; says where.
    """
    with opening(path, name="Name the ticket file.", save="Save it as plain text (UTF-8)."):
        return parse_ticket(path.read_text(encoding="utf-8-sig"), path.name)


def parse_ticket(text: str, source: str = "ticket") -> dict[str, Any]:
    """Return the tables of a ticket given as TOML text.

    Raises:
        InputError: when it is not TOML; with every slip in it, where its slips are those of a pen.
    """
    try:
        return tomllib.loads(text.removeprefix(BYTE_ORDER_MARK))
    except tomllib.TOMLDecodeError as error:
        slips = slips_of(text.removeprefix(BYTE_ORDER_MARK), source)
        if slips:
            raise InputError(slips) from None
        mend = 'Write keys as name = "value", each in quotes, under a [table].'
        raise InputError([Finding(where=source, what=str(error), mend=mend)]) from None


def dump_ticket(document: dict[str, Any]) -> str:
    """Return a ticket document as TOML text."""
    import tomlkit

    return tomlkit.dumps(document)
