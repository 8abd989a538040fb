"""Changing an order, or what a part in hand is said to be, while the job is open: with who said so, and why."""

from __future__ import annotations

from collections.abc import Mapping

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import Fact, OrderChanged, What
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.order_changes import part_changes
from clubwright.services.actions.orders.changing import wrong_figures
from clubwright.services.checks.order_findings import said_now
from clubwright.services.checks.payloads import payload_findings
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open
from clubwright.services.recording.trying import findings_on
from clubwright.ticket.fields.fields import ADHESIVE
from clubwright.ticket.order_paths import ADHESIVE_NAME, is_of_table, place_of, sheet_figures
from clubwright.ticket.shop.settings import ShopSettings


def change_order(
    session: Session, job: str, values: Mapping[str, str], *, said_by: str, reason: str, key: str | None = None
) -> Fact:
    """Record that the order of an open job is another one now: targets, tolerances, the adhesive, what parts are said to be.

    With another name of the adhesive no figure of the old one's sheet is kept: the new one's come from the shop's settings
    where they have it, and from `values` before that.

    Args:
        session: Who writes it down, and where.
        job: Ticket number.
        values: Figures by their paths, such as ``target.swing_weight``; an empty text takes a figure out.
        said_by: Who said so: the player or the clubmaker.
        reason: Why, in that person's words.
        key: Idempotency key.

    Raises:
        InputError: without a name or a reason, for what is no matter of an order, and for what the ticket's reader refuses;
            with every finding.
        RecordError: when the job is closed, or the adhesive of a closed joint is named otherwise.
    """
    given = {path.strip(): text.strip() for path, text in values.items()}
    said_by, reason = said_by.strip(), reason.strip()

    def make(state: Job | None) -> What:
        session.require("sign off")  # before it is told what is missing
        standing = require_open(state, job)
        what = _changed(standing, given, session.settings(), said_by=said_by, reason=reason)
        findings = payload_findings(what)
        if all(place_of(path) is not None for path in given):
            findings += [finding for part in part_changes(what) for finding in wrong_figures(standing, part)]
            findings += findings_on(session, job, [what]) if findings else ()
        if given and not what.values:
            mend = "Give a figure that is another one than on the ticket."
            findings = [item for item in findings if item.where != "order"]
            findings.append(Finding(where="order", what="the ticket says so already", mend=mend))
        if findings:
            raise InputError(tuple(dict.fromkeys(findings)))
        return what

    def same(what: What) -> bool:
        return (
            isinstance(what, OrderChanged)
            and (what.said_by, what.reason) == (said_by, reason)
            and {path: text for path, text in what.values.items() if path in given}.items() <= given.items()
        )

    return keep(session, job, make, typed=_text, same=same, key=key)


def _changed(
    state: Job, given: Mapping[str, str], settings: ShopSettings, *, said_by: str, reason: str
) -> OrderChanged:
    """Leave out what the ticket says already; of another adhesive everything is new, and the shop may have its sheet."""
    name, values = given.get(ADHESIVE_NAME), dict(given)
    another = name is not None and name != said_now(state, ADHESIVE_NAME)
    if another and name is not None and not settings.errors:
        values = {**sheet_figures(settings.table("adhesive").get(name, {})), **values}
    kept = {
        path: text
        for path, text in values.items()
        if text != said_now(state, path) or (another and is_of_table(path, ADHESIVE.name) and text)
    }
    was = {path: said_now(state, path) for path in kept}
    return OrderChanged(job=state.id, values=kept, was=was, said_by=said_by, reason=reason)


def _text(what: What) -> str:
    assert isinstance(what, OrderChanged)  # what change_order makes
    said = [
        f"{path} {text or 'taken out'}" + (f" (was {what.was[path]})" if what.was.get(path) else "")
        for path, text in what.values.items()
    ]
    return f"order changed: {', '.join(said)}; said by {what.said_by}: {what.reason}"
