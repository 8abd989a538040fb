"""Commands about what a workshop says once: its settings, and a ticket file from words that counts on them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import Json, Shop, ShopFile, typist_of


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
    from clubwright.services.answer.answer import findings_part
    from clubwright.services.told.words import CheckedAnswer

    settings = load_shop(file)
    echoes = [f"{where}: {echo}" for where, echo in settings.understood]
    if json:
        found = findings_part(settings.findings)
        print_json(CheckedAnswer(schema=1, findings=found, taken=not settings.errors, understood=tuple(echoes)))
    else:
        print_lines([*finding_lines(settings.findings), *echoes])
        print_lines([] if settings.errors else [f"{settings.source} can be used."])
    return 2 if settings.errors else 0


def new(
    words: Annotated[str, Parameter(help='As said, such as "54 mid bounce, 35 1/4 to the cap, D4".')],
    /,
    *,
    number: Annotated[
        str | None, Parameter(name="--id", help="Ticket number; the next free one of the record with --shop.")
    ] = None,
    shop_file: ShopFile = None,
    shop: Shop = "",
    json: Json = False,
) -> int:
    """Print a ticket file from words; what was not understood, and what is to be asked, is said beside it."""
    from clubwright.bootstrap import has_record, is_address, shop_settings
    from clubwright.cli.acting import session_at
    from clubwright.cli.output import print_aside, print_json, print_lines
    from clubwright.errors import Finding, InputError
    from clubwright.services.actions.orders.new_ticket import new_ticket
    from clubwright.services.actions.orders.renumbering import free_at

    if shop and not is_address(shop) and not Path(shop).is_dir():
        mend = "Name the folder of the workshop, or leave --shop out."
        raise InputError([Finding(where="--shop", what=f'there is no folder "{shop}"', mend=mend)])
    if number is None and shop and has_record(shop):
        with session_at(shop, None) as session:
            number = free_at(session)
    settings = shop_settings(shop, shop_file)
    made = new_ticket(words, number or "", settings, typist_of(settings))
    if json:
        print_json(made.answer())
    else:
        print_lines([made.text.rstrip("\n")])
        for item in made.findings:
            print_aside(f"{item.severity}: {item.sentence()}")
    return 2 if any(item.severity == "error" for item in made.findings) else 0
