"""One action in place of another one: the other is undone in the transaction in which this one is kept, or not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from pathlib import Path

import msgspec

from clubwright.errors import Finding
from clubwright.journal.facts import Fact, Place, Undone, What
from clubwright.journal.standing import void_places
from clubwright.services.actions.undoing import undos_beside
from clubwright.services.checks.roles import role_for
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import Decided, LedgerPort, Merger, Readable
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import try_beside


def instead_of(session: Session, theirs: Fact, reason: str) -> Session:
    """Return a session whose next fact is kept together with the undo of another one, right after it.

    Until then the session sees the job as if that one were undone already, so that whatever checks the action is asked about
    the job as it will be. When nothing is kept, nothing is undone. Where it is undone already when the fact is kept, nothing
    is undone with it: so the same action sent again is known.

    Args:
        session: Who and where.
        theirs: The fact that is replaced.
        reason: Why, for the trail.

    Raises:
        NotAllowed: when this person's role does not cover the undo.
    """
    undo = Undone(
        job=theirs.what.job,
        subject=theirs.what.subject,
        fact=theirs.sequence,
        reason=reason,
        site=theirs.site,
        whole=True,
    )
    others = undos_beside(session.ledger, undo, session.site)
    for each in (undo, *others):
        session.require(role_for(each, session.ledger.facts(each.job), session.site))
    return msgspec.structs.replace(session, ledger=_Replacing(session, [undo, *others]))


class _Replacing(LedgerPort):
    """The session's record, in which the undo of one action waits for the next fact to be written with."""

    def __init__(self, session: Session, undos: Sequence[Undone]) -> None:
        self._session, self._ledger, self._site, self._by = session, session.ledger, session.site, session.by
        self._undos, self._waits, self._written = tuple(undos), True, False
        self._theirs = (undos[0].site, undos[0].fact)

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
        decided: Sequence[Decided] = (),
    ) -> list[Fact]:
        """Write the undos that wait, and facts after them, all or none; gives the facts without these.

        The undos come first, since the facts were checked on the job as they make it: whoever takes them in one by one has
        them then too.
        """
        if not self._waits:
            return self._ledger.append(
                site,
                payloads,
                by=by,
                at=at,
                typed=typed,
                key=key,
                expected_sequence=expected_sequence,
                decided=decided,
            )
        # the undos that wait were counted as if they were there
        seen = None if expected_sequence is None else expected_sequence - len(self._undos)
        last = self._ledger.last(site) if seen is None else seen
        for undo in self._undos:  # each must be possible by itself: so it is looked at by whoever merges
            try_beside(self._session, undo, last)
        texts = [typed] * len(payloads) if isinstance(typed, str) else list(typed)
        facts = self._ledger.append(
            site,
            [*self._undos, *payloads],
            by=by,
            at=at,
            typed=[*(f"undo {undo.fact}" for undo in self._undos), *texts],
            key=key,
            expected_sequence=seen,
            decided=decided,
        )
        self._waits, self._written = False, True
        return facts[len(self._undos) :]

    def facts(
        self,
        job: str | Collection[str] | None = None,
        after: Mapping[str, int] | None = None,
        kinds: Collection[str] | None = None,
    ) -> list[Fact]:
        """Return facts in order, the undo that waits the last of its job's."""
        last = self._ledger.last(self._site)
        return self._with_undo(self._ledger.facts(job, after, kinds), job, last)

    def readable(
        self,
        job: str | Collection[str] | None = None,
        kinds: Collection[str] | None = None,
        since: str | None = None,
    ) -> Readable:
        """Return the facts that can be read, the undo that waits the last of its job's, and what is damaged."""
        last = self._ledger.last(self._site)
        found = self._ledger.readable(job, kinds, since)
        return msgspec.structs.replace(found, facts=self._with_undo(found.facts, job, last))

    def fact(self, place: Place) -> Fact | None:
        """Return one fact; an undo that waits is none yet."""
        return self._ledger.fact(place)

    def _with_undo(self, found: list[Fact], job: str | Collection[str] | None, last: int) -> list[Fact]:
        asked = {job} if isinstance(job, str) else set(job or ())
        if self._undos[0].job in asked and not self._written:
            # asked anew at each look: somebody else may undo it, or bring it back, before this action is kept
            self._waits = self._theirs not in void_places(found, strict=False)
        waiting = [undo for undo in self._undos if undo.job in asked]
        if not self._waits or not waiting or not found:
            return found
        return [*found, *self._as_written(waiting, found, last)]

    def _as_written(self, undos: Sequence[Undone], found: list[Fact], last: int) -> list[Fact]:
        before = max([last, *(fact.sequence for fact in found if fact.site == self._site)])
        return [
            Fact(
                site=self._site,
                sequence=before + number,
                at=found[-1].at,
                by=self._by,
                typed=f"undo {undo.fact}",
                what=undo,
                key="waits",
                previous_hash="",
                hash="",
            )
            for number, undo in enumerate(self._undos, start=1)
            if undo in undos
        ]

    def action(self, key: str) -> list[Fact]:
        """Return what one action wrote."""
        return self._ledger.action(key)

    def last(self, site: str) -> int:
        """Return the number of a site's last fact, the undos that wait counted."""
        return self._ledger.last(site) + (len(self._undos) if self._waits and site == self._site else 0)

    def count(self) -> int:
        """Return how many facts the record holds."""
        return self._ledger.count()

    def heads(self) -> dict[str, tuple[int, str]]:
        """Return the number and the hash of each bench's last fact."""
        return self._ledger.heads()

    def last_hash(self) -> str:
        """Return the hash of the fact that came last."""
        return self._ledger.last_hash()

    def rebuild(self) -> int:
        """Work the index of jobs out anew."""
        return self._ledger.rebuild()

    def receive(self, facts: Iterable[Fact], merger: Merger | None = None, erasure: Erasure | None = None) -> int:
        """Take in facts of other sites."""
        return self._ledger.receive(facts, merger, erasure)

    def erase(self, erasure: Erasure, merger: Merger, seen: int) -> list[Fact]:
        """Erase texts of facts."""
        return self._ledger.erase(erasure, merger, seen)

    def verify(self) -> tuple[Finding, ...]:
        """Check the record."""
        return self._ledger.verify()

    def backup(self, path: Path) -> int:
        """Copy the record."""
        return self._ledger.backup(path)
