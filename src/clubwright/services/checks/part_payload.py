"""What a fact about a part must say, whatever the job."""

from __future__ import annotations

from clubwright.errors import DocumentPlace, Finding
from clubwright.journal.facts import PartChanged
from clubwright.services.checks.order_findings import WHO, said_findings
from clubwright.services.checks.usual_gauge import gauge_findings

OWN_ACTION = {("shaft", "cut_length"): "cut", ("weight", "fitted"): "fit"}
"""What is not set as a figure of a part: it has a bench action with a gate or a check of its own."""

REPLACED = ("head", "shaft", "grip")
"""Parts that another one of may take the place of."""


def part_findings(what: PartChanged) -> list[Finding]:
    """Return what is wrong with what was measured of a part, or with another one in its place, the job aside."""
    found = _unsaid(what)
    if what.another is True and what.section not in REPLACED:
        mend = f"Of these: {', '.join(REPLACED)}."
        return [
            Finding(where=DocumentPlace(what.section), what="another one of it is not told apart", mend=mend),
            *found,
        ]
    if not what.values and what.another is not True:
        mend = 'Give name=value, such as "mass=49.6 g".'
        return [Finding(where=DocumentPlace(what.section), what="nothing to change", mend=mend), *found]
    found += [
        Finding(
            where=DocumentPlace(what.section, (name,)),
            what="is not set by hand",
            mend=f"Use `clubwright {OWN_ACTION[place]}`.",
        )
        for name in what.values
        if (place := (what.section, name)) in OWN_ACTION
    ]
    return [*found, *gauge_findings(what)]


def _unsaid(what: PartChanged) -> list[Finding]:
    """Ask who said that another part is in its place, and why; a fact from before that was asked says neither."""
    said = [text for text in (what.said_by, what.reason) if isinstance(text, str)]
    if not said:
        return []
    if what.another is not True:
        mend = "Leave it out; or say that it is another one."
        return [Finding(where=WHO, what="that is said of another part in its place only", mend=mend)]
    return said_findings(*(text if isinstance(text, str) else "" for text in (what.said_by, what.reason)))
