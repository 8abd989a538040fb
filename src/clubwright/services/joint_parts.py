"""What may be recorded of a bore and a hosel: a crack does not heal, and a bore that was reamed is measured again."""

from __future__ import annotations

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import PartChanged
from clubwright.journal.job import Job
from clubwright.notation import parse


def wrong_joint_part(job: Job, what: PartChanged) -> list[Finding]:
    """Return what cannot be so about a change of the head; nothing where it is another head."""
    if what.section != "head" or what.another is True:
        return []
    head = job.document.get("head")
    before = head if isinstance(head, dict) else {}
    return [*_healed(before, what.values), *_reamed(before, what.values)]


def _healed(before: dict[str, str], values: dict[str, str]) -> list[Finding]:
    if before.get("hosel") != "cracked" or values.get("hosel", "cracked") == "cracked":
        return []
    mend = (
        "A crack does not heal: record another head in its place (`measure JOB head --another ...`), "
        "or undo the line if the hosel was not cracked."
    )
    return [Finding(where="[head] hosel", what="this head was found cracked", mend=mend)]


def _reamed(before: dict[str, str], values: dict[str, str]) -> list[Finding]:
    """A reamed bore has a new diameter, and it is no smaller."""
    if values.get("bore_reamed") != "yes":
        return []
    new, old = values.get("bore_diameter"), before.get("bore_diameter")
    if not new:
        mend = "Measure it over its whole depth, and give bore_diameter with it."
        return [Finding(where="[head] bore_diameter", what="a bore that was reamed is not measured again", mend=mend)]
    if old is None:
        return []
    try:
        was, now = (parse("diameter", text, where="[head] bore_diameter").value for text in (old, new))
    except InputError as refused:
        return list(refused.findings)
    if now < was:
        mend = "Measure again; if the first figure was wrong, put that right first."
        return [Finding(where="[head] bore_diameter", what=f"reamed from {old} to {new}: a bore grows", mend=mend)]
    return []
