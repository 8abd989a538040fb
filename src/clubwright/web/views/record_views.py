"""What the pages of records show: the club as built, readings, signatures, trail; and what making it again changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.journal.reducers.fold import Job
from clubwright.journal.times import to_the_minute
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.record.job_lines import JobLine, said
from clubwright.services.record.search import day_of
from clubwright.services.report.as_built import AsBuiltRow, as_built_rows
from clubwright.services.report.build_again import LOT_SPREAD, again_findings, recipe
from clubwright.services.report.done_work import DoneWork, done_work
from clubwright.services.report.reading_states import reading_states
from clubwright.state.gauge import ReadingEntry
from clubwright.state.ticket import Ticket
from clubwright.ticket.again import MEASURED_ANEW
from clubwright.ticket.duplicate import Difference, differences, field_label
from clubwright.ticket.field_names import read_field_name
from clubwright.web.ticket_form_fields import BY_NAME
from clubwright.web.views.signature_view import SignatureView, signatures_of

NOT_TYPED = ("hand", "bent_loft", "bent_lie", "cut_length")
"""Of what is measured anew, what the bench asks for itself: the hand is looked at, the rest comes with the work."""


class Result(msgspec.Struct, frozen=True, kw_only=True):
    """One job found."""

    id: str
    club: str
    player: str
    day: str
    closed: bool


class ReadingView(msgspec.Struct, frozen=True, kw_only=True):
    """One reading, and whether it counts."""

    quantity: str
    value: str
    stage: str
    with_what: str
    state: str
    counts: bool


class RecordView(msgspec.Struct, frozen=True, kw_only=True):
    """One record's page."""

    id: str
    club: str
    player: str
    hand: str
    closed: bool
    day: str
    rows: tuple[AsBuiltRow, ...]
    done: tuple[DoneWork, ...]
    recipe: str
    readings: tuple[ReadingView, ...]
    signatures: tuple[SignatureView, ...]
    trail: tuple[tuple[str, str, str, bool], ...]
    again_of: str
    made_again: tuple[str, ...]


class PartField(msgspec.Struct, frozen=True, kw_only=True):
    """A figure of the new parts: what the first club's was, and what was typed now."""

    name: str
    label: str
    was: str
    value: str
    findings: tuple[str, ...] = ()


class AgainView(msgspec.Struct, frozen=True, kw_only=True):
    """Making again: the new ticket beside the old one."""

    id: str
    club: str
    new_id: str
    parts: tuple[PartField, ...]
    changed: tuple[Difference, ...]
    missing: tuple[str, ...]
    expected: tuple[tuple[str, str, str, str], ...]
    warnings: tuple[str, ...]
    cut: tuple[str, str]


def results_of(jobs: Iterable[JobLine]) -> list[Result]:
    """Lay out jobs that were found."""
    return [
        Result(
            id=job.id,
            club=said(job, "label") or said(job, "kind"),
            player=said(job, "player"),
            day=day_of(job).isoformat(),
            closed=job.finished is not None,
        )
        for job in jobs
    ]


def record_view(job: Job, worked: JobAnswer, made_again: Iterable[str]) -> RecordView:
    """Lay out one record."""
    return RecordView(
        id=job.id,
        club=said(job, "label") or said(job, "kind"),
        player=said(job, "player"),
        hand=said(job, "hand"),
        closed=job.finished is not None,
        day=day_of(job).isoformat(),
        rows=as_built_rows(worked, job),
        done=done_work(job, worked),
        recipe=recipe(job, worked),
        readings=tuple(_readings(worked)),
        signatures=signatures_of(job),
        trail=tuple((to_the_minute(line.at), line.by, line.text, line.undone) for line in reversed(job.trail)),
        again_of=said(job, "again_of"),
        made_again=tuple(made_again),
    )


def _readings(worked: ClubAnswer) -> Iterator[ReadingView]:
    states = reading_states(worked)
    for entry in worked.club_state.ticket.readings:
        yield _reading(entry, states[entry.where].words, counts=states[entry.where].counts)


def _reading(entry: ReadingEntry, state: str, *, counts: bool) -> ReadingView:
    quantity = entry.quantity
    with_what = [f"with {', '.join(entry.weights)}"] if entry.weights else []
    with_what += [entry.instrument] if entry.instrument else []
    with_what += [f"in job {entry.job}"] if entry.job else []
    with_what += [f"mean of {entry.repeats}"] if entry.repeats != 1 else []
    return ReadingView(
        quantity=QUANTITIES[quantity].name if quantity in QUANTITIES else quantity,
        value=entry.entry.typed,
        stage=entry.stage,
        with_what=", ".join(with_what),
        state=state,
        counts=counts,
    )


def again_view(
    job: Job,
    worked: ClubAnswer,
    new: Mapping[str, Any],
    new_worked: ClubAnswer | None,
    typed: Mapping[str, str],
    findings: Mapping[str, tuple[str, ...]],
) -> AgainView:
    """Lay out a club to be made again.

    Args:
        job: The first club's job.
        worked: It, worked.
        new: Document of the new ticket with what was typed of its parts.
        new_worked: That document worked; None while it cannot be.
        typed: What was typed of the new parts, by field.
        findings: What is wrong with it, by field.
    """
    found = differences(ticket_file_of(job), new)
    asked = {"head.hand", *(name for name, _ in part_fields(worked.club_state.ticket))}
    return AgainView(
        id=job.id,
        club=said(job, "label") or said(job, "kind"),
        new_id=str(new["ticket"].get("id", "")),
        parts=tuple(_parts(job, worked, typed, findings)),
        changed=tuple(item for item in found if item.state != "to measure"),
        missing=tuple(item.label for item in found if item.state == "to measure" and item.field in asked),
        expected=() if new_worked is None else tuple(_expected(worked, new_worked)),
        warnings=tuple(item.sentence() for item in again_findings(job)),
        cut=(_cut_text(worked), "" if new_worked is None else _cut_text(new_worked)),
    )


def part_fields(ticket: Ticket) -> tuple[tuple[str, str], ...]:
    """Return the figures that making again asks for, with those of the first club: masses, and what is measured anew."""
    found = []
    for section in LOT_SPREAD:
        keys = ("mass", *MEASURED_ANEW.get(section, ()))
        said = {key: ticket.text(section, key) for key in keys if key not in NOT_TYPED}
        found += [(f"{section}.{key}", text) for key, text in said.items() if text or key == "raw_length"]
    return tuple(found)


def _parts(
    job: Job, worked: ClubAnswer, typed: Mapping[str, str], findings: Mapping[str, tuple[str, ...]]
) -> Iterator[PartField]:
    for name, was in part_fields(worked.club_state.ticket):
        section, key, _ = read_field_name(name)
        field = BY_NAME[section].field(key)
        assert field is not None, name  # MEASURED_ANEW names fields of the ticket file
        yield PartField(
            name=name,
            label=field_label(BY_NAME[section], field),
            was=job.head_was.get(key, was) if section == "head" else was,
            value=typed.get(name, ""),
            findings=findings.get(name, ()),
        )


def _expected(worked: ClubAnswer, new: ClubAnswer) -> Iterator[tuple[str, str, str, str]]:
    before = {row.key: row for row in as_built_rows(worked)}
    for row in as_built_rows(new):
        first = before.get(row.key)
        yield row.quantity, first.read or first.believed if first else "", row.ordered, row.believed


def _cut_text(worked: ClubAnswer) -> str:
    return "" if worked.cut is None else worked.cut.text
