"""What a fact about a part must say, whatever the job."""

from __future__ import annotations

from clubwright.errors import DocumentPlace, Finding
from clubwright.journal.facts import PartChanged
from clubwright.services.checks.usual_gauge import gauge_findings

OWN_ACTION = {("shaft", "cut_length"): "cut", ("weight", "fitted"): "fit"}
"""What is not set as a figure of a part: it has a bench action with a gate or a check of its own."""

REPLACED = ("head", "shaft", "grip")
"""Parts that another one of may take the place of."""


def part_findings(what: PartChanged) -> list[Finding]:
    """Return what is wrong with what was measured of a part, or with another one in its place, the job aside."""
    another = what.another is True
    if another and what.section not in REPLACED:
        mend = f"Of these: {', '.join(REPLACED)}."
        return [Finding(where=DocumentPlace(what.section), what="another one of it is not told apart", mend=mend)]
    if not what.values and not another:
        mend = 'Give name=value, such as "mass=49.6 g".'
        return [Finding(where=DocumentPlace(what.section), what="nothing to change", mend=mend)]
    return [
        Finding(
            where=DocumentPlace(what.section, (name,)),
            what="is not set by hand",
            mend=f"Use `clubwright {OWN_ACTION[place]}`.",
        )
        for name in what.values
        if (place := (what.section, name)) in OWN_ACTION
    ] + gauge_findings(what)
