"""A ticket file as the shop's settings complete it, for the commands that work on ticket files."""

from __future__ import annotations

from pathlib import Path
from typing import Any


def completed_ticket(path: Path, shop_file: Path | None) -> dict[str, Any]:
    """Return a ticket's document with what the shop's settings say where it is silent.

    Raises:
        InputError: when one of the files cannot be opened, or the settings cannot be taken; then with every finding.
    """
    from clubwright.errors import InputError
    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services.answer.shop_settings import completed, read_completed

    document, settings = load_ticket(path), load_shop(shop_file)
    if settings.errors:
        raise InputError(read_completed(document, path.name, settings)[1])
    return completed(document, settings)
