"""A job while its facts are laid on, one after the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from clubwright.errors import RecordError
from clubwright.journal.facts import ClubSaid, Place, TicketTaken
from clubwright.journal.job import Accepted, Job, Signed, TrailLine, Voided
from clubwright.journal.mixes import BadMix, Mix
from clubwright.journal.reducers.club_document import taken_over
from clubwright.state.step import FIRST_EDITION
from clubwright.ticket.fields.fields import CUT_JOBS
from clubwright.ticket.order_paths import table_of

LISTS = ("weight", "tape", "old_tape")
"""Tables of the ticket that come several times and whose entries go by name."""


class JobBuilder:
    """A job while its facts are laid on.

    Args:
        ticket: The standing ticket.
        decided: For each reading's place, what a person decided last.
        said: What a person said later of the club that it works on; None where nobody did.
    """

    def __init__(self, ticket: TicketTaken, decided: Mapping[Place, bool], said: ClubSaid | None = None) -> None:
        self.id = ticket.job
        self.source = ticket.source
        self.edition = ticket.edition if isinstance(ticket.edition, int) else FIRST_EDITION
        self.promised_at: str | None = None
        self.document: dict[str, Any] = _begun(ticket, said)
        self.decided = decided
        self.steps_done: list[str] = []
        self.steps_by: dict[str, Place] = {}
        self.steps_skipped: dict[str, str] = {}
        self.gates_signed: dict[str, Signed] = {}
        self.signed_for: dict[str, dict[str, Any]] = {}
        self.voided: dict[str, Voided] = {}
        self.glued_at: str | None = None
        self.glued_temperature: str | None = None
        self.glued: Signed | None = None
        self.mixes: list[Mix] = []
        self.made_mixes: dict[Place, Mix] = {}
        self.bad_mixes: dict[Place, BadMix] = {}
        self.butt_trims: list[str] = []
        self.tip_trimmed = False
        self.tapes_laid: list[str] = []
        self.gripped = False
        self.angles_bent: list[str] = []
        self.head_was: dict[str, str] = {}
        self.accepted: dict[str, Accepted] = {}
        self.finished: Signed | None = None

    def table(self, name: str) -> dict[str, Any]:
        """Return one table of the document, made when it is not there."""
        found = self.document.setdefault(name, {})
        if not isinstance(found, dict):
            raise RecordError(f"[{name}] of ticket {self.id} is no table: put the ticket right before this")
        return found

    def rows(self, name: str) -> list[dict[str, Any]]:
        """Return one list of tables of the document, made when it is not there."""
        found = self.document.setdefault(name, [])
        if not isinstance(found, list) or not all(isinstance(row, dict) for row in found):
            raise RecordError(f"[[{name}]] of ticket {self.id} is no list of tables: put the ticket right before this")
        return found

    def entry(self, name: str, entry: str) -> dict[str, Any]:
        """Return the entry of a list of tables that goes by a name, made when it is not there."""
        rows = self.rows(name)
        for row in rows:
            if row.get("name") == entry:
                return row
        rows.append({"name": entry})
        return rows[-1]

    def section(self, section: str, entry: str | None) -> dict[str, Any]:
        """Return the table of a section such as ``grip`` or ``instrument.NAME``, of a list that of an entry."""
        outer, inner = table_of(section)
        if outer in LISTS:
            if not entry:
                raise RecordError(f"which {outer}? Give its name with the values")
            return self.entry(outer, entry)
        table = self.table(outer)
        if inner:
            table = table.setdefault(inner, {})
            if not isinstance(table, dict):
                raise RecordError(f"[{section}] of job {self.id} is a list: change it in the ticket's file")
        return table

    @property
    def is_cut_here(self) -> bool:
        """True for work in which the shaft is cut; at any other the club came with its shaft cut."""
        ticket = self.document.get("ticket")
        return isinstance(ticket, dict) and ticket.get("job", "build") in CUT_JOBS

    def club_changed(self) -> None:
        """Mark what was accepted so far as accepted of the club before a change."""
        for quantity, item in self.accepted.items():
            self.accepted[quantity] = msgspec.structs.replace(item, club_changed=True)

    def order_changes(self, tables: Iterable[str]) -> None:
        """Keep what a signature was given for, before tables of the order change under it."""
        for gate in self.gates_signed:
            then = self.signed_for.setdefault(gate, {})
            for table in tables:
                then.setdefault(table, own_copy(self.document.get(table)))

    def sign(self, gate: str, signature: Signed) -> None:
        """Keep a signature: it is given for the order as it is now."""
        self.gates_signed[gate] = signature
        self.signed_for.pop(gate, None)
        self.voided.pop(gate, None)

    def void(self, gates: Iterable[str], why: str) -> None:
        """Take signatures away, and keep whose they were and why they no longer hold."""
        for gate in gates:
            signature = self.gates_signed.pop(gate, None)
            self.signed_for.pop(gate, None)
            if signature is not None:
                self.voided[gate] = Voided(signed=signature, why=why)

    def another_part(self, section: str) -> None:
        """Forget what was done to a part that is no longer in hand: its bends, trims and joint, and what was signed."""
        if section == "head":
            self.head_was = {}
            self.angles_bent = []
            for row in self.rows("weight") if "weight" in self.document else []:
                if row.get("seat") != "butt" and "fitted" in row:
                    row["fitted"] = "0"
        if section == "shaft":
            self.butt_trims = []
            self.tip_trimmed = False
        if section in ("head", "shaft"):
            if self.glued_at is not None:
                self.mixes = []
            self.glued_at = self.glued_temperature = self.glued = None
            self.void(tuple(self.gates_signed), f"another {section} is in its place")

    def complete(self, step: str, by: Place, *, skipped: str | None = None) -> None:
        """Mark a step done by the fact at a place; one that was passed over is, with what was left out."""
        if step not in self.steps_done:
            self.steps_done.append(step)
        self.steps_by[step] = by
        self.steps_skipped.pop(step, None)
        if skipped is not None:
            self.steps_skipped[step] = skipped

    def open_step(self, step: str) -> None:
        """Take back that a step is done."""
        self.steps_by.pop(step, None)
        self.steps_skipped.pop(step, None)
        if step in self.steps_done:
            self.steps_done.remove(step)

    def job(self, trail: tuple[TrailLine, ...]) -> Job:
        """Return the job as it stands after the facts laid on so far."""
        return Job(
            id=self.id,
            source=self.source,
            edition=self.edition,
            promised_at=self.promised_at,
            document=self.document,
            steps_done=tuple(self.steps_done),
            steps_by=self.steps_by,
            steps_skipped=self.steps_skipped,
            gates_signed=self.gates_signed,
            signed_for=self.signed_for,
            voided=self.voided,
            glued_at=self.glued_at,
            glued_temperature=self.glued_temperature,
            glued=self.glued,
            mixes=tuple(self.mixes),
            made_mixes=self.made_mixes,
            bad_mixes=self.bad_mixes,
            butt_trims=tuple(self.butt_trims),
            tip_trimmed=self.tip_trimmed,
            tapes_laid=tuple(self.tapes_laid),
            gripped=self.gripped,
            angles_bent=tuple(self.angles_bent),
            head_was=self.head_was,
            accepted=self.accepted,
            finished=self.finished,
            trail=trail,
        )


def _begun(ticket: TicketTaken, said: ClubSaid | None) -> dict[str, Any]:
    """Return the document that a job begins with: its ticket, laid over the club as the job before left it."""
    as_left = ticket.as_left if said is None else said.as_left
    document: dict[str, Any] = own_copy(ticket.document)
    if said is not None:
        document["ticket"]["club"] = said.earlier_job
    if isinstance(as_left, msgspec.UnsetType):
        return document
    return {name: own_copy(content) for name, content in taken_over(as_left, document).items()}


def own_copy(value: Any) -> Any:
    """Copy plain data: tables and lists anew, what cannot change as it is."""
    if isinstance(value, Mapping):
        return {key: own_copy(content) for key, content in value.items()}
    if isinstance(value, list):
        return [own_copy(content) for content in value]
    return value
