"""Which job a fact is about: a job *is* the place of the fact that its ticket was taken by; its number is a label.

Two benches may give one number away. Both jobs then go on under a name that holds the number and the bench, such as
``T-0110@van``, until a fact gives one of them another number. A fact from before facts named their job means the ticket that
its own bench took under that number, else the only one there is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from clubwright.journal.erased import shown
from clubwright.journal.facts import Fact, Place, Renumbered, TicketTaken, Undone
from clubwright.journal.names import bench_name, exact_name, is_named
from clubwright.journal.order import by_job
from clubwright.journal.standing import standing_target, void_places


class Subject(msgspec.Struct, frozen=True, kw_only=True):
    """The facts of one job.

    Attributes:
        place: Which job: the fact that its ticket was taken by.
        job: Number that the ticket was taken under.
        numbers: Every number that it had, as far as the facts that gave them stand; the last is its own now.
        facts: In the order they have.
        gone: Whether its ticket was undone, and nothing else stands.
        doubted: Facts that may be about this job or another one of the same number.
    """

    place: Place
    job: str
    numbers: tuple[str, ...]
    facts: tuple[Fact, ...]
    gone: bool = False
    doubted: tuple[Fact, ...] = ()

    @property
    def number(self) -> str:
        """Its number now."""
        return self.numbers[-1]

    @property
    def title(self) -> str:
        """Label and player, as its ticket says them."""
        orders = [fact.what.order for fact in self.facts if isinstance(fact.what, TicketTaken)]
        said = (orders[0].label, orders[0].player) if orders else ()
        return ", ".join(filter(None, said)) or self.number


def subjects_of(facts: Iterable[Fact]) -> dict[Place, Subject]:
    """Part facts into jobs, in the order in which those came in.

    Args:
        facts: In order; all of them, or all that name some numbers.
    """
    listed = [shown(fact) if fact.erased else fact for fact in facts]
    first = {fact.place: at for at, fact in reversed(list(enumerate(listed)))}
    found = [subject for job, mine in by_job(listed).items() for subject in _parted(job, mine)]
    # facts that name another number than their job's ticket are no facts of it: forged, and told as a job of their own
    found.sort(key=lambda subject: subject.facts[0].place != subject.place)
    by_place: dict[Place, Subject] = {}
    for subject in found:
        place = subject.place if subject.place not in by_place else subject.facts[0].place
        by_place[place] = msgspec.structs.replace(subject, place=place)
    return dict(sorted(by_place.items(), key=lambda item: first[item[1].facts[0].place]))


def _parted(job: str, facts: Sequence[Fact]) -> list[Subject]:
    """Part the facts of one number."""
    taken = [fact for fact in facts if isinstance(fact.what, TicketTaken)]
    if len(taken) == 1 and not any(_named(fact) not in (None, taken[0].place) for fact in facts):
        return [_subject(taken[0].place, job, facts, void_places(facts, strict=False), ())]
    void = void_places(facts, strict=False)
    places = _Places(facts, taken, void)
    mine: dict[Place, list[Fact]] = {fact.place: [] for fact in taken}
    doubted: list[Fact] = []
    for fact in facts:
        place = places.of(fact)
        if place is not None:
            mine.setdefault(place, []).append(fact)
        elif not taken:
            mine.setdefault(facts[0].place, []).append(fact)
        elif fact.place not in void and not isinstance(fact.what, Undone):
            doubted.append(fact)
    return [_subject(place, job, of_it, void, doubted) for place, of_it in mine.items()]


def _subject(place: Place, job: str, facts: Sequence[Fact], void: frozenset[Place], doubted: Sequence[Fact]) -> Subject:
    standing = [fact for fact in facts if fact.place not in void]
    numbers = [job, *(fact.what.number for fact in standing if isinstance(fact.what, Renumbered))]
    gone = not any(not isinstance(fact.what, Undone) for fact in standing)
    return Subject(
        place=place,
        job=job,
        numbers=tuple(numbers),
        facts=tuple(facts),
        gone=gone,
        doubted=() if gone else tuple(doubted),
    )


def _named(fact: Fact) -> Place | None:
    """Return the job that a fact names; None where it names only a number."""
    if isinstance(fact.what, TicketTaken):
        return fact.place
    return fact.what.subject if isinstance(fact.what.subject, tuple) else None


class _Places:
    """To which job each fact of one number belongs.

    Args:
        facts: All facts that name the number.
        taken: Those of them that took a ticket.
        void: Those that do not stand.
    """

    def __init__(self, facts: Sequence[Fact], taken: Sequence[Fact], void: frozenset[Place]) -> None:
        self._by_place = {fact.place: fact for fact in facts}
        self._taken = taken
        self._void = void
        self._known: dict[Place, Place | None] = {}
        # what nobody can tell apart is of the job in which somebody undid it
        self._undone_in: dict[Place, Place] = {}
        for fact in facts:
            named, about = _named(fact), standing_target(fact, self._by_place)
            if named is not None and about is not None:
                self._undone_in.setdefault(about.place, named)

    def of(self, fact: Fact) -> Place | None:
        """Return the job of a fact; None where several may be meant."""
        # an undo, or a decision, is about the job of what it is about; undos may stand on one another thousands deep
        path: list[Fact] = []
        seen: set[Place] = set()
        while fact.place not in self._known and fact.place not in seen:
            path.append(fact)
            seen.add(fact.place)
            about = standing_target(fact, self._by_place) if _named(fact) is None else None
            if about is None:
                self._known[fact.place] = _named(fact) or self._by_number(fact)
                break
            fact = about
        found = self._known.get(fact.place)
        for each in reversed(path):
            if found is None and each.place not in self._known:
                found = self._by_number(each)
            found = self._known.setdefault(each.place, found)
        return found

    def _by_number(self, fact: Fact) -> Place | None:
        own = [each for each in self._taken if each.site == fact.site]
        before = [each for each in own if each.sequence < fact.sequence]
        if own:
            return (before[-1] if before else own[0]).place
        standing = [each for each in self._taken if each.place not in self._void]
        others = standing or list(self._taken)
        return others[0].place if len(others) == 1 else self._undone_in.get(fact.place)


def names_of(subjects: Mapping[Place, Subject]) -> dict[Place, str]:
    """Return the name that each job goes by: its number, with the bench that took it where another job had that number."""
    had: dict[str, set[Place]] = {}
    for subject in subjects.values():
        for number in subject.numbers if not subject.gone else ():
            had.setdefault(number, set()).add(subject.place)
    found: dict[Place, str] = {}
    for subject in subjects.values():
        name = subject.number
        alike = had.get(name, set()) - {subject.place}
        if alike and not subject.gone:
            same_bench = any(place[0] == subject.place[0] for place in alike)
            name = (exact_name if same_bench else bench_name)(name, subject.place)
        found[subject.place] = name
    return found


def meant(text: str, subjects: Mapping[Place, Subject]) -> list[Subject]:
    """Return the jobs that a name may mean: none where there is no such ticket, several where it does not say which.

    A number means every job that has it or had it, since it may be read off an older tag. A ticket that was undone is meant
    only where no other one can be, so that it can be brought back.

    Args:
        text: A number, a number with its bench (``T-0110@van``), or with the very fact (``T-0110@van:7``).
        subjects: All jobs that have or had that number, at least.
    """
    found = [subject for subject in subjects.values() if is_named(text, subject.numbers, subject.place)]
    standing = [subject for subject in found if not subject.gone]
    return standing or found
