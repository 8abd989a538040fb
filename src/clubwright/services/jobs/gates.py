"""Gates as the record knows them: what was done, trimmed or mixed can keep one closed that the ticket alone would open."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

import msgspec

from clubwright.errors import Finding
from clubwright.journal.reducers.fold import Job
from clubwright.notation import parse
from clubwright.planning.cut import Cut
from clubwright.planning.gates.types import Check, Gate, GateKey, met, unmet, unmet_by
from clubwright.planning.said.phrases import Listed, figure, phrase
from clubwright.services.jobs.mixed_batch import cup_findings, joint_findings
from clubwright.services.record.done_at import minute
from clubwright.state.ticket import Ticket
from clubwright.words.gate import told, told_clause


def gates_with_record(
    gates: Iterable[Gate], job: Job, ticket: Ticket, cut: Cut | None, now: datetime
) -> tuple[Gate, ...]:
    """Add the record's checks to the gates of a ticket; they never open one."""
    more: dict[GateKey, tuple[Check, ...]] = {
        "cut": (*_club_checks(job), *_trim_checks(job, cut)),
        "glue": (*_club_checks(job), *_pull_checks(job), *_mix_checks(job, ticket, now)),
        "release": (*_time_checks(job), *(unmet_by("mix", item) for item in joint_findings(job))),
    }
    return tuple(msgspec.structs.replace(gate, checks=(*gate.checks, *more.get(gate.step, ()))) for gate in gates)


def _time_checks(job: Job) -> tuple[Check, ...]:
    """A joint that was closed earlier than that was written: whoever signs the release answers for that time too."""
    if not job.closed_earlier or job.glued is None or job.glued_at is None:
        return ()
    written = phrase("figure.by whom", at=minute(job.glued.at), who=job.glued.by)
    return (met("time", (phrase("figure.closed at"), minute(job.glued_at)), (phrase("figure.written at"), written)),)


def club_findings(job: Job) -> tuple[Finding, ...]:
    """Say whether the club is in another open job, and whether this one began from the club as it was before other work."""
    found: list[Finding] = []
    if job.also_open:
        others = Listed(tuple(job.also_open), "and")
        found.append(told_clause("club", phrase("club.also open", jobs=others), phrase("club.close one")))
    if job.worked_since:
        what = phrase("club.worked since", job=job.worked_since)
        mend = phrase("club.begin now", job=job.id, other=job.worked_since)
        found.append(told("club", what, mend, "warning"))
    return tuple(found)


def _club_checks(job: Job) -> tuple[Check, ...]:
    """What cannot be undone waits while another job may do something else to the same club."""
    return tuple(unmet_by("club", finding) for finding in club_findings(job) if finding.severity == "error")


def _trim_checks(job: Job, cut: Cut | None) -> tuple[Check, ...]:
    """A butt that was trimmed already has less to come off, or too little left."""
    if not job.butt_trims or cut is None or cut.butt_cut_m is None:
        return ()
    trimmed_m = sum(parse("length", text, where="trim").value for text in job.butt_trims)
    off = figure("length", trimmed_m)
    if trimmed_m <= cut.butt_cut_m:
        return (met("butt trim", (phrase("figure.off already"), off)),)
    short = figure("length", trimmed_m - cut.butt_cut_m)
    what = phrase("gate.butt trimmed", off=off, short=short)
    return (unmet("butt trim", what, phrase("gate.pull another"), (phrase("figure.off already"), off)),)


def _pull_checks(job: Job) -> tuple[Check, ...]:
    if "pull" in job.steps_done:
        return (met("pull"),)
    mend = phrase("gate.pull parts")
    return (unmet("pull", phrase("gate.not pulled"), mend),)


def _mix_checks(job: Job, ticket: Ticket, now: datetime) -> tuple[Check, ...]:
    """What is mixed must keep the ratio and its time; that something is mixed at all is asked for when it is glued."""
    wrong = [item for item in cup_findings(job, ticket, now) if item.severity == "error"]
    if wrong:
        return tuple(unmet_by("mix", item) for item in wrong)
    if not job.mixes:
        return ()
    mix = job.mixes[-1]
    return (met("mix", ("", f"{mix.part_a} + {mix.part_b}")),)
