"""The fold: from the facts, in order, to the state of the shop. Same facts, same state, on any machine."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from clubwright.errors import Finding, InputError, RecordError
from clubwright.journal.chain import is_moment
from clubwright.journal.facts import (
    ClubCameBack,
    ClubSaid,
    Fact,
    Place,
    ReadingDecided,
    ReadingTaken,
    TicketTaken,
    Undone,
    kind_of,
)
from clubwright.journal.job import BrokenJob, Job, Shop, Signed, TrailLine
from clubwright.journal.reducers.builder import JobBuilder
from clubwright.journal.reducers.completion import complete
from clubwright.journal.reducers.order_changes import apply
from clubwright.journal.standing import reversed_by, target_of, void_places
from clubwright.journal.subjects import Subject, names_of, subjects_of
from clubwright.state.order import OrderWords

__all__ = ["Job", "Shop", "Signed", "TrailLine", "fold", "fold_each", "fold_job"]


def fold(facts: Iterable[Fact]) -> Shop:
    """Return the state that follows from facts.

    Args:
        facts: In order (`clubwright.journal.order.in_order`), each once; all of them, or all of some jobs.

    Raises:
        RecordError: for a fact that could not have happened: of a job without a ticket, out of its site's order, an
            undo of nothing. Nothing is passed over.
        InputError: when a value that has to be added up cannot be read.
    """
    listed = list(facts)
    last: dict[str, int] = {}
    for fact in listed:
        if fact.sequence <= last.get(fact.site, 0):
            raise RecordError(
                f"fact {fact.site}/{fact.sequence} comes after {fact.site}/{last[fact.site]}: verify the record"
            )
        last[fact.site] = fact.sequence
    subjects = subjects_of(listed)
    names = names_of(subjects)
    folded = [fold_job(subject, names[place]) for place, subject in subjects.items()]
    return Shop(jobs={job.id: job for job in folded if job is not None})


def fold_each(facts: Iterable[Fact], damaged: Mapping[str, Sequence[Finding]] | None = None) -> Shop:
    """Return the state that follows from facts, job by job: one that cannot be folded is told, and every other one goes on.

    Args:
        facts: In order; all of them, or all of some jobs.
        damaged: What is damaged of some jobs; their other facts are not taken for the whole.
    """
    return fold_subjects(subjects_of(facts), damaged or {})


def fold_subjects(subjects: Mapping[Place, Subject], damaged: Mapping[str, Sequence[Finding]]) -> Shop:
    """Return the state of jobs whose facts were parted already, as `fold_each` does."""
    jobs: dict[str, Job] = {}
    broken: dict[str, BrokenJob] = {}
    names = names_of(subjects)
    for place, subject in subjects.items():
        name = names[place]
        findings = tuple(damaged.get(subject.job, ()))
        try:
            job = None if findings else fold_job(subject, name)
            if job is not None:
                require_listable(job)
                jobs[name] = job
        except InputError as refused:
            findings = refused.findings
        except RecordError as refused:
            findings = (Finding(where=f"job {name}", what=str(refused), mend=_MEND),)
        if findings:
            broken[name] = _broken(name, subject, findings)
    known = {subject.job for subject in subjects.values()}
    for number in damaged:
        if number not in known:
            broken[number] = BrokenJob(id=number, numbers=(number,), findings=tuple(damaged[number]))
    return Shop(jobs=jobs, broken=broken)


def require_listable(job: Job) -> None:
    """Refuse a job that no list could show: its ticket has no table of its own, or a time in it is none.

    Raises:
        RecordError: for such a job.
    """
    if not isinstance(job.document.get("ticket"), dict):
        raise RecordError(f"the document of job {job.id} has no table [ticket]")
    for line in job.trail:
        if not is_moment(line.at):
            place = f"{line.site}/{line.sequence}"
            raise RecordError(f'fact {place} of job {job.id} was written at "{line.at}", which is no time')


_MEND = "Undo what contradicts the rest, at the bench that wrote it, and merge again; or go back to a backup."


def _broken(name: str, subject: Subject, findings: Sequence[Finding]) -> BrokenJob:
    """Name a broken job by what its ticket says, where one can be read."""
    orders = [fact.what.order for fact in subject.facts if isinstance(fact.what, TicketTaken)]
    said = orders[0] if orders else OrderWords()
    return BrokenJob(
        id=name,
        place=subject.place,
        numbers=subject.numbers,
        label=said.label,
        player=said.player,
        findings=tuple(findings),
    )


def fold_job(subject: Subject, name: str) -> Job | None:
    """Return one job, or None when its ticket was undone and nothing else stands.

    Args:
        subject: Its facts.
        name: What it goes by.

    Raises:
        RecordError: for a fact that could not have happened, and where content that nobody wrote at a bench cannot be laid
            at all.
        InputError: when a value that has to be added up cannot be read.
    """
    try:
        _refuse_unclear(subject, name)
        return _folded(subject, name)
    except (AttributeError, IndexError, KeyError, OverflowError, RecursionError, TypeError, ValueError) as broken:
        raise RecordError(
            f"job {name} holds what no bench writes, and cannot be worked out ({type(broken).__name__}: {broken})"
        ) from broken


def _refuse_unclear(subject: Subject, name: str) -> None:
    """Refuse a job while nobody knows which facts are its own."""
    if subject.doubted:
        fact = subject.doubted[0]
        raise RecordError(
            f'fact {fact.site}/{fact.sequence} ("{fact.typed[:80]}") says "{subject.job}", and not which of the tickets of '
            f"that number: undo it as a fact of the job it is about ({name}, say), and do it there again"
        )


def _folded(subject: Subject, name: str) -> Job | None:
    facts = subject.facts
    void = void_places(facts)
    standing = [fact for fact in facts if fact.place not in void]
    ticket = _ticket(name, standing)
    if ticket is None:
        return None
    by_place = {fact.place: fact for fact in facts}
    decided: dict[Place, bool] = {}
    for fact in standing:
        reading = target_of(fact, by_place)
        if reading is not None and isinstance(fact.what, ReadingDecided):
            decided[reading.place] = fact.what.keep
    said = [fact.what for fact in standing if isinstance(fact.what, ClubSaid)]
    builder = JobBuilder(ticket, decided, said[-1] if said else None)
    for fact in standing:
        apply(fact.what, builder, fact)
        complete(fact, builder)
    undid = reversed_by(facts)
    lines = [_line(fact, undone=fact.place in void, undid=undid.get(fact.place, ())) for fact in facts]
    job = builder.job(tuple(lines))
    link = said[-1] if said else ticket
    return msgspec.structs.replace(
        job,
        id=name,
        place=subject.place,
        numbers=subject.numbers,
        earlier=link.earlier if isinstance(link.earlier, tuple) else None,
        earlier_job=link.earlier_job if isinstance(link.earlier_job, str) else "",
        # only where to look: the later job itself says whether it is on this club
        later_jobs=tuple(fact.what.later_job for fact in facts if isinstance(fact.what, ClubCameBack)),
    )


def _ticket(name: str, standing: Sequence[Fact]) -> TicketTaken | None:
    tickets = [fact for fact in standing if isinstance(fact.what, TicketTaken)]
    others = [fact for fact in standing if not isinstance(fact.what, TicketTaken | Undone)]
    if not tickets:
        if others:
            first = others[0]
            raise RecordError(f'fact {first.site}/{first.sequence} is about "{name}", which has no ticket that stands')
        return None
    taken = tickets[0]
    for fact in others:
        if fact.site == taken.site and fact.sequence < taken.sequence:
            raise RecordError(f'fact {fact.site}/{fact.sequence} is about "{name}" before its ticket was taken')
    assert isinstance(taken.what, TicketTaken)  # chosen for it
    return taken.what


def _line(fact: Fact, *, undone: bool, undid: tuple[Place, ...]) -> TrailLine:
    return TrailLine(
        sequence=fact.sequence,
        site=fact.site,
        at=fact.at,
        by=fact.by,
        kind=kind_of(fact.what),
        text=fact.typed,
        undone=undone,
        undid=undid,
        done_at=fact.done_at if fact.done_at != fact.at else msgspec.UNSET,
        read=(fact.what.quantity, fact.what.value) if isinstance(fact.what, ReadingTaken) else None,
    )
