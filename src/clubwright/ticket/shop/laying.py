"""Lay a shop's settings into a ticket: only where the ticket does not say a thing itself, and written down beside it.

What is laid in stands in the document like any figure of the ticket, so that nothing that works on tickets has to know of
the shop, and a ticket that was taken keeps what the shop said on that day. Beside it the table ``[from_shop]`` has the same
figures once more, in the same tables: what of the document is still equal to it came from the shop, what differs is the
ticket's own by now.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace
from clubwright.ticket.fields.fields import CUT_JOBS, GRIP_JOBS
from clubwright.ticket.fields.shapes import shaped
from clubwright.ticket.fields.shop import FROM_SHOP, SINGLE, USUAL
from clubwright.ticket.shop.settings import ShopSettings

Document = dict[str, Any]

_RATIO = ("ratio", "basis")
_TAPE_MASS = ("mass", "layer_mass", "area_density")
"""Figures that mean nothing apart, or stand for one another: where the ticket has one of them, the shop's are left out."""

WHOLE = "whole"
"""Marks, in ``[from_shop]``, a row of a list that is the shop's from its name on."""

PRODUCT = (*_RATIO, "density_a", "density_b", "pot_life", "bond_line_min", "bond_line_max", "release")
"""What is of one product: a ticket with any of it and without a name has an adhesive of its own."""

SHEET = "sheet"
"""Says, in ``[from_shop]``, of which adhesive the sheet is that was laid in."""


class LaidIn(msgspec.Struct, frozen=True, kw_only=True):
    """What of one table of a ticket came from the shop and still stands.

    Attributes:
        section: Name of the table.
        name: Of what goes by name in the shop's settings; else empty.
        place: Heading in the ticket.
        said: Keys and texts.
    """

    section: str
    name: str
    place: DocumentPlace
    said: dict[str, Any]


def lay_settings(document: Mapping[str, Any], settings: ShopSettings) -> Document:
    """Return the document with what the shop says laid in where the ticket is silent; what does not fit is left as it is.

    Args:
        document: Tables of strings, as a ticket file holds them.
        settings: As read from the shop's file; only what could be taken is in them.

    What was laid in for an adhesive of another name than the ticket's is taken out first, whatever the shop says today.
    """
    laid = without_another_sheet(document)
    noted: Document = {}
    for section in SINGLE:
        _lay_table(laid, noted, section.name, settings.table(section.name))
    _lay_gauges(laid, noted, settings)
    _lay_adhesive(laid, noted, settings)
    _lay_tapes(laid, noted, settings)
    if noted:
        before = laid.get(FROM_SHOP)
        laid[FROM_SHOP] = _joined(before if isinstance(before, Mapping) else {}, noted)
    return laid


def own_of(document: Mapping[str, Any]) -> Document:
    """Return the document as its own ticket said it: without what was laid in and is still as the shop said it."""
    noted = document.get(FROM_SHOP)
    own: Document = {name: content for name, content in document.items() if name != FROM_SHOP}
    for name, said in noted.items() if isinstance(noted, Mapping) else ():
        content = own.get(name)
        if isinstance(content, Mapping) and isinstance(said, Mapping):
            own[name] = _without(content, said)
        elif isinstance(content, list) and isinstance(said, list):
            own[name] = [left for row in content if (left := _own_row(row, _row_of(said, row)))]
        if not own.get(name):
            own.pop(name, None)
    return own


def another_sheet(document: Mapping[str, Any]) -> LaidIn | None:
    """Return what still stands of the sheet of another adhesive than the one that the ticket names by now; else None."""
    noted, content = document.get(FROM_SHOP), document.get("adhesive")
    said = noted.get("adhesive") if isinstance(noted, Mapping) else None
    if not isinstance(said, Mapping) or not isinstance(content, Mapping):
        return None
    sheet, name = said.get(SHEET, said.get("name")), content.get("name")
    if not isinstance(sheet, str) or (isinstance(name, str) and name.strip() == sheet.strip()):
        return None
    found = _laid_in("adhesive", sheet, DocumentPlace("adhesive"), content, said)
    return found if found.said else None


def without_another_sheet(document: Mapping[str, Any]) -> Document:
    """Return the document without what the shop said of another adhesive than the one that the ticket names by now."""
    other = another_sheet(document)
    if other is None:
        return dict(document)
    noted = {name: said for name, said in document[FROM_SHOP].items() if name != "adhesive"}
    found = {**document, "adhesive": _without(document["adhesive"], other.said), FROM_SHOP: noted}
    return {name: content for name, content in found.items() if content or name not in ("adhesive", FROM_SHOP)}


def from_shop(document: Mapping[str, Any]) -> tuple[LaidIn, ...]:
    """Return what of a document came from the shop and still stands, table by table."""
    noted = document.get(FROM_SHOP)
    found: list[LaidIn] = []
    for section, said in noted.items() if isinstance(noted, Mapping) else ():
        content = document.get(section)
        if section == "instrument" and isinstance(content, Mapping) and isinstance(said, Mapping):
            found += [
                _laid_in(section, name, DocumentPlace(f"instrument.{name}"), content.get(name), said[name])
                for name in said
            ]
        elif isinstance(content, Mapping):
            name = str(content.get("name", "")) if section == "adhesive" else ""
            found.append(_laid_in(section, name, DocumentPlace(section), content, said))
        elif isinstance(content, list):
            for place, row in enumerate(content):
                if isinstance(row, Mapping):
                    name, laid = str(row.get("name", "")), _row_of(said, row)
                    figures = laid if WHOLE in laid else _without(laid, {"name": name})
                    found.append(_laid_in(section, name, DocumentPlace(section, row=place, many=True), row, figures))
    return tuple(item for item in found if item.said)


def _laid_in(section: str, name: str, place: DocumentPlace, content: Any, said: Any) -> LaidIn:
    stands = isinstance(content, Mapping) and isinstance(said, Mapping)
    kept = {key: text for key, text in said.items() if content.get(key) == text} if stands else {}
    return LaidIn(section=section, name=name, place=place, said=kept)


def _lay_table(laid: Document, noted: Document, name: str, said: Mapping[str, Any]) -> None:
    own = laid.get(name, {})
    if not isinstance(own, Mapping):
        return  # the reader of the ticket refuses it
    new = {key: text for key, text in said.items() if key not in own}
    if new:
        laid[name] = {**own, **new}
        noted[name] = new


def _lay_gauges(laid: Document, noted: Document, settings: ShopSettings) -> None:
    """A gauge that the ticket describes is the ticket's own, whole: two gauges of one name may be of two kinds."""
    _lay_table(laid, noted, "instrument", settings.table("instrument"))


def _lay_adhesive(laid: Document, noted: Document, settings: ShopSettings) -> None:
    own = shaped("adhesive", laid.get("adhesive", {}))
    if not isinstance(own, Mapping):
        return
    sheets = settings.table("adhesive")
    name, said = own.get("name"), {}
    if name is None and _job_of(laid) in CUT_JOBS and not any(key in own for key in PRODUCT):
        name = settings.table(USUAL.name).get("adhesive")
        said = {} if name is None else {"name": name}
    sheet = sheets.get(name.strip(), {}) if isinstance(name, str) else {}
    together = _RATIO if any(key in own for key in _RATIO) else ()
    new = {key: text for key, text in (said | sheet).items() if key not in (*together, *own)}
    _lay_table(laid, noted, "adhesive", new)
    if new and isinstance(name, str):
        noted["adhesive"] = {**new, SHEET: name.strip()}


def _lay_tapes(laid: Document, noted: Document, settings: ShopSettings) -> None:
    tapes, usual = settings.table("tape"), settings.table(USUAL.name).get("tape")
    rows, whole = laid.get("tape"), {}
    if rows is None and usual is not None and _job_of(laid) in GRIP_JOBS:
        rows, whole = [{"name": usual}], {WHOLE: "yes"}
    if not isinstance(rows, list) or not all(isinstance(row, Mapping) for row in rows):
        return
    found, new = [], []
    for row in rows:
        name = row.get("name")
        said = tapes.get(name.strip(), {}) if isinstance(name, str) else {}
        together = _TAPE_MASS if any(key in row for key in _TAPE_MASS) else ()
        missing = {key: text for key, text in said.items() if key not in (*together, *row)}
        found.append({**row, **missing})
        new += [{"name": name, **whole, **missing}] if missing or whole else []
    if new:
        laid["tape"], noted["tape"] = found, new


def _job_of(document: Mapping[str, Any]) -> str:
    ticket = document.get("ticket")
    said = ticket.get("job", "build") if isinstance(ticket, Mapping) else "build"
    return said if isinstance(said, str) else ""


def _joined(before: Mapping[str, Any], new: Document) -> Document:
    """Join what was laid in on another day with what is laid in now; the two never have the same key."""
    found: Document = dict(before)
    for name, said in new.items():
        there = found.get(name)
        if isinstance(there, Mapping) and isinstance(said, Mapping):
            found[name] = {**there, **said}
        elif isinstance(there, list) and isinstance(said, list):
            found[name] = [{**_row_of(there, row), **row} for row in said]
            found[name] += [row for row in there if not _row_of(said, row)]
        else:
            found[name] = said
    return found


def _without(content: Mapping[str, Any], said: Mapping[str, Any]) -> dict[str, Any]:
    return {key: text for key, text in content.items() if key not in said or said[key] != text}


def _own_row(row: Any, said: Mapping[str, Any]) -> Any:
    """Return a row without what was laid in; it keeps its name, unless the whole of it is the shop's usual one."""
    left = _without(row, said) if isinstance(row, Mapping) else row
    if not said or (WHOLE in said and not left):
        return left
    return {"name": row["name"], **left}


def _row_of(said: Any, row: Any) -> Mapping[str, Any]:
    """Return what was laid into the row of that name."""
    for item in said if isinstance(said, list) and isinstance(row, Mapping) else ():
        if isinstance(item, Mapping) and item.get("name") == row.get("name"):
            return item
    return {}
