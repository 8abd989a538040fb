"""The fold: from the facts, in order, to the state of the shop. Same facts, same state, on any machine."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from clubwright.errors import Finding, InputError, RecordError
from clubwright.journal.chain import is_moment
from clubwright.journal.completion import complete
from clubwright.journal.draft import Draft
from clubwright.journal.facts import Fact, Place, ReadingDecided, TicketTaken, Undone, kind_of
from clubwright.journal.job import BrokenJob, Job, Shop, Signed, TrailLine
from clubwright.journal.order import by_job
from clubwright.journal.overlay import lay
from clubwright.journal.standing import target_of, void_places

__all__ = ["Job", "Shop", "Signed", "TrailLine", "fold", "fold_each"]


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
    folded = [_fold_job(name, mine) for name, mine in by_job(listed).items()]
    return Shop(jobs={job.id: job for job in folded if job is not None})


def fold_each(facts: Iterable[Fact], damaged: Mapping[str, Sequence[Finding]] | None = None) -> Shop:
    """Return the state that follows from facts, job by job: one that cannot be folded is told, and every other one goes on.

    Args:
        facts: In order; all of them, or all of some jobs.
        damaged: What is damaged of some jobs; their other facts are not taken for the whole.
    """
    damaged = damaged or {}
    jobs: dict[str, Job] = {}
    broken: dict[str, BrokenJob] = {}
    mine = by_job(facts)
    for name in dict.fromkeys((*mine, *damaged)):
        own = mine.get(name, [])
        try:
            job = None if damaged.get(name) else _fold_job(name, own)
            if job is not None:
                require_listable(job)
                jobs[name] = job
            findings = tuple(damaged.get(name, ()))
        except InputError as refused:
            findings = refused.findings
        except RecordError as refused:
            findings = (Finding(where=f"job {name}", what=str(refused), mend=_MEND),)
        if findings:
            broken[name] = _broken(name, own, findings)
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


def _broken(name: str, facts: Sequence[Fact], findings: Sequence[Finding]) -> BrokenJob:
    """Name a broken job by what its ticket says, where one can be read."""
    documents = [fact.what.document for fact in facts if isinstance(fact.what, TicketTaken)]
    said = documents[0].get("ticket") if documents else None
    words = said if isinstance(said, dict) else {}
    label, player = (text if isinstance(text := words.get(key), str) else "" for key in ("label", "player"))
    return BrokenJob(id=name, label=label, player=player, findings=tuple(findings))


def _fold_job(name: str, facts: Sequence[Fact]) -> Job | None:
    """Return one job, or None when its ticket was undone and nothing else stands.

    Raises:
        RecordError: also where content that nobody wrote at a bench cannot be laid at all.
    """
    try:
        return _folded(name, facts)
    except (AttributeError, IndexError, KeyError, OverflowError, RecursionError, TypeError, ValueError) as broken:
        raise RecordError(
            f"job {name} holds what no bench writes, and cannot be worked out ({type(broken).__name__}: {broken})"
        ) from broken


def _folded(name: str, facts: Sequence[Fact]) -> Job | None:
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
    draft = Draft(ticket, decided)
    for fact in standing:
        lay(fact.what, draft, fact)
        complete(fact.what, draft)
    return draft.job(tuple(_line(fact, undone=fact.place in void) for fact in facts))


def _ticket(name: str, standing: Sequence[Fact]) -> TicketTaken | None:
    tickets = [fact for fact in standing if isinstance(fact.what, TicketTaken)]
    others = [fact for fact in standing if not isinstance(fact.what, TicketTaken | Undone)]
    if len(tickets) > 1:
        places = " and ".join(f"{fact.site}/{fact.sequence}" for fact in tickets)
        raise RecordError(f'two tickets are called "{name}" ({places}): undo one, and take it under another number')
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


def _line(fact: Fact, *, undone: bool) -> TrailLine:
    return TrailLine(
        sequence=fact.sequence,
        site=fact.site,
        at=fact.at,
        by=fact.by,
        kind=kind_of(fact.what),
        text=fact.typed,
        undone=undone,
    )
