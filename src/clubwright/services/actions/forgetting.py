"""A person asks to be forgotten: their name is erased from every fact, and each job stays what it is in all else."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from difflib import get_close_matches

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.erased import covered
from clubwright.journal.erasing import (
    SHORT_NAME,
    Remaining,
    erased_in,
    in_parts,
    remaining,
    same_person,
    spans_of,
    texts_of,
)
from clubwright.journal.facts import Fact, NamesErased
from clubwright.services.checks.payloads import fact_findings
from clubwright.services.checks.roles import Role
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import ConflictError, Merger
from clubwright.services.record.session import Session, utc_text

FORGETS: Role = "sign off"
"""What a person must be allowed to do to erase a name."""
TRIES = 10
"""So often the record is looked through anew because somebody wrote in between."""
UNREACHED = (
    "Backups made before: erase in each (`clubwright forget --apply-to FILE`), or destroy it and make it anew.",
    "Records of other benches: merge this one into each; theirs erases then too.",
    "Sheets, tags and labels that were printed, and files written from the record or sent: destroy them, make them anew.",
    "Ticket files, the workshop's settings, and what is written elsewhere (mail, a calendar): look there yourself.",
    "What the disk or the machine keeps by itself (snapshots, copies in the cloud, a server's logs): see how long it does.",
)
"""What an erasure does not reach, and what to do about it."""


class Look(msgspec.Struct, frozen=True, kw_only=True):
    """What would be erased.

    Attributes:
        facts: How many facts say the name.
        texts: In how many places.
        jobs: Numbers of the jobs, as the tickets were taken.
        remaining: Texts that may still say who it was afterwards: for a person to look at.
    """

    facts: int
    texts: int
    jobs: tuple[str, ...]
    remaining: tuple[Remaining, ...]


class Forgotten(msgspec.Struct, frozen=True, kw_only=True):
    """What was erased.

    Attributes:
        person: Mark that stands for the person now.
        looked: What was erased, and what remains to be looked at; nothing remains known where the action was sent twice.
        written: The facts that say so.
        unreached: What an erasure does not reach.
    """

    person: str
    looked: Look
    written: tuple[Fact, ...]
    unreached: tuple[str, ...] = UNREACHED


def look_before(session: Session, player: str, also: Collection[str] = ()) -> Look:
    """Say what would be erased if a player were forgotten; nothing is changed.

    Args:
        session: Who and where.
        player: Name, as a ticket says it; capitals and spaces do not matter.
        also: More words that are theirs: another name, a telephone number, an address.

    Raises:
        NotAllowed: when this person may not sign off.
        InputError: when no ticket names them.
    """
    session.require(FORGETS)
    facts = session.ledger.facts()
    names = _names(facts, player, also)
    return _look(facts, _covered(facts, names, ""), names)


def forget(
    session: Session, player: str, *, asked_by: str, facts: int, also: Collection[str] = (), key: str | None = None
) -> Forgotten:
    """Erase a player's name from the record, wherever it stands as a word in a text that nothing is worked out from.

    Numbers, readings, signatures and the hashes of the facts stay; so do the names of those who work at the benches.

    Args:
        session: Who and where.
        player: Name, as a ticket says it.
        asked_by: Who asked for it, in words without the name: ``the player, by letter``.
        facts: How many facts say the name, from `look_before`: so that nobody erases what was not looked at.
        also: More words that are theirs.
        key: Idempotency key.

    Raises:
        NotAllowed: when this person may not sign off.
        InputError: when no ticket names them, who asked is not said, or another count of facts holds the name by now.
    """
    session.require(FORGETS)
    chosen = key or session.new_key()
    sent_before = [fact for fact in session.ledger.action(chosen) if isinstance(fact.what, NamesErased)]
    if sent_before:
        return _said(sent_before)
    for left in reversed(range(TRIES)):
        there = session.ledger.facts()
        names = _names(there, player, also)
        person = f"P-{session.new_key()[-8:]}"
        erased = _covered(there, names, person)
        _require(names, asked_by.strip(), chosen, expected=facts, found=len(erased))
        parts = in_parts(erased)
        whats = [NamesErased(person=person, asked_by=asked_by.strip(), facts=erased_in(part)) for part in parts]
        typed = [f"forgot a player ({person}), asked by {asked_by.strip()}"] * len(parts)
        findings = [
            item
            for what, said in zip(whats, typed, strict=True)
            for item in fact_findings(what, site=session.site, by=session.by, typed=said, key=chosen)
        ]
        if findings:
            raise InputError(findings)
        merger = Merger(site=session.site, by=session.by, at=utc_text(session.now()), key=chosen)
        try:
            written = session.ledger.erase(Erasure(covered=erased, whats=whats, typed=typed), merger, len(there))
        except ConflictError:
            if not left:
                raise
            continue
        return Forgotten(person=person, looked=_look(there, erased, names), written=tuple(written))
    raise AssertionError("the last try returns or raises")


def players(facts: Sequence[Fact]) -> Iterator[str]:
    """Yield every name that a ticket says of its player, as it was typed."""
    for fact in facts:
        erased = {span.path for span in fact.erased}
        for path, key, text in texts_of(fact):
            if key == "player" and path not in erased and text.strip():
                yield text


def _names(facts: Sequence[Fact], player: str, also: Collection[str]) -> list[str]:
    known = dict.fromkeys(players(facts))
    spelled = [name for name in known if same_person(name, player)]
    findings = []
    if not spelled:
        near = get_close_matches(player, known, n=3)
        mend = f"Did you mean {', '.join(near)}?" if near else "Write the name as a ticket says it."
        findings.append(Finding(where="player", what="no ticket of the record is for this name", mend=mend))
    words = [word.strip() for word in also]
    for word in words:
        if sum(char.isalnum() for char in word) < SHORT_NAME:
            what, mend = f'"{word}" is too short', f"Give at least {SHORT_NAME} letters or figures."
            findings.append(Finding(where="also", what=what, mend=mend))
    if findings:
        raise InputError(findings)
    return list(dict.fromkeys([*spelled, *words]))


def _covered(facts: Sequence[Fact], names: Sequence[str], person: str) -> list[Fact]:
    return [covered(fact, spans) for fact in facts if (spans := spans_of(fact, names, person))]


def _look(facts: Sequence[Fact], erased: Sequence[Fact], names: Sequence[str]) -> Look:
    after = {fact.place: fact for fact in facts} | {fact.place: fact for fact in erased}
    before = {fact.place: len(fact.erased) for fact in facts}
    left = [item for fact in facts for item in remaining(after[fact.place], names)]
    return Look(
        facts=len(erased),
        texts=sum(len(fact.erased) - before[fact.place] for fact in erased),
        jobs=tuple(dict.fromkeys(fact.what.job for fact in erased if fact.what.job)),
        remaining=tuple(left),
    )


def _require(names: Sequence[str], asked_by: str, key: str, *, expected: int, found: int) -> None:
    findings = []
    if not asked_by:
        mend = 'Say it without the name, such as "the player, by letter": the record keeps it.'
        findings.append(Finding(where="asked by", what="nobody is said", mend=mend))
    for where, text in (("asked by", asked_by), ("key", key)):
        if any(name.casefold() in text.casefold() for name in names):
            mend = 'This stays in the record: write it without the name, such as "the player".'
            findings.append(Finding(where=where, what="it holds what shall be erased", mend=mend))
    if expected != found:
        mend = f"Look at what is erased, then give {found}."
        what_said = f"{found} facts hold the name, and {expected} were said"
        findings.append(Finding(where="facts", what=what_said, mend=mend))
    if findings:
        raise InputError(findings)


def _said(written: Sequence[Fact]) -> Forgotten:
    whats = [fact.what for fact in written if isinstance(fact.what, NamesErased)]
    spans = [span for what in whats for item in what.facts for span in item.spans if span.person == what.person]
    looked = Look(facts=sum(len(what.facts) for what in whats), texts=len(spans), jobs=(), remaining=())
    return Forgotten(person=whats[0].person, looked=looked, written=tuple(written))
