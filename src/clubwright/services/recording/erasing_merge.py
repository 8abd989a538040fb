"""Erasures and merging: what one record has forgotten, no other one brings back; and each erases what the other erased."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.chain import hash_of
from clubwright.journal.erased import covered, erasing_break, text_at, what_was_left
from clubwright.journal.erasing import SHORT_NAME, erased_in, in_parts, spans_of, spans_told
from clubwright.journal.facts import Erased, Fact, NamesErased, Place, Span
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import LedgerPort
from clubwright.services.record.session import Session
from clubwright.services.told.erased import AppliedAnswer

_MEND = "No bench writes this: see where that record comes from. Nothing was taken in."


class Carried(msgspec.Struct, frozen=True, kw_only=True):
    """Two records with everything erased that one of them has forgotten.

    Attributes:
        mine: This record's facts.
        facts: The other one's.
        erasure: What has to be erased here, and said; None where nothing has.
        wrong: What no erasure can have left.
        told: What was erased besides, for a person to know.
    """

    mine: list[Fact]
    facts: list[Fact]
    erasure: Erasure | None
    wrong: tuple[Finding, ...]
    told: tuple[Finding, ...]


def carry_over(mine: Sequence[Fact], facts: Sequence[Fact]) -> Carried:
    """Erase in two records what one of them has forgotten, and the same names in what only the other one holds.

    A name that is forgotten is known no more; but where one of the two still holds a text that the other one has erased in,
    the name stands there, and is looked for in what only that one holds. It is written down nowhere. What a bench wrote when
    it had the erasure already stays: whoever is back as a player gives the name anew.

    Args:
        mine: All facts of this record.
        facts: All facts of the other one.
    """
    told = spans_told([*mine, *facts])
    if not told and not any(fact.erased for fact in facts):
        return Carried(mine=list(mine), facts=list(facts), erasure=None, wrong=(), told=())
    wrong = [*_unproven(facts), *_contradicted([*mine, *facts])]
    names = _names([*mine, *facts], told)

    def erase(fact: Fact, said: Mapping[str, Sequence[str]], other: frozenset[Place]) -> Fact:
        spans = set(told.get(fact.place, ()))
        after = covered(fact, spans) if spans.difference(fact.erased) else fact
        if fact.place in other:
            return after
        more = [span for person, names in said.items() for span in spans_of(after, names, person)]
        return covered(after, more) if more else after

    def erased(some: Sequence[Fact], others: Sequence[Fact]) -> list[Fact]:
        known = {fact.what.person for fact in some if isinstance(fact.what, NamesErased)}
        said = {person: called for person, called in names.items() if person not in known}
        places = frozenset(fact.place for fact in others)
        return [erase(fact, said, places) for fact in some]

    mine_after, facts_after = erased(mine, facts), erased(facts, mine)
    union = {fact.place: fact for fact in (*facts_after, *mine_after)}
    left = what_was_left([*mine, *facts])
    unsaid = [
        fact for fact in union.values() if fact.erased and (hash_of(fact), fact.erased) not in left.get(fact.place, ())
    ]
    changed = [after for fact, after in zip(mine, mine_after, strict=True) if after != fact]
    whats, typed = _sayings(unsaid, [*mine, *facts])
    erasure = Erasure(covered=changed, whats=whats, typed=typed) if changed or whats else None
    besides = tuple(dict.fromkeys(fact.what.job for fact in unsaid if fact.place not in told))
    return Carried(
        mine=mine_after, facts=facts_after, erasure=erasure, wrong=tuple(wrong), told=_besides(changed, besides)
    )


def _unproven(facts: Sequence[Fact]) -> Iterator[Finding]:
    """Say where the other record has texts erased, and nobody there says so."""
    left = what_was_left(facts)
    for fact in facts:
        why = erasing_break(fact, hash_of(fact), left) if fact.erased else None
        if why is not None:
            yield Finding(where=f"{fact.site[:40]}/{fact.sequence}", what=f"this fact {why}", mend=_MEND)


def _contradicted(facts: Sequence[Fact]) -> Iterator[Finding]:
    """Say which erasures claim to have left what is not left when the same is erased in the fact as it was written."""
    written = {fact.place: fact for fact in facts if not fact.erased}
    for item in _items(facts):
        fact = written.get((item.site, item.sequence))
        if fact is not None and hash_of(covered(fact, item.spans)) != item.left:
            what = (
                "an erasure changed more of this fact than it says: a record that still holds the fact contradicts it"
            )
            yield Finding(where=f"{fact.site[:40]}/{fact.sequence}", what=what, mend=_MEND)


def _items(facts: Iterable[Fact]) -> Iterator[Erased]:
    for fact in facts:
        if isinstance(fact.what, NamesErased):
            yield from fact.what.facts


def _names(facts: Sequence[Fact], told: Mapping[Place, set[Span]]) -> dict[str, list[str]]:
    """Return what each forgotten person was called, as far as one of the records still says it."""
    found: dict[str, dict[str, None]] = {}
    for fact in facts:
        for span in sorted(
            told.get(fact.place, set()).difference(fact.erased), key=lambda item: (item.path, item.start)
        ):
            name = text_at(fact, span)
            if sum(char.isalnum() for char in name) >= SHORT_NAME:
                found.setdefault(span.person, {})[name] = None
    return {person: list(names) for person, names in found.items()}


def _sayings(unsaid: Sequence[Fact], facts: Sequence[Fact]) -> tuple[list[NamesErased], list[str]]:
    """Return the facts that say what is erased now and no erasure says as it is: of each group of persons by themselves."""
    asked = {fact.what.person: fact.what.asked_by for fact in facts if isinstance(fact.what, NamesErased)}
    groups: dict[tuple[str, ...], list[Fact]] = {}
    for fact in sorted(unsaid, key=lambda item: item.place):
        groups.setdefault(tuple(sorted({span.person for span in fact.erased})), []).append(fact)
    whats = [
        NamesErased(
            person=persons[0],
            asked_by="; ".join(dict.fromkeys(asked.get(person, "") for person in persons))[:1000],
            facts=erased_in(part),
        )
        for persons, of_it in groups.items()
        for part in in_parts(of_it)
    ]
    return whats, [f"forgot a player ({what.person}) in what records brought together" for what in whats]


def _besides(changed: Sequence[Fact], jobs: Sequence[str]) -> tuple[Finding, ...]:
    found = []
    if changed:
        what = f"texts were erased in {len(changed)} facts of this record: a player was forgotten"
        mend = (
            "Earlier backups and prints here still hold the name: `clubwright forget --apply-to FILE`, or destroy them."
        )
        found.append(Finding(where="merge", what=what, mend=mend, severity="note"))
    if jobs:
        what = f"the same name was erased where only one of the records had it: {', '.join(jobs)}"
        found.append(
            Finding(where="merge", what=what, mend="Merge back, so that the other one does too.", severity="note")
        )
    return tuple(found)


def apply_erasures(session: Session, other: LedgerPort) -> AppliedAnswer:
    """Bring an earlier copy of this record up to it, with everything erased in the copy that this record has forgotten.

    Args:
        session: Who and where.
        other: The copy, open to be written.

    Raises:
        NotAllowed: when this person may not sign off.
        InputError: when the copy holds what this record does not, or contradicts it; nothing is changed.
    """
    session.require("sign off")
    facts, theirs = session.ledger.facts(), other.facts()
    places = {fact.place for fact in facts}
    more = sorted(fact.place for fact in theirs if fact.place not in places)
    if more:
        site, number = more[0]
        what = f"it holds {len(more)} facts that this record has not, from {site}/{number} on"
        mend = "Merge it first (`clubwright merge`), then apply again. Nothing was changed."
        raise InputError([Finding(where="file", what=what, mend=mend)])
    carried = carry_over(theirs, facts)
    there = {fact.place: fact for fact in carried.facts}
    differing = [fact.place for fact in carried.mine if fact != there[fact.place]]
    wrong = [
        *carried.wrong,
        *(
            Finding(where=f"{site}/{number}", what="the file and this record differ", mend="Verify both.")
            for site, number in differing
        ),
    ]
    if wrong:
        raise InputError(wrong)
    new = other.receive(carried.facts, None, carried.erasure)
    if findings := other.verify():
        raise InputError(findings)
    erased = len(carried.erasure.covered) if carried.erasure is not None else 0
    return AppliedAnswer(schema=1, erased=erased, new=new, facts=other.count())
