"""Whether a fact could have happened on a job: tried on the job as it stood, with the checks that its own bench makes.

How far a bench had seen another one's facts when it wrote is in the record only where it had merged. So a fact from
elsewhere is called impossible only when it fails on every view that its bench can have had (`services.recording.views`).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

import msgspec

from clubwright.errors import ClubwrightError, Finding, GateClosed, InputError
from clubwright.journal.facts import Fact, Finished, Glued, Renumbered, ShaftCut, TicketTaken, What
from clubwright.journal.reducers.fold import Job, fold_job
from clubwright.journal.standing import void_places
from clubwright.journal.subjects import Subject, subjects_of
from clubwright.planning.cut import CUT_JOBS
from clubwright.services.checks.after_the_end import require_possible
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.done_at import require_in_order
from clubwright.services.recording.views import Heads, Sight, views

GATE_OF: dict[type[What], str] = {ShaftCut: "cut", Glued: "glue", Finished: "release"}
"""Gate that must be signed before a fact of a build or re-shaft."""

_MEND = "At the bench that it belongs to, undo it, then merge."


def impossible(subject: Subject, new: Sequence[Fact], sight: Sight) -> list[Finding]:
    """Return what could not have happened, of one job.

    Args:
        subject: The job, with all its facts that the other record holds.
        new: Those of them that are to be tried.
        sight: How far the benches of that record had seen one another.
    """
    facts = subject.facts
    void = _void(facts)
    found: list[Finding] = []
    for fact in new:
        if fact.place in void:
            continue  # undone there: it changes nothing here
        refused = _refused(subject, fact, sight.of(fact))
        if refused is not None:
            found += _as_findings(fact, refused)
    return found


def taken_twice(facts: Sequence[Fact], sites: Collection[str], sight: Sight) -> list[Finding]:
    """Return the tickets that a bench took under a number that it had given away itself, whatever it had seen by then.

    Args:
        facts: Of the other record, in order.
        sites: Benches that are looked at.
        sight: How far the benches of that record had seen one another.
    """
    found: list[Finding] = []
    took = (fact.site for fact in facts if isinstance(fact.what, TicketTaken) and fact.site in sites)
    for site in dict.fromkeys(took):
        numbers: dict[str, Subject] = {}
        for subject in subjects_of(fact for fact in facts if fact.site == site).values():
            if subject.gone or subject.place[0] != site:
                continue
            for number in subject.numbers:
                other = numbers.setdefault(number, subject)
                if other is not subject and not _was_free(facts, number, (other, subject), sight):
                    first, second = sorted((other.place, subject.place))
                    where = f"{second[0]}/{second[1]} of job {number}"
                    what = f"two tickets are called so at one bench: the other one is {first[0]}/{first[1]}"
                    found.append(Finding(where=where, what=what, mend=_MEND))
    return found


def _was_free(facts: Sequence[Fact], number: str, holders: tuple[Subject, Subject], sight: Sight) -> bool:
    """True where a number can have been free when the second of two tickets of a bench got it.

    The first may not have had it just then: its own undo, or somebody else's, was taken back later.
    """
    given = [
        (fact.sequence, fact, other)
        for subject, other in (holders, holders[::-1])
        for fact in subject.facts
        if (isinstance(fact.what, Renumbered) and fact.what.number == number)
        or (isinstance(fact.what, TicketTaken) and fact.what.job == number)
    ]
    if not given:
        return False  # forged: nobody took a ticket
    _, fact, other = max(given, key=lambda item: item[0])
    named = {subject.job for subject in holders}
    of_both = [each for each in facts if each.what.job in named]
    for view in views(of_both, fact, sight.of(fact)):
        there = subjects_of(view).get(other.place)
        if there is None or there.gone or number not in there.numbers:
            return True
    return False


def _refused(subject: Subject, fact: Fact, sure: Heads) -> ClubwrightError | None:
    """Try a fact on the views that its bench can have had; return why the likeliest refuses it, when all do."""
    first: ClubwrightError | None = None
    for view in views(subject.facts, fact, sure):
        try:
            _require_on(subject, view, fact)
        except ClubwrightError as refused:
            first = first or refused
        else:
            return None
    return first


def _require_on(subject: Subject, view: Sequence[Fact], fact: Fact) -> None:
    before = _folded(subject, view)
    after = fold_job(msgspec.structs.replace(subject, facts=(*view, fact), doubted=()), subject.job)
    require_possible(before, after, fact.what)
    require_in_order(before, fact.what)
    if before is not None:
        _require_signed(before, fact.what)


def _folded(subject: Subject, view: Sequence[Fact]) -> Job | None:
    """Fold a view; one that does not fold may still be mended by an undo."""
    try:
        return fold_job(msgspec.structs.replace(subject, facts=tuple(view), doubted=()), subject.job)
    except ClubwrightError:
        return None


def _require_signed(before: Job, what: What) -> None:
    gate = GATE_OF.get(type(what))
    if gate is None:
        return
    if ticket_of(before).job in CUT_JOBS:
        if gate not in before.gates_signed:
            raise GateClosed(gate, [f'nobody has signed the gate "{gate}"'])
    elif not isinstance(what, Finished):
        finding = Finding(where="gate", what=f'this job has no gate "{gate}"', mend="This kind of work has none.")
        raise InputError([finding])


def _void(facts: Sequence[Fact]) -> frozenset[tuple[str, int]]:
    try:
        return void_places(facts)
    except ClubwrightError:
        return frozenset()


def _as_findings(fact: Fact, refused: ClubwrightError) -> list[Finding]:
    where = f'{fact.site}/{fact.sequence} ("{fact.typed[:80]}") of job {fact.what.job}'
    mend = _MEND
    if isinstance(refused, InputError):
        return [Finding(where=where, what=f"{item.where}: {item.what}", mend=mend) for item in refused.findings]
    return [Finding(where=where, what=str(refused), mend=mend)]
