"""The state of the shop as it follows from the facts: jobs, their documents, and what was done on each."""

from __future__ import annotations

from typing import Any

import msgspec

from clubwright.errors import Finding, NotInRecord, RecordError
from clubwright.journal.facts import Place
from clubwright.journal.mixes import BadMix, Mix
from clubwright.journal.names import is_named, which_is_meant
from clubwright.journal.signed import Accepted, Signed, Voided
from clubwright.state.club import KnownClub
from clubwright.state.order import OrderWords
from clubwright.state.step import FIRST_EDITION
from clubwright.ticket.rows.typed import order_of, parts_of

__all__ = ["Accepted", "BrokenJob", "Job", "Shop", "Signed", "TrailLine", "Voided"]


class TrailLine(msgspec.Struct, frozen=True, kw_only=True):
    """One line of a job's trail.

    Attributes:
        sequence: Number of the fact, which an undo takes.
        site: Bench that wrote it.
        at: UTC, ISO 8601 with Z.
        by: Who.
        kind: Kind of fact, such as ``reading taken``.
        text: As typed.
        undone: Whether it no longer stands.
        undid: Places of what it reversed on this job, where it is an undo.
        done_at: When it was done, where that was earlier; left out where it was written when it was done.
        read: What was read and what it showed, as typed, where it is a reading.
    """

    sequence: int
    site: str
    at: str
    by: str
    kind: str
    text: str
    undone: bool
    undid: tuple[Place, ...] = ()
    done_at: str | msgspec.UnsetType = msgspec.UNSET
    read: tuple[str, str] | None = None

    @property
    def when(self) -> str:
        """When it was done."""
        return self.done_at if isinstance(self.done_at, str) else self.at


class Job(msgspec.Struct, frozen=True, kw_only=True):
    """One club's job as it stands.

    Attributes:
        id: Name that it goes by: its ticket number, with the bench that took it where another job had that number.
        place: The fact that its ticket was taken by, which says which job it is.
        numbers: Every ticket number that it had; the last is its own now.
        earlier: The job before it on its club, by the fact that took that one in; None where the record has none.
        earlier_job: Number that the job before was taken under.
        later_jobs: Numbers of jobs that were said to be on its club after it.
        also_open: Names of the other open jobs on its club, as far as it was looked for
            (`clubwright.journal.same_club`).
        worked_since: Name of the job before, where it was worked on after this one began from it; likewise.
        source: Where the ticket came from.
        edition: Edition of the plan that it began with.
        promised_at: When the promise was last changed after the ticket came in; None when it never was.
        document: The ticket as a ticket file holds it, with everything laid over it that happened since.
        steps_done: Steps of the plan that are done or were passed over, in order, each once.
        steps_by: Of each of them the fact that completed it last.
        steps_skipped: Those of them that were passed over, and what was left out.
        gates_signed: Signature of each gate.
        signed_for: Of a gate after whose signature the order was changed, the tables that were, as they stood when it was
            signed; None for one that there was not.
        voided: Signatures that were taken away and not given again, by gate.
        glued_at: When the joint was last closed; None while it is open.
        glued_temperature: At which temperature, as typed.
        glued: Who wrote that down, and when, which may be later.
        mixes: Mixes of adhesive made or taken from for its joint.
        made_mixes: Those that were made here, whatever became of the joint, by the place of their fact.
        bad_mixes: What is said against mixes, by their place: those made here, and those taken from.
        butt_trims: Lengths cut off the butt before the cut to length, as typed.
        tip_trimmed: Whether a trim of the tip was recorded.
        tapes_laid: Tapes laid, by name, each once.
        gripped: Whether the grip is on for good.
        angles_bent: Angles of the head that were measured after a bend, each once.
        head_was: Angles of the head before its first bend, as typed.
        accepted: The last acceptance of each target; whether it still holds, `clubwright.services.jobs.closing` says.
        finished: Signature of the end of the job; None while it is open.
        trail: Every fact of the job, in order, undone ones too.
    """

    id: str
    place: Place = ("", 0)
    numbers: tuple[str, ...] = ()
    earlier: Place | None = None
    earlier_job: str = ""
    later_jobs: tuple[str, ...] = ()
    also_open: tuple[str, ...] = ()
    worked_since: str = ""
    source: str
    edition: int = FIRST_EDITION
    promised_at: str | None = None
    document: dict[str, Any]
    steps_done: tuple[str, ...] = ()
    steps_by: dict[str, Place] = {}
    steps_skipped: dict[str, str] = {}
    gates_signed: dict[str, Signed] = {}
    signed_for: dict[str, dict[str, Any]] = {}
    voided: dict[str, Voided] = {}
    glued_at: str | None = None
    glued_temperature: str | None = None
    glued: Signed | None = None
    mixes: tuple[Mix, ...] = ()
    made_mixes: dict[Place, Mix] = {}
    bad_mixes: dict[Place, BadMix] = {}
    butt_trims: tuple[str, ...] = ()
    tip_trimmed: bool = False
    tapes_laid: tuple[str, ...] = ()
    gripped: bool = False
    angles_bent: tuple[str, ...] = ()
    head_was: dict[str, str] = {}
    accepted: dict[str, Accepted] = {}
    finished: Signed | None = None
    trail: tuple[TrailLine, ...] = ()

    @property
    def order(self) -> OrderWords:
        """What its order says in words: whose club, which, what work, by when."""
        return order_of(self.document)

    @property
    def parts(self) -> KnownClub:
        """The parts of its club, of which only the words are read: what each is called, of which family and lot."""
        return parts_of(self.document, f"ticket {self.id}")

    @property
    def title(self) -> str:
        """Label and player, as its ticket says them."""
        return ", ".join(filter(None, (self.order.label, self.order.player)))

    def as_signed(self, gate: str) -> Job:
        """Return the job with the order that a gate was signed for, where it was changed since; all else is as it is now."""
        then = self.signed_for.get(gate, {})
        tables = {name: table for name, table in self.document.items() if name not in then}
        tables |= {name: table for name, table in then.items() if table is not None}
        return msgspec.structs.replace(self, document=tables)

    @property
    def closed_earlier(self) -> bool:
        """True where the joint was closed earlier than that was written: its cure rests on a person's word."""
        return self.glued is not None and self.glued_at is not None and self.glued_at < self.glued.at

    def last_standing_line(self) -> TrailLine:
        """Return the line of the last fact that an undo would reverse; the ticket and undos are left alone.

        Raises:
            RecordError: when nothing stands but the ticket.
        """
        for line in reversed(self.trail):
            if not line.undone and line.kind not in ("ticket taken", "undone", "club came back"):
                return line
        raise RecordError(f"nothing to undo on job {self.id}: only its ticket stands")

    def since_glued(self) -> tuple[TrailLine, ...]:
        """Return the lines that stand behind the one by which the joint was closed; all that stand while it is open.

        Not the clock says what came later, but the trail: a clock may have been set right in between.
        """
        standing = [line for line in self.trail if not line.undone]
        glued = [at for at, line in enumerate(standing) if line.kind == "glued"] if self.glued_at is not None else []
        return tuple(standing[glued[-1] + 1 :] if glued else standing)

    def mixed_since_glued(self) -> int:
        """Return how many mixes are on the record that the joint, where it is closed, cannot have been closed with."""
        return sum(line.kind in ("adhesive mixed", "mix taken") for line in self.since_glued())


class BrokenJob(msgspec.Struct, frozen=True, kw_only=True):
    """A job whose state is not known: a fact of it is damaged, or contradicts the others.

    Attributes:
        id: Name that it goes by.
        place: The fact that its ticket was taken by; number 0 where that cannot be read.
        numbers: Every ticket number that it had.
        label: What its ticket called the club; empty where that cannot be read.
        player: Whose it is; likewise.
        findings: What is wrong.
    """

    id: str
    place: Place = ("", 0)
    numbers: tuple[str, ...] = ()
    label: str = ""
    player: str = ""
    findings: tuple[Finding, ...]

    @property
    def title(self) -> str:
        """Label and player."""
        return ", ".join(text for text in (self.label, self.player) if text)


class Shop(msgspec.Struct, frozen=True, kw_only=True):
    """Every job of the record, by the name it goes by, in the order the tickets came in.

    Attributes:
        jobs: Those whose state is known.
        broken: Those whose state is not; every list names them beside the others.
        findings: What is damaged in the record without anybody knowing which jobs it touches.
    """

    jobs: dict[str, Job] = {}
    broken: dict[str, BrokenJob] = {}
    findings: tuple[Finding, ...] = ()

    @property
    def numbers(self) -> tuple[str, ...]:
        """Every ticket number that was given away."""
        every: list[Job | BrokenJob] = [*self.jobs.values(), *self.broken.values()]
        return tuple(dict.fromkeys(number for job in every for number in job.numbers))

    def job(self, job: str) -> Job:
        """Return one job.

        Args:
            job: Its ticket number, or the name that it goes by where several had that number.

        Raises:
            NotInRecord: when the record has no such ticket.
            RecordError: when its state is not known, with every finding; when several jobs may be meant.
        """
        every: list[Job | BrokenJob] = [*self.jobs.values(), *self.broken.values()]
        found = [each for each in every if is_named(job, each.numbers, each.place)]
        if len(found) > 1:
            raise which_is_meant(job, [(each.id, each.title) for each in found])
        if not found:
            some = ", ".join(list(self.jobs)[-5:]) or "none yet"
            raise NotInRecord(f'the record has no ticket "{job}"; the latest: {some}')
        chosen = found[0]
        if isinstance(chosen, BrokenJob):
            raise RecordError("\n".join(finding.sentence() for finding in chosen.findings))
        return chosen
