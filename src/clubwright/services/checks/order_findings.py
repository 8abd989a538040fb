"""What a changed order must say, and which way a figure of a ticket is changed: it is ordered, or it is measured."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from clubwright.errors import DocumentPlace, Finding
from clubwright.journal.job import Job
from clubwright.ticket.order_paths import ADHESIVE_NAME, ORDER_TABLES, place_of, said_at

ORDERED_WORDS = ("hand", "kind")
"""Words of [ticket] that say which club is ordered."""

WHO, WHY = "who said so", "why it is changed"
"""Where a changed order says who asked for it, and why."""

_HOW = "Write TABLE.KEY, such as target.swing_weight; of several alike their name too, such as weight.port 6.mass."

NOT_BY_ORDER: dict[str, tuple[str, str]] = {
    "ticket.id": ("is the number that the job goes by", "To give it another one, renumber it."),
    "ticket.job": (
        "is other work, with other steps and gates",
        "Take a ticket of its own for it; undo this one's facts.",
    ),
    "ticket.promised": ("is no part of the order", "Set it on the ticket's page, or with `clubwright measure`."),
    "ticket.priority": ("is no part of the order", "Set it on the ticket's page, or with `clubwright measure`."),
    "shaft.cut_length": (
        "is not ordered but cut",
        "Order another target.length, and record the cut: `clubwright cut`.",
    ),
}
"""What is changed in another way, and which."""


def order_findings(values: Mapping[str, str], *, said_by: str, reason: str) -> list[Finding]:
    """Return what is wrong with a changed order by itself, whatever the job.

    Args:
        values: Figures by their paths.
        said_by: Who said so.
        reason: Why.
    """
    found = [finding for path in values for finding in _path_findings(path)]
    if not values:
        found.append(Finding(where="order", what="nothing to change", mend='Give one, such as "target.lie=63 deg".'))
    return [*found, *said_findings(said_by, reason)]


def said_findings(said_by: str, reason: str) -> list[Finding]:
    """Ask who said so, and why."""
    found = []
    if not said_by.strip():
        mend = "Write the name of the player or the clubmaker who said so."
        found.append(Finding(where=WHO, what="nobody is named", mend=mend))
    if not reason.strip():
        found.append(Finding(where=WHY, what="nothing was typed", mend="Say why: the record keeps it."))
    return found


def _path_findings(path: str) -> Iterable[Finding]:
    place = place_of(path)
    if place is None:
        yield Finding(where=path[:80] or "order", what="is no figure of a ticket", mend=_HOW)
    elif path in NOT_BY_ORDER:
        what, mend = NOT_BY_ORDER[path]
        yield Finding(where=DocumentPlace(place.table, (place.key,)), what=what, mend=mend)
    elif place.table == "weight" and place.key == "fitted":
        yield Finding(
            where=DocumentPlace("weight", ("fitted",)), what="is not ordered but done", mend="Use `clubwright fit`."
        )
    elif place.table in ("reading", "change"):
        mend = "Read again, or decide whether the old one counts."
        yield Finding(where=DocumentPlace(place.table), what="a reading is not ordered", mend=mend)


def said_now(state: Job, path: str) -> str:
    """Return what the ticket of a job says of a figure, as it is typed; empty where it says nothing."""
    return said_at(state.document, path)


def ordered_not_measured(state: Job, section: str, values: Mapping[str, str]) -> list[Finding]:
    """Return a finding for each figure that is given as measured and is a matter of the order.

    Args:
        state: The job. A figure of an adhesive that its ticket does not say yet may be filled in from the sheet.
        section: Table of the ticket.
        values: Figures given.
    """
    if section in ORDER_TABLES:
        ordered = list(values)
    elif section == "adhesive":
        paths = {key: f"{section}.{key}" for key in values}
        ordered = [
            key
            for key, path in paths.items()
            if path == ADHESIVE_NAME or said_now(state, path) not in ("", values[key])
        ]
    else:
        ordered = [key for key in values if section == "ticket" and key in (*ORDERED_WORDS, "job")]
    return [
        Finding(
            where=DocumentPlace(section, (key,)),
            what="is a matter of the order, and not measured",
            mend=_way(state.id, section, key, values[key]),
        )
        for key in ordered
    ]


def _way(job: str, section: str, key: str, text: str) -> str:
    path = f"{section}.{key}"
    if path in NOT_BY_ORDER:
        return NOT_BY_ORDER[path][1]
    said = f'"{path}={text}"'
    return f"Change the order: `clubwright order {job} {said} --said-by NAME --reason WHY`, or on the bench page."
