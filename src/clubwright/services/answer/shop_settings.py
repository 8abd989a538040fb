"""A ticket as the shop's settings complete it, and what is to be said about that."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.journal.reducers.fold import Job
from clubwright.services.answer.adhesive_sheet import sheet_findings
from clubwright.services.answer.answer import findings_part
from clubwright.services.told.answer import Answer
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.shop import FROM_SHOP
from clubwright.ticket.read import read_ticket
from clubwright.ticket.shop.findings import said_text
from clubwright.ticket.shop.laying import LaidIn, from_shop, lay_settings, own_of
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings

Document = dict[str, Any]


def completed(document: Mapping[str, Any], settings: ShopSettings) -> Document:
    """Return a ticket's document with the shop's settings laid in where it is silent.

    Raises:
        InputError: while the settings have an error.
    """
    if settings.errors:
        raise InputError(settings.errors)
    return lay_settings(document, settings)


def read_completed(
    document: Mapping[str, Any], source: str, settings: ShopSettings = NO_SETTINGS
) -> tuple[Ticket | None, tuple[Finding, ...]]:
    """Read a ticket's document with the shop's settings laid in.

    Args:
        document: Tables of strings, as a ticket file holds them.
        source: Name of the ticket, for findings.
        settings: The shop's.

    Returns:
        The ticket, or None when the ticket or the settings have an error; and the findings about both, all at once.
    """
    ticket, findings = read_ticket(lay_settings(document, settings), source)
    told = (*settings.errors, *_unknown(document, settings, source), *sheet_findings(document, settings, source))
    return (None if settings.errors else ticket), (*told, *findings)


def _unknown(document: Mapping[str, Any], settings: ShopSettings, source: str) -> Iterator[Finding]:
    """Warn of an adhesive or a tape that is nothing but a name, and a name that the shop does not know."""
    adhesive, tapes = document.get("adhesive"), document.get("tape")
    named = [("adhesive", DocumentPlace("adhesive"), adhesive)]
    rows = tapes if isinstance(tapes, list) else ()
    named += [("tape", DocumentPlace("tape", row=place, many=True), row) for place, row in enumerate(rows)]
    for section, place, row in named:
        known = settings.table(section)
        said = row if isinstance(row, Mapping) else {}
        name = said.get("name")
        if not known or not isinstance(name, str) or name.strip() in known or set(said) - {"name", "layers"}:
            continue
        close = get_close_matches(name, list(known), n=1)
        yield Finding(
            where=place.at("name").within(source),
            what=f'no {section} of the shop\'s settings is called "{name}", and the ticket says nothing more of it',
            mend=(f"Did you mean {close[0]}?" if close else f"Known there: {', '.join(known)}.")
            + " Or write its figures.",
            severity="warning",
        )


def changed_since(job: Job, settings: ShopSettings) -> tuple[Finding, ...]:
    """Say where the shop's settings are not what they were when a job's ticket was taken; the job goes by what they were.

    A closed job is told nothing, since it was made; nor is one that was taken when the shop had no settings.
    """
    if job.finished is not None or FROM_SHOP not in job.document or not settings.source:
        return ()
    where = f"ticket {job.id}"
    if settings.errors:
        what = f"the shop's settings ({settings.source}) cannot be taken: this job goes by what they were"
        return (Finding(where=where, what=what, mend=settings.errors[0].sentence(), severity="warning"),)
    then = from_shop(job.document)
    today = from_shop(lay_settings(_as_named(job.document), settings))
    found = []
    for section, name, place in dict.fromkeys((item.section, item.name, item.place) for item in (*then, *today)):
        was, has = (_said_at(place, items) for items in (then, today))
        still = settings.table(section)
        still = still.get(name, {}) if name else still
        moved = [key for key in was if was[key] != has.get(key) and (key in has or key not in {"name", *still})]
        moved += [key for key in has if key not in was]
        if moved:
            found.append(_moved(place.within(where), {key: (was.get(key), has.get(key)) for key in moved}))
    return tuple(found)


def _as_named(document: Mapping[str, Any]) -> Document:
    """Return what is the ticket's own by now; an adhesive that has figures of its own by now is still the one it was."""
    own = own_of(document)
    if "adhesive" in own and "name" in document["adhesive"]:
        own["adhesive"] = {**own["adhesive"], "name": document["adhesive"]["name"]}
    return own


def with_changes(answer: Answer, job: Job, settings: ShopSettings) -> Answer:
    """Return the answer of a job with what has changed in the shop's settings since, first among its findings."""
    found = (*findings_part(changed_since(job, settings)), *answer.findings)
    return msgspec.structs.replace(answer, findings=found)


def _said_at(place: DocumentPlace, items: Iterable[LaidIn]) -> dict[str, Any]:
    return next((item.said for item in items if item.place == place), {})


def _moved(where: DocumentPlace, moved: Mapping[str, tuple[Any, Any]]) -> Finding:
    then, now = ({key: pair[at] or "not said" for key, pair in moved.items()} for at in (0, 1))
    return Finding(
        where=where,
        what=f"the shop's settings have changed since the ticket was taken: {said_text(then)} then, {said_text(now)} now",
        mend="This job goes by what they were; where the new figure holds for it too, write it in with `order`.",
        severity="note",
    )
