"""What the services need of a record, whatever keeps it: append in one transaction, read, verify, back up."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import Protocol

import msgspec

from clubwright.errors import Finding, RecordError
from clubwright.journal.facts import Fact, Place, What
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.job_index import JobIndex


class Damage(msgspec.Struct, frozen=True, kw_only=True):
    """Something in a record that cannot be read, or is not what was written.

    Attributes:
        finding: What it is.
        jobs: Jobs that it touches; empty when nobody knows.
        place: The fact, where its own row still says which one it is.
    """

    finding: Finding
    jobs: tuple[str, ...] = ()
    place: Place | None = None


class Readable(msgspec.Struct, frozen=True, kw_only=True):
    """What a record still gives: facts in order, each as it was written, and what is damaged."""

    facts: list[Fact]
    damage: tuple[Damage, ...] = ()


class DamagedError(RecordError):
    """What was asked for is damaged.

    Attributes:
        damage: All of it.
    """

    def __init__(self, damage: Iterable[Damage]) -> None:
        self.damage = tuple(damage)
        super().__init__("\n".join(item.finding.sentence() for item in self.damage))


class ConflictError(RecordError):
    """Somebody wrote in between: what the action was decided on is no longer the latest.

    Attributes:
        site: Whose numbering.
        expected: Last sequence number that the writer had seen.
        found: Last one that is there.
    """

    def __init__(self, site: str, expected: int, found: int) -> None:
        self.site = site
        self.expected = expected
        self.found = found
        super().__init__(
            f"the record of {site} has moved on from fact {expected} to {found}: look at what was added, then do it again"
        )


class Decided(msgspec.Struct, frozen=True, kw_only=True):
    """What an action is decided on: the jobs that some numbers may mean, as far as the person had seen them.

    Attributes:
        numbers: Ticket numbers that their facts name.
        seen: Of each bench the number of its last fact about them; a bench that is not named had written none.
    """

    numbers: tuple[str, ...]
    seen: dict[str, int]


class Merger(msgspec.Struct, frozen=True, kw_only=True):
    """Who takes in another record, where and when.

    Attributes:
        site: Bench that takes it in.
        by: Who.
        at: UTC, ISO 8601 with Z.
        key: Idempotency key of the fact that says what was seen.
    """

    site: str
    by: str
    at: str
    key: str


class LedgerPort(Protocol):
    """An append-only record of facts."""

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
        """Write facts, all or none, in one transaction.

        Args:
            site: Bench that writes; its numbering goes on without a gap.
            payloads: What happened, at least one.
            by: Who.
            at: UTC, ISO 8601 with Z.
            typed: As typed; one text for all of them, or one for each.
            key: Idempotency key: the same action sent again returns the facts that are there, with their first time.
            expected_sequence: Last fact of the site that the action was decided on (0 for none); None is not checked.
            decided: Jobs that the action was decided on. Only what any bench wrote of these makes it refuse; what it wrote
                of others, on the same gauge or not, never does.

        Raises:
            ConflictError: when the site, or one of those jobs, has moved on.
            RecordError: for a key that was used for something else, or a fact that cannot be kept.
        """
        ...

    def facts(
        self,
        job: str | Collection[str] | None = None,
        after: Mapping[str, int] | None = None,
        kinds: Collection[str] | None = None,
    ) -> list[Fact]:
        """Return facts in order, each as it was written.

        Args:
            job: Only those of one job, or of some.
            after: For each site the last sequence number already seen; sites not named are given whole.
            kinds: Only those of some kinds, such as ``ticket taken``.

        Raises:
            DamagedError: when one of them is damaged.
        """
        ...

    def readable(
        self,
        job: str | Collection[str] | None = None,
        kinds: Collection[str] | None = None,
        since: str | None = None,
    ) -> Readable:
        """Return the facts that can be read, as `facts` does, and beside them what is damaged.

        Args:
            job: As in `facts`.
            kinds: As there.
            since: Only those written after that time, UTC, ISO 8601 with Z; whatever was done after it is among them.
        """
        ...

    def fact(self, place: Place) -> Fact | None:
        """Return one fact; None where the record has none there.

        Raises:
            DamagedError: when it is damaged.
        """
        ...

    def action(self, key: str) -> list[Fact]:
        """Return the facts that one action wrote, in order; none where no action has that key.

        Raises:
            DamagedError: when one of them is damaged.
        """
        ...

    def last(self, site: str) -> int:
        """Return the number of a site's last fact; 0 before its first."""
        ...

    def count(self) -> int:
        """Return how many facts the record holds: a number that moves when anything happened."""
        ...

    def heads(self) -> dict[str, tuple[int, str]]:
        """Return the number and the hash of each bench's last fact."""
        ...

    def last_hash(self) -> str:
        """Return the hash of the fact that came last; that of an empty record where there is none."""
        ...

    def index(self) -> AbstractContextManager[JobIndex | None]:
        """Open the record's own index of jobs as it stands at one moment; None where the facts themselves must be asked."""
        return nullcontext(None)

    def rebuild(self) -> int:
        """Throw the record's index of jobs away, work it out anew from the facts, and return how many jobs it holds.

        Raises:
            DamagedError: when a fact is damaged; there is no index then.
        """
        ...

    def receive(self, facts: Iterable[Fact], merger: Merger | None = None, erasure: Erasure | None = None) -> int:
        """Take in facts of other sites, and return how many were new; all or none.

        Args:
            facts: With those that are there already, or without.
            merger: Whoever merges: where anything was new but what merges had seen, a fact says in the same transaction
                what is there now. Nobody where a record is only copied.
            erasure: What is erased in what is there already, in the same transaction, because of what comes in.

        Raises:
            RecordError: when they do not follow on what is there, or differ from it.
        """
        ...

    def erase(self, erasure: Erasure, merger: Merger, seen: int) -> list[Fact]:
        """Erase texts of facts, from the record's own files too, and write the facts that say so, in one transaction.

        Args:
            erasure: What is erased; the same key again gives the facts that are there.
            merger: Who, where, when, and the key.
            seen: How many facts the record held when it was decided.

        Raises:
            ConflictError: when anything was written since.
        """
        ...

    def verify(self) -> tuple[Finding, ...]:
        """Check that every fact is there, in order and unchanged; empty when the record is whole."""
        ...

    def backup(self, path: Path) -> int:
        """Copy the record while it is in use, read the copy back, and return how many facts it holds.

        Raises:
            RecordError: when the copy does not hold every fact; then no file is left at the path.
        """
        ...
