"""Make a club again from its record: a new ticket whose targets are what the first club, once finished, came to.

What was decided (weights, layers, lengths, bends) is kept as a recipe in the ticket's note. Figures of the parts are kept as
what such parts are believed to be, with the spread of a lot; what must be measured on the new parts (bore, cap, angles) is
left out, so that the gates stay closed until it is.
"""

from __future__ import annotations

from typing import Any

from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.errors import Finding
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.journal.reducers.fold import Job
from clubwright.notation import render, shown_in
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.report.done_work import done_work
from clubwright.services.report.shaft_again import lot_text, shaft_again
from clubwright.ticket.again import another_like

LOT_SPREAD = {"head": "2 g", "shaft": "1.5 g", "grip": "1.5 g", "ferrule": "0.1 g"}
"""Spread of a part's mass within a lot (trade figures for heads and shafts; grips and ferrules an estimate of ours)."""


def make_again(job: Job, worked: ClubAnswer, new_id: str) -> dict[str, Any]:
    """Return the document of a new ticket that makes this job's club again.

    Of a club that is not finished the targets are those that were ordered (`again_findings` says so): what is believed of it
    halfway is nothing that anybody asked for. Its texts are canonical, whatever is shown first while a page is laid out.
    """
    with shown_in(None):
        return _made_again(job, worked, new_id)


def _made_again(job: Job, worked: ClubAnswer, new_id: str) -> dict[str, Any]:
    club_state = worked.club_state
    order = {"id": new_id, "job": "build", "again_of": job.id, "note": recipe(job, worked)}
    known = (name for name in LOT_SPREAD if club_state.ticket.text(name, "mass"))
    return another_like(
        ticket_file_of(job),
        order,
        as_built(worked) if job.finished is not None else None,
        masses={name: lot_text(club_state, f"{name}.mass_kg", LOT_SPREAD[name]) for name in known},
        shaft=shaft_again(club_state, LOT_SPREAD["shaft"]),
    )


def again_findings(job: Job) -> tuple[Finding, ...]:
    """Say that the targets of the new ticket are the order's, where the first club is not finished."""
    if job.finished is not None:
        return ()
    what = f"{job.id} is not finished: the targets are those that were ordered, not what the club came to"
    mend = "Finish it first where the new club shall read what this one reads, or keep to the order."
    return (Finding(where="target", what=what, mend=mend, severity="warning"),)


def as_built(worked: ClubAnswer) -> dict[str, str]:
    """Return what is believed of the finished club, all its readings counted, target by target in trade notation."""
    club_state = worked.club_state
    found = {}
    wanted = {goal.key for goal in club_state.goals}
    for key in TARGETS:
        if key in wanted and club_state.can_predict(key):
            found[key] = render(QUANTITIES[key].shown_kind, float(club_state.predict([key]).mean[0, 0]))
    return found


def recipe(job: Job, worked: ClubAnswer) -> str:
    """Say in one line what was done to the first club, so that it read what it read; nothing that nobody recorded."""
    parts: dict[str, list[str]] = {}
    for item in done_work(job, worked):
        if item.part in _IN_RECIPE:
            parts.setdefault(item.part, []).append(item.text)
    return "; ".join([f"as {job.id}", *(f"{part} {', '.join(parts[part])}" for part in _IN_RECIPE if part in parts)])


_IN_RECIPE = ("weights", "tape", "shaft")
"""What is done to another club in the same way: its angles, its joint and its grip are its own work."""
