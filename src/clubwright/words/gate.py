"""What keeps a gate closed, or a step from being done, in words."""

from __future__ import annotations

from clubwright.errors import ClauseFinding, Finding, Severity, Where, clause_finding
from clubwright.notation import UnitsShown, units_shown
from clubwright.planning.gates.types import Check, Lack
from clubwright.planning.said.findings import SaidFinding
from clubwright.planning.said.phrases import Value, Word
from clubwright.words.say import on_page, say, sentence, spoken


def lack_of(check: Check, style: UnitsShown | None) -> Lack:
    """Say what is wrong by a check that is not met, for whom it keeps from going on."""
    return Lack(
        where=say(Word("check", check.key), style),
        what=say(check.what, style),
        mend=sentence(say(check.mend, style)),
        short=say(check.short, style),
    )


def told_clause(where: str, what: Value, clause: Value, severity: Severity = "error") -> ClauseFinding:
    """Say a finding whose mend is one clause, as it is shown just now."""
    style = units_shown()
    return clause_finding(where, say(what, style), say(clause, style), severity)


def told(where: Where, what: Value, mend: Value, severity: Severity = "error") -> Finding:
    """Say a finding as it is shown just now; its mend is a clause of a gate."""
    style = units_shown()
    return Finding(where=where, what=say(what, style), mend=sentence(say(mend, style)), severity=severity)


def said_at(finding: Finding) -> str:
    """Say a finding with its place in a line, as it is shown just now; a place in a document is its key."""
    if isinstance(finding, SaidFinding):
        return say(finding.said, units_shown())
    return on_page("alarm", where=spoken("place", str(finding.where)), what=finding.what, mend=finding.mend)
