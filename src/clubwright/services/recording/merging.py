"""Bring what another bench wrote into this record: all of it, or nothing where any of it could not have happened.

What could not have happened at the bench that wrote it is refused, with every finding at once. What is impossible only
where the two records come together (one ticket number that both gave away) is nobody's fault: it is taken, and told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.chain import is_moment, verify_chain
from clubwright.journal.facts import Fact, Place, RecordsMerged
from clubwright.journal.order import in_order
from clubwright.journal.reducers.fold import fold_each
from clubwright.journal.subjects import Subject, names_of, subjects_of
from clubwright.services.answer.answer import findings_part
from clubwright.services.checks.payloads import fact_findings
from clubwright.services.record.ledger import Merger
from clubwright.services.record.session import Session, moment_of, utc_text
from clubwright.services.recording.disagreeing import disagreeing
from clubwright.services.recording.erasing_merge import carry_over
from clubwright.services.recording.possible import impossible, taken_twice
from clubwright.services.recording.views import Sight
from clubwright.services.told.kept import MergedAnswer

AHEAD = timedelta(days=1)
"""A clock that is ahead of this one by more than that is told: it is wrong, whichever of the two it is."""
MOST_NAMED = 50
"""So many findings are said; a forger's record may have one for each of its facts."""

_MEND = "No bench writes this: see where that record comes from. Nothing was taken in."


class Taken(msgspec.Struct, frozen=True, kw_only=True):
    """What a merge did.

    Attributes:
        new: How many facts were new.
        findings: What both records together leave to be decided.
    """

    new: int
    findings: tuple[Finding, ...]


def take_in(session: Session, facts: Sequence[Fact]) -> Taken:
    """Take in another record's facts.

    Signatures come along, so this asks for "sign off".

    Args:
        session: Who and where.
        facts: All facts of the other record.

    Raises:
        NotAllowed: when this person may not sign.
        InputError: with every finding, when any fact could not have happened, or contradicts this record; nothing is
            taken in.
    """
    session.require("sign off")
    carried = carry_over(session.ledger.facts(), facts)
    mine, facts = carried.mine, carried.facts
    there = {fact.place: fact for fact in mine}
    new = [fact for fact in facts if fact.place not in there]
    findings = [
        *carried.wrong,
        *_differing(facts, mine),
        *_under_our_name(session.site, new),
        *_keys_used_twice(mine, new),
    ]
    by_itself = {fact.place: [*_time_findings(fact), *_by_itself(fact)] for fact in new}
    wrong = [fact for fact in new if by_itself[fact.place]]
    findings += [finding for fact in wrong for finding in by_itself[fact.place]]
    # what is wrong by itself is not looked at any further, nor what stands on it
    sites, jobs = {fact.site for fact in wrong}, {fact.what.job for fact in wrong}
    findings += verify_chain((fact for fact in (*mine, *new) if fact.site not in sites), whole=False)
    theirs, sight = in_order(facts), Sight(facts)
    for subject in subjects_of(theirs).values():
        if subject.job not in jobs:
            findings += impossible(subject, [fact for fact in subject.facts if fact.place not in there], sight)
    findings += _not_seen([*mine, *facts], new)
    findings += taken_twice(theirs, {fact.site for fact in new} - sites, sight)
    if findings:
        more = len(findings) - MOST_NAMED
        rest = [Finding(where="merge", what=f"{more} more", mend=_MEND)] if more > 0 else []
        raise InputError([*findings[:MOST_NAMED], *rest])
    merger = Merger(site=session.site, by=session.by, at=utc_text(session.now()), key=session.new_key())
    taken = session.ledger.receive(facts, merger, carried.erasure)
    return Taken(new=taken, findings=(*carried.told, *_clock_findings(new, session.now()), *_together(mine, new)))


def merged(session: Session, facts: Sequence[Fact]) -> MergedAnswer:
    """Take in another record's facts as `take_in` does, and return what a program is answered."""
    taken = take_in(session, facts)
    return MergedAnswer(
        schema=1,
        facts=session.ledger.count(),
        new=taken.new,
        sites=tuple(sorted({fact.site for fact in facts})),
        findings=findings_part(taken.findings),
    )


def _by_itself(fact: Fact) -> list[Finding]:
    """Say what is wrong with a fact whatever the job, with the checks of writing."""
    found = fact_findings(fact.what, site=fact.site, by=fact.by, typed=fact.typed, key=fact.key)
    return [Finding(where=f"{_place(fact)}, {item.where}", what=item.what, mend=_MEND) for item in found]


def _time_findings(fact: Fact) -> list[Finding]:
    """A clock that is wrong is no fault of a fact: order follows what a bench had seen, and only then its clock."""
    for at in (fact.at, fact.done_at):
        if not is_moment(at):
            return [Finding(where=_place(fact), what=f"{at[:40]!r} is no time", mend=_MEND)]
    if moment_of(fact.done_at) > moment_of(fact.at):
        what = f"it was done at {fact.done_at}, and written before that, at {fact.at}"
        return [Finding(where=_place(fact), what=what, mend=_MEND)]
    return []


def _clock_findings(new: Sequence[Fact], now: datetime) -> Iterator[Finding]:
    """Say of which benches facts were written at a time that is still to come, once for each."""
    ahead: dict[str, Fact] = {}
    for fact in new:
        if moment_of(fact.at) > now + AHEAD:
            ahead.setdefault(fact.site, fact)
    for fact in ahead.values():
        mend = (
            "One of the two clocks is, or was, wrong: set it. The order of what was done does not rest on it; a cure, a "
            "promise and a day in a list do: look at them, and undo and record anew what ran from a wrong time."
        )
        what = f"it was written at {fact.at}, which is still to come here"
        yield Finding(where=_place(fact), what=what, mend=mend, severity="warning")


def _not_seen(facts: Sequence[Fact], new: Sequence[Fact]) -> Iterator[Finding]:
    """Say which merges claim to have seen what is not there: they would put facts in an order that nobody vouches for."""
    there = {fact.place: fact.hash for fact in facts}
    for fact in new:
        for site, (number, seen) in fact.what.heads.items() if isinstance(fact.what, RecordsMerged) else ():
            if there.get((site, number)) != seen:
                what = f"it had seen {site[:40]}/{number} as it is not in that record"
                yield Finding(where=_place(fact), what=what, mend=_MEND)


def _differing(facts: Sequence[Fact], mine: Sequence[Fact]) -> Iterator[Finding]:
    there = {fact.place: fact for fact in mine}
    seen: dict[tuple[str, int], Fact] = {}
    for fact in facts:
        other = there.get(fact.place) or seen.setdefault(fact.place, fact)
        if other != fact:
            mend = (
                f'Verify both, and see whether two benches write as "{fact.site}"; give each a name of its own '
                "(CLUBWRIGHT_SITE). Nothing was taken in."
            )
            yield Finding(where=_place(fact), what="the records differ in this fact", mend=mend)


def _under_our_name(site: str, new: Sequence[Fact]) -> list[Finding]:
    """Only this bench writes under its name: what stands there elsewhere and not here was lost here, or forged."""
    numbers = sorted(fact.sequence for fact in new if fact.site == site)
    if not numbers:
        return []
    many = f"{len(numbers)} facts" if len(numbers) > 1 else "1 fact"
    stand = "stand" if len(numbers) > 1 else "stands"
    what = f"{many} from number {numbers[0]} on {stand} there under this bench's own name, and not in its record"
    mend = (
        f'Where two benches write as "{site}", give each a name of its own (CLUBWRIGHT_SITE). Where this record lost '
        "them (an older backup was put in its place, say): keep a copy of it, back the other record up "
        "(`clubwright backup`), and put that backup in its place; or go on under a new name, and merge. "
        "Where neither is so, somebody forged them. Nothing was taken in."
    )
    return [Finding(where=f"{site}/{numbers[0]}", what=what, mend=mend)]


def _keys_used_twice(mine: Sequence[Fact], new: Sequence[Fact]) -> Iterator[Finding]:
    first = {fact.key: fact for fact in mine}
    for fact in new:
        there = first.setdefault(fact.key, fact)
        if there.place != fact.place:
            what = f'it and {_place(there)} have the same key "{fact.key[:80]}", and a record holds each key once'
            mend = "Leave --key out, so that every action gets its own. Nothing was taken in."
            yield Finding(where=_place(fact), what=what, mend=mend)


def _together(mine: Sequence[Fact], new: Sequence[Fact]) -> tuple[Finding, ...]:
    """Say which jobs are broken now that were not before, what numbers were given away twice, what was read differently."""
    jobs = {fact.what.job for fact in new}
    before = fold_each(fact for fact in mine if fact.what.job in jobs)
    union = in_order([*mine, *new])
    after = fold_each(fact for fact in union if fact.what.job in jobs)
    broken_before = {job.place for job in before.broken.values()}
    broken = [job for job in after.broken.values() if job.place not in broken_before]
    found = [finding for job in broken for finding in job.findings]
    apart = disagreeing(union, frozenset(fact.place for fact in new))
    return (*found, *_shared_numbers(subjects_of(mine), subjects_of(union)), *apart)


def _shared_numbers(before: Mapping[Place, Subject], after: Mapping[Place, Subject]) -> Iterator[Finding]:
    """Say which numbers stand on several tickets that did not before; each job then goes by a name of its own."""
    known, names = _holders(before), names_of(after)
    for number, places in _holders(after).items():
        if len(places) > 1 and known.get(number) != places:
            said = [f"{names[place]} ({after[place].title})" for place in places]
            mend = (
                "Write the names as they stand here. To give one another number: "
                f"`clubwright renumber {names[places[-1]]} NUMBER`."
            )
            what = f"several tickets have this number: {' and '.join(said)}"
            yield Finding(where=f"ticket {number}", what=what, mend=mend, severity="note")


def _holders(subjects: Mapping[Place, Subject]) -> dict[str, list[Place]]:
    """Return the jobs that have each number now."""
    found: dict[str, list[Place]] = {}
    for subject in subjects.values():
        if not subject.gone:
            found.setdefault(subject.number, []).append(subject.place)
    return {number: sorted(places) for number, places in found.items()}


def _place(fact: Fact) -> str:
    return f'{fact.site[:40]}/{fact.sequence} ("{fact.typed[:80]}")'
