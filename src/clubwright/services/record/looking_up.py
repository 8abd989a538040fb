"""From what a person typed or scanned to the job that is meant: only the facts of the numbers in question are read."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import (
    Fact,
    MixTaken,
    NamesErased,
    Place,
    RecordsMerged,
    Renumbered,
    TicketTaken,
    What,
    kind_of,
)
from clubwright.journal.mixes import with_bad_mixes
from clubwright.journal.names import exact_name, numbers_in, which_is_meant
from clubwright.journal.reducers.fold import Job, fold_job
from clubwright.journal.seen import seen_of
from clubwright.journal.subjects import Subject, meant, names_of, subjects_of
from clubwright.services.record.ledger import Decided, LedgerPort


class LookedUp(msgspec.Struct, frozen=True, kw_only=True):
    """What the record has under a name.

    Attributes:
        facts: Facts of every job that has or had the numbers in question, in order.
        subject: The job that is meant; None where there is no such ticket.
        name: What it goes by.
        makers: Jobs that the mixes of adhesive were made on which this one took from, by the place of each mix.
        numbers: Ticket numbers in question.
    """

    facts: list[Fact]
    subject: Subject | None
    name: str
    numbers: tuple[str, ...]
    makers: dict[Place, Job] = {}

    def decided(self) -> Decided:
        """Return what an action on it is decided on: what is written of it, and not what only waits to be."""
        return Decided(numbers=self.numbers, seen=seen_of(fact.place for fact in self.facts if fact.hash))

    def job(self) -> Job | None:
        """Return the job as it stands; None where there is no such ticket any more.

        Raises:
            RecordError: when its state is not known.
        """
        if self.subject is None:
            return None
        return self._joined(fold_job(self.subject, self.name))

    def after(self, *facts: Fact) -> Job | None:
        """Return the job with one more fact, or several of one action.

        Raises:
            RecordError: when it could not have happened.
        """
        subjects = subjects_of([*self.facts, *facts])
        first = facts[0]
        named = first.what.subject if isinstance(first.what.subject, tuple) else first.place
        name = self.name if self.subject is not None else first.what.job
        return self._joined(fold_job(subjects[named], name))

    def _joined(self, job: Job | None) -> Job | None:
        return None if job is None else with_bad_mixes(job, lambda mix: self.makers.get(mix.place))

    def bound(self, what: What) -> What:
        """Return a fact that was made for this name as it is kept: about the very job, whatever its number is later."""
        if self.subject is None or isinstance(what, TicketTaken | RecordsMerged | NamesErased):
            return what
        return msgspec.structs.replace(what, job=self.subject.job, subject=self.subject.place)


def look_up(ledger: LedgerPort, text: str, about: Place | None = None) -> LookedUp:
    """Return the job that a name means.

    Args:
        ledger: The record.
        text: A ticket number, or the name that a job goes by where several had that number.
        about: A fact that the job holds, where one is named: it tells jobs of one number apart.

    Raises:
        RecordError: when several may be meant: with the name of each.
    """
    numbers = numbers_in(text)
    read, facts, subjects = _read(ledger, numbers)
    found = meant(text, subjects)
    if len(found) > 1 and about is not None:
        found = [each for each in found if any(fact.place == about for fact in each.facts)] or found
    if len(found) > 1:
        names = names_of(subjects)
        raise which_is_meant(text, [(names[each.place], each.title) for each in found])
    if not found:
        return LookedUp(facts=facts, subject=None, name=text, numbers=read)
    place = found[0].place
    if found[0].number not in numbers:
        # who else has the number that it has now
        read, facts, subjects = _read(ledger, [*numbers, found[0].number])
    makers = makers_of(ledger, (fact.what for fact in subjects[place].facts if isinstance(fact.what, MixTaken)))
    return LookedUp(facts=facts, subject=subjects[place], name=names_of(subjects)[place], numbers=read, makers=makers)


def makers_of(ledger: LedgerPort, taken: Iterable[MixTaken]) -> dict[Place, Job]:
    """Return the jobs that mixes were made on, by the place of each mix; none for one that the record cannot tell of."""
    found: dict[Place, Job] = {}
    for what in taken:
        try:
            subjects = subjects_of(ledger.facts(what.of))
            for subject in subjects.values():
                job = fold_job(subject, what.of) if any(fact.place == what.mix for fact in subject.facts) else None
                if job is not None:
                    found[what.mix] = job
        except ClubwrightError:
            continue  # it is told of the joint that its mix is not known
    return found


def look_up_new(ledger: LedgerPort, number: str) -> LookedUp:
    """Return what stands beside a ticket that is to be taken under a number."""
    read, facts, _ = _read(ledger, [number])
    return LookedUp(facts=facts, subject=None, name=number, numbers=read)


def given_away(ledger: LedgerPort, number: str) -> bool:
    """True when a ticket that stands has or had a number."""
    _, _, subjects = _read(ledger, [number])
    return any(number in subject.numbers and not subject.gone for subject in subjects.values())


def name_of(fact: Fact) -> str:
    """Return the name of the job that a fact is about, which no other job has."""
    return exact_name(fact.what.job, subject_of(fact))


def subject_of(fact: Fact) -> Place:
    """Return the job that a fact names; the fact itself where it is the one that took the ticket."""
    return fact.what.subject if isinstance(fact.what.subject, tuple) else fact.place


def exact_of(what: What) -> str:
    """Return the name of the job that a payload names, or only its number where it names none."""
    return exact_name(what.job, what.subject) if isinstance(what.subject, tuple) else what.job


def as_named(what: What, name: str) -> What:
    """Return a kept fact as it was made for a name, to be held against what the same action makes again."""
    if isinstance(what, RecordsMerged | NamesErased):
        return what
    return msgspec.structs.replace(what, job=name, subject=msgspec.UNSET)


def _read(ledger: LedgerPort, numbers: Iterable[str]) -> tuple[tuple[str, ...], list[Fact], dict[Place, Subject]]:
    wanted = set(numbers)
    renumbered = ledger.readable(kinds=(kind_of(Renumbered(job="", number="")),)).facts
    found = {fact.what.job for fact in renumbered if isinstance(fact.what, Renumbered) and fact.what.number in wanted}
    read = tuple(sorted(wanted | found))
    facts = ledger.facts(read)
    return read, facts, subjects_of(facts)
