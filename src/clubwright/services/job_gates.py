"""Gates as the record knows them: what was done, trimmed or mixed can keep one closed that the ticket alone would open."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from clubwright.journal.fold import Job
from clubwright.notation import parse, render
from clubwright.planning.cut import Cut
from clubwright.planning.gates import Gate
from clubwright.services.cup import cup_findings
from clubwright.ticket.model import Ticket


def gates_with_record(
    gates: Iterable[Gate], job: Job, ticket: Ticket, cut: Cut | None, now: datetime
) -> tuple[Gate, ...]:
    """Add the record's reasons to the gates of a ticket; it never opens one."""
    more = {"cut": _trim_reasons(job, cut), "glue": [*_pull_reasons(job), *_cup_reasons(job, ticket, now)]}
    found = []
    for gate in gates:
        reasons = more.get(gate.step, [])
        said = [*([] if gate.open else [gate.why]), *reasons]
        found.append(Gate(step=gate.step, open=False, why="; ".join(said)) if reasons else gate)
    return tuple(found)


def _trim_reasons(job: Job, cut: Cut | None) -> list[str]:
    """A butt that was trimmed already has less to come off, or too little left."""
    trimmed_m = sum(parse("length", text, where="trim").value for text in job.butt_trims)
    if cut is None or cut.butt_cut_m is None or trimmed_m <= cut.butt_cut_m:
        return []
    short = render("length", trimmed_m - cut.butt_cut_m)
    return [
        f"{render('length', trimmed_m)} is off the butt already, which leaves the shaft {short} too short: pull another"
    ]


def _pull_reasons(job: Job) -> list[str]:
    if "pull" in job.steps_done:
        return []
    return ['nobody has pulled and checked the parts: look at the hand, then mark the step "pull" done']


def _cup_reasons(job: Job, ticket: Ticket, now: datetime) -> list[str]:
    return [f"{item.what}: {item.mend}" for item in cup_findings(job, ticket, now) if item.severity == "error"]
