"""The shop's settings from their file: TOML in."""

from __future__ import annotations

from pathlib import Path

from clubwright.errors import InputError
from clubwright.importers.ticket_file import load_ticket
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings, read_shop

NAME = "shop.toml"
"""The file's name in the folder of a workshop."""


def load_shop(path: Path | None) -> ShopSettings:
    """Read the settings of a workshop; none where no file is named.

    What is wrong inside the file is among the settings' own findings, so that it is said together with what is wrong with
    the ticket.

    Raises:
        InputError: when the file is not there, or is not text.
    """
    if path is None:
        return NO_SETTINGS
    if not path.is_file():
        load_ticket(path)  # says what is wrong with it
    try:
        document = load_ticket(path)
    except InputError as refused:
        return ShopSettings(source=path.name, findings=refused.findings)
    return read_shop(document, path.name)


def settings_in(folder: Path) -> ShopSettings:
    """Read the settings in the folder of a workshop; none where there is no such file. Never raises for what is in it."""
    path = folder / NAME
    return load_shop(path) if path.is_file() else NO_SETTINGS
