"""The error tree, the finding (what is wrong, where, and how to mend it), and the place in a document that one is at."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

import msgspec

Severity = Literal["error", "warning", "note"]


class DocumentPlace(msgspec.Struct, frozen=True):
    """Where something stands in a document: a ticket file, the shop's settings, a form. Whoever asks reads its attributes.

    Attributes:
        section: Name of the table, such as ``head`` or ``adhesive.release``.
        steps: What is named inside the table: a figure's key, or a table inside it, and on; lines are counted from 0.
        row: Which of several tables alike, counted from 0; None where there is one, and where all of them are meant.
        many: Whether there may be several.
        source: Which document; empty where that is plain.
    """

    section: str
    steps: tuple[str | int, ...] = ()
    row: int | None = None
    many: bool = False
    source: str = ""

    @property
    def key(self) -> str:
        """The key of a figure of the table itself; empty for the table, and for what is deeper."""
        return self.steps[0] if len(self.steps) == 1 and isinstance(self.steps[0], str) else ""

    def at(self, *steps: str | int) -> DocumentPlace:
        """Return a place inside this one: a table's figure by its key."""
        return DocumentPlace(self.section, (*self.steps, *steps), self.row, self.many, self.source)

    def within(self, source: str) -> DocumentPlace:
        """Return the same place in a document that is named."""
        return msgspec.structs.replace(self, source=source)

    def one(self, row: int | None) -> DocumentPlace:
        """Return the place of one of the tables alike, counted from 0; None for all of them."""
        return DocumentPlace(self.section, self.steps, row, self.many, self.source)

    def __str__(self) -> str:
        """Write it as it stands in the file, lines counted from 1: ``ticket.toml [[weight]] 2 mass``."""
        table = f"[[{self.section}]]" if self.many else f"[{self.section}]"
        inside = (step + 1 if isinstance(step, int) else step for step in self.steps)
        row = () if self.row is None else (self.row + 1,)
        return " ".join(map(str, (*filter(None, (self.source,)), table, *row, *inside)))


Where = DocumentPlace | str
"""What a finding is about: a place in a document, or by its name what is in none, such as ``merge``."""


class Finding(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is wrong or worth knowing, said so that the person at the bench can act on it.

    Attributes:
        where: Place in the input, whose words are made last: ``ticket.toml [head] mass``.
        what: What is wrong, with the value as typed.
        mend: The next thing to do.
        severity: ``error`` stops the work, ``warning`` needs a look, ``note`` is for information.
    """

    where: Where
    what: str
    mend: str
    severity: Severity = "error"

    def sentence(self) -> str:
        """Return the finding as one line of text."""
        return f"{self.where}: {self.what}. {self.mend}"


class ClauseFinding(Finding, frozen=True, kw_only=True):
    """A finding whose mend also stands within a sentence, such as a gate's reason.

    Attributes:
        clause: The mend as a clause, without capital and full stop.
    """

    clause: str


def clause_finding(where: str, what: str, clause: str, severity: Severity = "error") -> ClauseFinding:
    """Return a finding whose mend is one clause; the sentence is made of it."""
    mend = clause[:1].upper() + clause[1:] + "."
    return ClauseFinding(where=where, what=what, mend=mend, clause=clause, severity=severity)


class ClubwrightError(Exception):
    """Root of every error that clubwright raises on purpose."""


class InputError(ClubwrightError):
    """Input that cannot be taken, with every finding about it at once.

    Raised instead of guessing: nothing of the input has been kept.
    """

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(finding.sentence() for finding in self.findings))


class NotPossible(ClubwrightError):
    """A request that is understood but cannot be done at the bench, and what can be done instead."""

    def __init__(self, what: str, instead: str) -> None:
        self.what = what
        self.instead = instead
        super().__init__(f"{what}. {instead}")


class GateClosed(ClubwrightError):
    """An irreversible step is asked for before what it needs is known."""

    def __init__(self, step: str, reasons: Iterable[str]) -> None:
        self.step = step
        self.reasons = tuple(reasons)
        super().__init__(f"{step} is not open yet: " + "; ".join(self.reasons))


class StepNotReady(ClubwrightError):
    """A step is said to be done while what it leaves behind is missing; every finding at once, nothing is kept."""

    def __init__(self, step: str, findings: Iterable[Finding]) -> None:
        self.step = step
        self.findings = tuple(findings)
        super().__init__(f'"{step}" cannot be said done: ' + " ".join(finding.sentence() for finding in self.findings))


class NotAllowed(ClubwrightError):
    """A person's role does not cover what they ask for."""

    def __init__(self, by: str, role: str, needed: str) -> None:
        self.by, self.role, self.needed = by, role, needed
        super().__init__(f'{by} may {role} here; this needs "{needed}". Ask somebody who may.')


class RecordError(ClubwrightError):
    """The workshop's record refuses: a broken chain, a version conflict, a fact that is not there."""


class NumberTaken(RecordError):
    """The number of a ticket that is to be taken is another one's already."""


class NotInRecord(RecordError):
    """The workshop's record has no such ticket."""
