"""The order of an open job as a form: every figure that it may change, with what is said of it now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from clubwright.journal.job import Job
from clubwright.services.checks.order_findings import said_now
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import ADHESIVE, BASE, SHAFT, SHOP, TARGET, TOLERANCE, WEIGHT, Field
from clubwright.ticket.order_paths import ADHESIVE_NAME, RELEASE, is_of_the_sheet
from clubwright.words import spoken

OF_A_WEIGHT = ("mass", "count")


class OrderField(msgspec.Struct, frozen=True, kw_only=True):
    """One figure.

    Attributes:
        path: Where it stands in a ticket.
        label: Its words.
        was: What the ticket says now, as the form was made.
        value: What stands in the field.
        meaning: What it is.
        choices: The words allowed, where there are some.
    """

    path: str
    label: str
    was: str
    value: str
    meaning: str
    choices: tuple[str, ...] = ()


class OrderGroup(msgspec.Struct, frozen=True, kw_only=True):
    """Figures that belong together."""

    title: str
    fields: tuple[OrderField, ...]
    open: bool = False


def order_groups(
    job: Job, ticket: Ticket, sent: Mapping[str, str], *, new_sheet: bool = False
) -> tuple[OrderGroup, ...]:
    """Return the form.

    Args:
        job: The job.
        ticket: Its ticket.
        sent: What was typed into the form before, by path; what is not in it stands as the ticket says it.
        new_sheet: Whether another adhesive is named: nothing of the old one's sheet is shown.
    """

    def field(path: str, label: str, of: Field) -> OrderField:
        gone = new_sheet and is_of_the_sheet(path)
        was = "" if gone else said_now(job, path)
        value = "" if gone and path not in sent else sent.get(path, was)
        return OrderField(path=path, label=label, was=was, value=value, meaning=of.meaning, choices=of.choices)

    def table(name: str, fields: Iterable[Field]) -> tuple[OrderField, ...]:
        return tuple(field(f"{name}.{item.key}", spoken("key", item.key), item) for item in fields)

    release = Field(
        key="release",
        kind="text",
        meaning='rows of its table of cure times, as "25 C: 12 h; 20 C: 15 h"',
        example="",
    )
    name, *sheet = ADHESIVE.fields
    names = [str(weight.name) for weight in ticket.club.weights if weight.name]
    adhesive = OrderGroup(
        title="Adhesive, from its own data sheet",
        fields=(
            field(ADHESIVE_NAME, "name", name),
            *table("adhesive", sheet),
            field(RELEASE, "cure times", release),
        ),
        open=new_sheet,
    )
    ordered = (
        OrderGroup(title="What is ordered", fields=table("target", TARGET.fields), open=not new_sheet),
        OrderGroup(title="Tolerances", fields=table("tolerance", TOLERANCE.fields)),
    )
    groups = (
        *((adhesive, *ordered) if new_sheet else (*ordered, adhesive)),
        OrderGroup(
            title="Weights in the tray",
            fields=tuple(
                field(f"weight.{each}.{key}", f"{each}, {spoken('key', key)}", item)
                for each in names
                for key in OF_A_WEIGHT
                if (item := WEIGHT.field(key)) is not None
            ),
        ),
        OrderGroup(title="Raw shaft", fields=table("shaft", [f for f in SHAFT.fields if f.key == "raw_length"])),
        OrderGroup(title="What a relative order is counted from", fields=table("base", BASE.fields)),
        OrderGroup(title="The workshop's rules for this job", fields=table("shop", SHOP.fields)),
    )
    return tuple(
        msgspec.structs.replace(group, open=group.open or any(item.value != item.was for item in group.fields))
        for group in groups
        if group.fields
    )
