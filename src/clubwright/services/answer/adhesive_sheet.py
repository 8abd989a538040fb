"""What is to be said of an adhesive that was named otherwise: its figures are those of its own sheet, or none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.notation import parse
from clubwright.ticket.fields.fields import ADHESIVE, RELEASE
from clubwright.ticket.fields.shapes import shaped
from clubwright.ticket.shop.findings import said_text
from clubwright.ticket.shop.laying import PRODUCT, another_sheet, without_another_sheet
from clubwright.ticket.shop.settings import ShopSettings


def sheet_findings(document: Mapping[str, Any], settings: ShopSettings, source: str) -> Iterator[Finding]:
    """Warn of figures of another adhesive's sheet that were taken out, and of own ones that the named one's sheet denies.

    Args:
        document: The ticket as it was given, before the shop's settings are laid in.
        settings: The shop's.
        source: Name of the ticket, for findings.
    """
    left = without_another_sheet(document).get("adhesive")
    own = shaped("adhesive", left) if isinstance(left, Mapping) else {}
    name = str(own.get("name", "")).strip()
    sheet = settings.table("adhesive").get(name, {})
    other = another_sheet(document)
    if other is not None:
        called = f'the adhesive is "{name}" now' if name else "the adhesive has no name now"
        yield Finding(
            where=DocumentPlace("adhesive", source=source),
            what=f'{called}, and these figures are of "{other.name}", so they are left out: {said_text(other.said)}',
            mend="The shop's settings have the sheet of this one."
            if sheet
            else "Write the figures of its own data sheet, or describe it in the shop's settings.",
            severity="warning",
        )
    differ = [
        key for key in PRODUCT if key in own and key in sheet and _meaning(key, own[key]) != _meaning(key, sheet[key])
    ]
    if differ:
        ticket, shop = ({key: said[key] for key in differ} for said in (own, sheet))
        yield Finding(
            where=DocumentPlace("adhesive", source=source),
            what=f'the ticket says {said_text(ticket)}, and the shop\'s sheet of "{name}" says {said_text(shop)}',
            mend="Look at the data sheet of the product on the bench; what is of another product is taken out.",
            severity="warning",
        )


def _meaning(key: str, text: Any) -> Any:
    """Return what a figure of a sheet means, however it is written; what cannot be read stays as it is."""
    if isinstance(text, list):
        rows = [row if isinstance(row, Mapping) else {} for row in text]
        return sorted(repr([_value(field.kind, row.get(field.key)) for field in RELEASE.fields]) for row in rows)
    field = ADHESIVE.field(key)
    return text if field is None else _value(field.kind, text)


def _value(kind: str, text: Any) -> Any:
    try:
        return parse(kind, text).value if isinstance(text, str) and kind not in ("text", "choice") else text
    except InputError:
        return text
