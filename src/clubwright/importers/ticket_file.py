"""Ticket files: TOML in, TOML out."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from clubwright.errors import Finding, InputError
from clubwright.importers.opening import opening


def load_ticket(path: Path) -> dict[str, Any]:
    """Return the tables of a ticket file.

    Raises:
        InputError: when the file is not there, is not text, or is not TOML; says where.
    """
    with opening(path, name="Name the ticket file.", save="Save it as plain text (UTF-8)."):
        return parse_ticket(path.read_text(encoding="utf-8"), path.name)


def parse_ticket(text: str, source: str = "ticket") -> dict[str, Any]:
    """Return the tables of a ticket given as TOML text.

    Raises:
        InputError: when it is not TOML.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        mend = 'Write keys as name = "value", each in quotes, under a [table].'
        raise InputError([Finding(where=source, what=str(error), mend=mend)]) from None


def dump_ticket(document: dict[str, Any]) -> str:
    """Return a ticket document as TOML text."""
    import tomlkit

    return tomlkit.dumps(document)
