"""What every bench action needs: the record, whose hands, which site, the time, and fresh keys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import TypeVar

import msgspec

from clubwright.errors import Finding, InputError, NotAllowed, NotInRecord, RecordError
from clubwright.journal.chain import payload, plain
from clubwright.journal.facts import Fact, Undone, What
from clubwright.journal.mixes import joined_over
from clubwright.journal.reducers.fold import Job, Shop, require_listable
from clubwright.notation import Typist, UnitsShown, canonical
from clubwright.notation.own import AS_THE_SHOP, Own
from clubwright.services.checks.payloads import fact_findings
from clubwright.services.checks.roles import Role, covers, role_for
from clubwright.services.record.club_jobs import shop_with_clubs, with_club
from clubwright.services.record.folded_index import FoldedIndex
from clubwright.services.record.job_index import JobIndex
from clubwright.services.record.ledger import Decided, LedgerPort
from clubwright.services.record.looking_up import look_up
from clubwright.services.record.search import Search
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings


def no_settings() -> ShopSettings:
    """Return the settings of a workshop that has written none."""
    return NO_SETTINGS


T = TypeVar("T")
NAMED = 5
"""So many of the latest jobs are named to whoever asks for one that is not there."""
Local = Callable[[datetime], datetime]
"""Puts a moment into the bench's own time of day; passed in, so that a test and a replay have their own."""


Along = Callable[[Job | None, Job], Sequence[tuple[What, str]]]
"""Says which facts of a job are kept along with those of an action, each as the trail says it: asked of the job as it stands
and as it is after the action."""


def nothing_along(_before: Job | None, _after: Job) -> Sequence[tuple[What, str]]:
    """Keep nothing along with an action."""
    return ()


def in_utc(moment: datetime) -> datetime:
    """Give a moment in UTC: what a bench shows that says nothing of its own time."""
    return moment.astimezone(UTC)


class Session(msgspec.Struct, frozen=True, kw_only=True):
    """One person at one bench.

    Attributes:
        ledger: The workshop's record.
        site: Which bench writes; facts are numbered for each site.
        by: Who does it.
        now: The time; passed in, so that tests and replays have their own.
        new_key: A fresh idempotency key; passed in for the same reason.
        role: What this person may do.
        local: Puts a moment into the bench's own time of day; UTC unless one is passed in.
        settings: Reads the shop's settings as they are now; a ticket takes from them when it is taken.
        own: How this person reads and types, where it is not as the shop says.
        along: What is kept in the same transaction with what an action writes on its job.
    """

    ledger: LedgerPort
    site: str
    by: str
    now: Callable[[], datetime]
    new_key: Callable[[], str]
    role: Role = "sign off"
    local: Local = in_utc
    settings: Callable[[], ShopSettings] = no_settings
    own: Own = AS_THE_SHOP
    along: Along = nothing_along

    def typist(self) -> Typist:
        """Return how numbers are typed at this session, for whoever turns what is typed into canonical text."""
        return self.own.typist(self.settings().typist())

    def units(self) -> UnitsShown:
        """Return how figures and words are shown at this session to a person."""
        return self.own.units(self.settings().units())

    def typed(self, text: str, kind: str = "") -> str:
        """Return a number typed at this session as canonical text; of a kind of notation where the field has one."""
        return canonical(text, self.typist(), kind)

    def require(self, needed: Role) -> None:
        """Refuse what this person's role does not cover.

        Raises:
            NotAllowed: when it does not.
        """
        if not covers(self.role, needed):
            raise NotAllowed(self.by, self.role, needed)

    def shop(self) -> Shop:
        """Fold the whole record, job by job: one that is broken is told beside the others, and stops none of them."""
        found = self.ledger.readable()
        shop = shop_with_clubs(FoldedIndex(found).shop, found.facts)
        return msgspec.structs.replace(shop, jobs=joined_over(shop.jobs))

    def ask(self, question: Callable[[JobIndex], T]) -> T:
        """Ask the record's index of jobs; what follows from every fact is asked where the index cannot be trusted.

        Args:
            question: Asked in one transaction, or twice where the index turns out to be damaged: it writes nothing.
        """
        try:
            with self.ledger.index() as index:
                if index is not None:
                    return question(index)
        except (RecordError, msgspec.MsgspecError, ValueError):
            pass  # what is wrong with the record itself is told by the facts
        return question(FoldedIndex(self.ledger.readable()))

    def job(self, job: str) -> Job:
        """Return one job as it stands; only its own facts are folded, so that no other job can stand in its way.

        Args:
            job: Its ticket number, or the name that it goes by where several had that number.

        Raises:
            RecordError: when the record has no such ticket, its state is not known, or several may be meant.
        """
        found = look_up(self.ledger, job).job()
        if found is None:
            latest = self.ask(_latest)
            if latest is None:
                return self.shop().job(job)  # what is damaged may be this very job
            raise NotInRecord(f'the record has no ticket "{job}"; the latest: {", ".join(latest) or "none yet"}')
        require_listable(found)
        return with_club(self.ledger, found)

    def facts_of(self, job: str) -> list[Fact]:
        """Return the facts of one job, in order; none where the record has no such ticket.

        Raises:
            RecordError: when several jobs may be meant.
        """
        subject = look_up(self.ledger, job).subject
        return [] if subject is None else list(subject.facts)

    def keep_all(
        self, whats: Sequence[What], typed: Sequence[str], key: str, seen: int, decided: Sequence[Decided]
    ) -> list[Fact]:
        """Write the facts of one action in one transaction; the same key again gives the facts that are already there.

        Every bench action ends here, so here is where its role is asked for.

        Args:
            whats: What happened, one or more.
            typed: As said in the trail, for each.
            key: Idempotency key.
            seen: Last fact of this site that the action was decided on.
            decided: The jobs that it was decided on.

        Raises:
            ConflictError: when this site has written since, or any bench of these jobs.
            NotAllowed: when this person's role does not cover it.
            InputError: with every finding, when it is no fact that any bench may write.
        """
        findings: list[Finding] = []
        for what, said in zip(whats, typed, strict=True):
            self.require(role_for(what, self.ledger.facts(what.job) if isinstance(what, Undone) else (), self.site))
            findings += fact_findings(payload(plain(what)), site=self.site, by=self.by, typed=said, key=key)
        if findings:
            raise InputError(findings)
        at = utc_text(self.now())
        return self.ledger.append(
            self.site, whats, by=self.by, at=at, typed=typed, key=key, expected_sequence=seen, decided=decided
        )


def utc_text(moment: datetime) -> str:
    """Write a moment as the record does: UTC, ISO 8601, with Z."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def moment_of(text: str) -> datetime:
    """Read such a text back."""
    return datetime.fromisoformat(text)


def _latest(index: JobIndex) -> list[str] | None:
    """Name the latest jobs; None where the index is no other than what follows from every fact."""
    return None if isinstance(index, FoldedIndex) else [line.id for line in index.lines(Search(), NAMED)[0]][::-1]
