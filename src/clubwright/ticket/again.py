"""Write the ticket of another club like one that was built: what must be measured on its own parts is left out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.part_paths import OLD_TABLES

Document = dict[str, Any]

OTHER_PIECE = ("lot", "piece")
"""Which part it was, of parts of one family: another club has another piece, and nobody has said yet of which lot."""

MEASURED_BY = "gauges"
"""Which gauge measured which figure: none has measured a part of another club, whatever such parts are believed to be."""

OF_THE_BORE = ("bore_diameter", "bore_reamed", "hosel")
MEASURED_ANEW = {
    "head": ("loft", "lie", "bounce", "bore_to_ground", "bore_depth", "hand", "bent_loft", "bent_lie", *OF_THE_BORE),
    "shaft": ("cut_length", "balance_from_tip", "raw_length", "tip_trimmed", "tip_diameter"),
    "grip": ("cap",),
}
OF_THE_FIRST_SHAFT = ("weighed", "cut_mass", "cut_balance_from_tip", "cut_mass_length", "cut_balance_length")
"""What was said of the first shaft, besides what is measured anew."""


def another_like(
    first: Mapping[str, Any],
    order: Mapping[str, str],
    targets: Mapping[str, str] | None,
    *,
    masses: Mapping[str, str],
    shaft: Mapping[str, str],
) -> Document:
    """Return the document of a new ticket.

    Args:
        first: Document of the club that was built.
        order: Words of the new order that are its own.
        targets: What the first club came to; None for the targets that were ordered, and what they were counted from.
        masses: What a part of each kind is believed to weigh, by its table.
        shaft: What a shaft like the first is believed to be; an empty text leaves a key out.
    """
    left_out = ["reading", "change", "shim", *OLD_TABLES] + ([] if targets is None else ["base"])
    made: Document = {name: _copied(name, content) for name, content in first.items() if name not in left_out}
    made["ticket"] = {**made["ticket"], **order}
    if targets is not None:
        made["target"] = {**first.get("target", {}), **targets}
    for name, text in masses.items():
        if "mass" in made.get(name, {}):
            made[name]["mass"] = text
    carried = {**made.get("shaft", {}), **shaft}
    if carried:
        made["shaft"] = {key: text for key, text in carried.items() if text}
    return made


def with_typed(document: Mapping[str, Any], typed: Mapping[str, str]) -> Document:
    """Return a document with single fields as they were typed, by name such as ``head.mass``; empty leaves one out."""
    laid: Document = dict(document)
    for name, text in typed.items():
        section, key, _ = read_field_name(name)
        said = {known: value for known, value in laid.get(section, {}).items() if known != key}
        laid[section] = {**said, key: text} if text else said
    return laid


def _copied(name: str, content: Any) -> Any:
    if isinstance(content, list):
        return [_without(row, ("fitted", MEASURED_BY)) if isinstance(row, Mapping) else row for row in content]
    of_the_shaft = OF_THE_FIRST_SHAFT if name == "shaft" else ()
    return _without(content, (MEASURED_BY, *OTHER_PIECE, *MEASURED_ANEW.get(name, ()), *of_the_shaft))


def _without(content: Mapping[str, Any], keys: tuple[str, ...]) -> Document:
    return {key: value for key, value in content.items() if key not in keys}
