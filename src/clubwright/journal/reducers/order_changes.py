"""What a changed order changes on a job, and a head that is pulled again (`clubwright.journal.reducers.apply` has the rest).

A table of a part is laid as if the part had been put right; what is of the order alone is put in as it is said. Another
adhesive takes every figure of the old one's data sheet away, and a cup of it: no joint is closed by another product's sheet.
"""

# ruff: noqa: ARG001 - each kind of fact is laid on by the same call, whether it needs all of it or not

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, HeadPulled, OrderChanged, PartChanged
from clubwright.journal.reducers.builder import LISTS, JobBuilder
from clubwright.journal.reducers.changes import before_pull
from clubwright.journal.reducers.measured import figure_path, no_longer_read
from clubwright.journal.reducers.mix import apply
from clubwright.ticket.fields.fields import ADHESIVE
from clubwright.ticket.fields.shapes import shaped
from clubwright.ticket.fields.shop import FROM_SHOP
from clubwright.ticket.order_paths import ADHESIVE_NAME, OF_THE_CUP, RELEASE, is_of_table, place_of, release_rows

__all__ = ["apply", "part_changes"]


@apply.register
def _(what: OrderChanged, builder: JobBuilder, fact: Fact) -> None:
    builder.order_changes({place.table for path in what.values if (place := place_of(path)) is not None})
    if any(is_of_table(path, ADHESIVE.name) for path in what.values):
        builder.document["adhesive"] = shaped("adhesive", builder.table("adhesive"))
    name = what.values.get(ADHESIVE_NAME)
    if name is not None and name != builder.table("adhesive").get("name", ""):
        _another_adhesive(builder)
    if RELEASE in what.values:
        _sheet_rows(builder, what.values[RELEASE])
    for change in part_changes(what):
        apply(change, builder, fact)
        if change.section in LISTS:
            for key in change.values:
                no_longer_read(builder, figure_path(change.section, change.values, key))


@apply.register
def _(what: HeadPulled, builder: JobBuilder, fact: Fact) -> None:
    if builder.glued_at is None:
        raise RecordError(f"the joint of job {builder.id} is open: there is no head to pull")
    builder.club_changed()
    before_pull(builder)
    builder.mixes = []
    builder.glued_at = builder.glued_temperature = builder.glued = None
    builder.void(("glue", "release"), "the head was pulled again")


def part_changes(what: OrderChanged) -> Iterable[PartChanged]:
    """Return a changed order as changes of one table each; the table of release times, which is no text, is left out."""
    tables: dict[tuple[str, str], dict[str, str]] = {}
    for path, text in what.values.items():
        place = place_of(path)
        if place is None:
            raise RecordError(f'"{path}" is no figure of a ticket: write TABLE.KEY, such as target.swing_weight')
        if path != RELEASE:
            listed = {"name": place.entry} if place.entry and place.section == place.table else {}
            tables.setdefault((place.section, place.entry), listed)[place.key] = text
    return [
        PartChanged(job=what.job, subject=what.subject, section=section, values=values)
        for (section, _), values in tables.items()
    ]


def _another_adhesive(builder: JobBuilder) -> None:
    if builder.glued_at is not None:
        raise RecordError(
            f"the joint of job {builder.id} is closed, and its adhesive is what it is: only when the head was pulled again "
            f"is there another one in it"
        )
    old = builder.document.get("adhesive", {})
    builder.document["adhesive"] = {key: text for key, text in old.items() if key in OF_THE_CUP}
    noted: Any = builder.document.get(FROM_SHOP)
    if isinstance(noted, dict):
        builder.document[FROM_SHOP] = {key: content for key, content in noted.items() if key != "adhesive"}
    builder.mixes = []


def _sheet_rows(builder: JobBuilder, text: str) -> None:
    """Put in the data sheet's table of release times, in the shape in which a ticket has it."""
    table = builder.table("adhesive")
    table.pop("release", None)
    rows = release_rows(text)
    if rows:
        table["release"] = rows
