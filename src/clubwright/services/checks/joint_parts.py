"""What may be recorded of a bore and a hosel: a crack does not heal, and a bore that was reamed is measured again."""

from __future__ import annotations

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.journal.facts import PartChanged
from clubwright.journal.job import Job
from clubwright.notation import parse
from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.state.parts import HeadPart


def wrong_joint_part(job: Job, what: PartChanged) -> list[Finding]:
    """Return what cannot be so about a change of the head; nothing where it is another head."""
    if what.section != "head" or what.another is True:
        return []
    ticket = ticket_or_none(job)
    return [] if ticket is None else [*_healed(ticket.club.head, what.values), *_reamed(ticket.club.head, what.values)]


def _healed(before: HeadPart, values: dict[str, str]) -> list[Finding]:
    if before.hosel != "cracked" or values.get("hosel", "cracked") == "cracked":
        return []
    mend = (
        "A crack does not heal: record another head in its place (`measure JOB head --another --said-by NAME "
        "--reason WHY ...`), or undo the line if the hosel was not cracked."
    )
    return [Finding(where=DocumentPlace("head", ("hosel",)), what="this head was found cracked", mend=mend)]


def _reamed(before: HeadPart, values: dict[str, str]) -> list[Finding]:
    """A reamed bore has a new diameter, and it is no smaller."""
    if values.get("bore_reamed") != "yes":
        return []
    new, old = values.get("bore_diameter"), before.bore_diameter
    if not new:
        mend = "Measure it over its whole depth, and give bore_diameter with it."
        return [
            Finding(
                where=DocumentPlace("head", ("bore_diameter",)),
                what="a bore that was reamed is not measured again",
                mend=mend,
            )
        ]
    if old is None:
        return []
    try:
        now = parse("diameter", new, where=DocumentPlace("head", ("bore_diameter",))).value
    except InputError as refused:
        return list(refused.findings)
    if now < old.value:
        mend = "Measure again; if the first figure was wrong, put that right first."
        return [
            Finding(
                where=DocumentPlace("head", ("bore_diameter",)),
                what=f"reamed from {old.typed} to {new}: a bore grows",
                mend=mend,
            )
        ]
    return []
