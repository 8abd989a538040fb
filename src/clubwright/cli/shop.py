"""Commands about what a workshop says once: its settings."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import Json


def shop(
    file: Annotated[Path, Parameter(help="The shop's settings (TOML), such as workshop/shop.toml.")],
    /,
    *,
    json: Json = False,
) -> int:
    """Check the shop's settings: every finding at once, and what each value was understood as."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import finding_lines
    from clubwright.importers.shop_file import load_shop
    from clubwright.services.answer import findings_part

    settings = load_shop(file)
    echoes = [f"{where}: {echo}" for where, echo in settings.understood]
    if json:
        print_json({"findings": findings_part(settings.findings), "taken": not settings.errors, "understood": echoes})
    else:
        print_lines([*finding_lines(settings.findings), *echoes])
        print_lines([] if settings.errors else [f"{settings.source} can be used."])
    return 2 if settings.errors else 0
