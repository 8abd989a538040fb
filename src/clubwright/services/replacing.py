"""One action in place of another one: the other is undone in the transaction in which this one is kept, or not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from pathlib import Path

import msgspec

from clubwright.errors import Finding
from clubwright.journal.facts import Fact, Undone, What
from clubwright.journal.standing import void_places
from clubwright.services.desk import Desk
from clubwright.services.ledger import LedgerPort, Merger, Readable
from clubwright.services.roles import role_for


def instead_of(desk: Desk, theirs: Fact, reason: str) -> Desk:
    """Return a desk whose next fact is kept together with the undo of another one.

    Until then the desk sees the job as if that one were undone already, so that whatever checks the action is asked about
    the job as it will be. When nothing is kept, nothing is undone.

    Args:
        desk: Who and where.
        theirs: The fact that is replaced.
        reason: Why, for the trail.

    Raises:
        NotAllowed: when this person's role does not cover the undo.
    """
    about = theirs.what
    undo = Undone(job=about.job, subject=about.subject, fact=theirs.sequence, reason=reason, site=theirs.site)
    desk.require(role_for(undo, desk.ledger.facts(undo.job), desk.site))
    return msgspec.structs.replace(desk, ledger=_Replacing(desk, undo))


class _Replacing(LedgerPort):
    """The desk's record, in which one undo waits for the next fact to be written with."""

    def __init__(self, desk: Desk, undo: Undone) -> None:
        self._ledger, self._site, self._by = desk.ledger, desk.site, desk.by
        self._undo, self._waits = undo, True

    def append(
        self,
        site: str,
        payloads: Sequence[What],
        *,
        by: str,
        at: str,
        typed: str | Sequence[str],
        key: str,
        expected_sequence: int | None = None,
    ) -> list[Fact]:
        """Write facts, and after them the undo that waits, all or none; gives the facts without it."""
        if not self._waits:
            return self._ledger.append(
                site, payloads, by=by, at=at, typed=typed, key=key, expected_sequence=expected_sequence
            )
        texts = [typed] * len(payloads) if isinstance(typed, str) else list(typed)
        facts = self._ledger.append(
            site,
            [*payloads, self._undo],
            by=by,
            at=at,
            typed=[*texts, f"undo {self._undo.fact}"],
            key=key,
            # the undo that waits was counted as if it were there
            expected_sequence=None if expected_sequence is None else expected_sequence - 1,
        )
        self._waits = False
        return facts[:-1]

    def facts(
        self,
        job: str | Collection[str] | None = None,
        after: Mapping[str, int] | None = None,
        kinds: Collection[str] | None = None,
    ) -> list[Fact]:
        """Return facts in order, the undo that waits the last of its job's."""
        last = self._ledger.last(self._site)
        return self._with_undo(self._ledger.facts(job, after, kinds), job, last)

    def readable(self, job: str | Collection[str] | None = None, kinds: Collection[str] | None = None) -> Readable:
        """Return the facts that can be read, the undo that waits the last of its job's, and what is damaged."""
        last = self._ledger.last(self._site)
        found = self._ledger.readable(job, kinds)
        return msgspec.structs.replace(found, facts=self._with_undo(found.facts, job, last))

    def _with_undo(self, found: list[Fact], job: str | Collection[str] | None, last: int) -> list[Fact]:
        asked = {job} if isinstance(job, str) else set(job or ())
        if not self._waits or self._undo.job not in asked or not found:
            return found
        if (self._undo.site, self._undo.fact) in void_places(found, strict=False):
            self._waits = False  # somebody else undid it meanwhile: nothing is left to undo
            return found
        return [*found, self._waiting(found, last)]

    def _waiting(self, found: list[Fact], last: int) -> Fact:
        return Fact(
            site=self._site,
            sequence=max([last, *(fact.sequence for fact in found if fact.site == self._site)]) + 1,
            at=found[-1].at,
            by=self._by,
            typed=f"undo {self._undo.fact}",
            what=self._undo,
            key="waits",
            previous_hash="",
            hash="",
        )

    def last(self, site: str) -> int:
        """Return the number of a site's last fact, the undo that waits counted."""
        return self._ledger.last(site) + (self._waits and site == self._site)

    def count(self) -> int:
        """Return how many facts the record holds."""
        return self._ledger.count()

    def receive(self, facts: Iterable[Fact], merger: Merger | None = None) -> int:
        """Take in facts of other sites."""
        return self._ledger.receive(facts, merger)

    def verify(self) -> tuple[Finding, ...]:
        """Check the record."""
        return self._ledger.verify()

    def backup(self, path: Path) -> int:
        """Copy the record."""
        return self._ledger.backup(path)
