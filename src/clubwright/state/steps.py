"""The register of steps: every step that a plan may have, in the order of work.

To add a step: add one entry here, at its place, in a new edition of the plan (`since`); write how it reads in a module of
`clubwright.planning`, and list that in `MAKERS` (`clubwright.planning.steps.plan`). Plan, record, shop's minutes, page and
drawing take the rest from here.
"""

from __future__ import annotations

from clubwright.state.step import Job, StepSpec

ASSEMBLY: frozenset[Job] = frozenset({"build", "reshaft"})
ASSEMBLED_ANEW: frozenset[Job] = frozenset({"reshaft", "regrip"})
EVERY: frozenset[Job] = frozenset({"build", "reshaft", "regrip", "loft-lie", "weight"})

_ENTRIES = (
    StepSpec(
        key="pull",
        meaning="take out the parts and look at them beside the ticket",
        minutes="5 min",
        jobs=EVERY,
        anew_with=frozenset({"head", "shaft", "grip"}),
        aims_at=("ticket.hand",),
        form="pull",
        may_skip=False,
    ),
    StepSpec(
        key="as it came",
        meaning="read the club as it came in",
        minutes="5 min",
        jobs=frozenset({"reshaft"}),
        form="read as it came",
    ),
    StepSpec(
        key="pull head",
        meaning="take the head off, fumes aired",
        minutes="10 min",
        jobs=frozenset({"reshaft"}),
        form="pull head",
        takes_apart=frozenset({"reshaft"}),
    ),
    StepSpec(
        key="clean bore",
        meaning="clean the bore",
        minutes="5 min",
        jobs=frozenset({"reshaft"}),
        anew_by=("head pulled",),
        takes_apart=frozenset({"reshaft"}),
    ),
    StepSpec(
        key="weigh",
        meaning="weigh the parts",
        minutes="5 min",
        jobs=ASSEMBLY | {"regrip", "weight"},
        anew_with=frozenset({"head", "shaft", "grip"}),
        form="weigh",
    ),
    StepSpec(
        key="strip grip",
        meaning="take the old grip and its tape off",
        minutes="5 min",
        jobs=frozenset({"regrip"}),
        form="strip grip",
        takes_apart=frozenset({"regrip"}),
    ),
    StepSpec(
        key="head check",
        meaning="measure loft, lie and bore of the head",
        minutes="6 min",
        jobs=ASSEMBLY | {"loft-lie"},
        anew_with=frozenset({"head"}),
        form="head check",
    ),
    StepSpec(
        key="bore to ground",
        meaning="find the bore's bottom above the ground",
        minutes="4 min",
        jobs=ASSEMBLY,
        anew_with=frozenset({"head"}),
        form="bore",
    ),
    StepSpec(
        key="loft and lie",
        meaning="bend and measure again",
        minutes="10 min",
        jobs=ASSEMBLY | {"loft-lie"},
        or_behind="grip",
        completed_by=("head bent",),
        anew_with=frozenset({"head"}),
        steers="bends",
        headline="each bend and its direction",
        gate="release",
        form="bend",
    ),
    StepSpec(
        key="tip trim",
        meaning="trim the tip",
        minutes="4 min",
        jobs=ASSEMBLY,
        completed_by=("shaft trimmed",),
        anew_with=frozenset({"shaft"}),
        gate="cut",
        headline="what comes off the tip",
        form="trim",
        may_skip=False,
    ),
    StepSpec(
        key="tip prep",
        meaning="prepare the tip for the joint",
        minutes="5 min",
        jobs=ASSEMBLY,
        anew_by=("head pulled",),
        anew_with=frozenset({"shaft"}),
    ),
    StepSpec(
        key="ferrule",
        meaning="set the ferrule",
        minutes="3 min",
        jobs=ASSEMBLY,
        anew_by=("head pulled",),
        anew_with=frozenset({"shaft"}),
    ),
    StepSpec(
        key="dry fit",
        meaning="fit the joint dry",
        minutes="3 min",
        jobs=ASSEMBLY,
        anew_by=("head pulled",),
        anew_with=frozenset({"head", "shaft"}),
        headline="the bond line",
        form="dry fit",
        takes_apart=frozenset({"reshaft"}),
        brings="ferrule",
    ),
    StepSpec(
        key="mark and cut",
        meaning="mark, sign and cut to length",
        minutes="8 min",
        jobs=ASSEMBLY,
        completed_by=("shaft cut",),
        anew_with=frozenset({"shaft"}),
        aims_at=("target.length", "target.length_method", "base.length"),
        only_before="gripped",
        gate="cut",
        uses_up_gate=True,
        headline="the mark",
        form="cut",
        takes_apart=frozenset({"reshaft"}),
    ),
    StepSpec(
        key="tape",
        meaning="weigh and lay the tape",
        minutes="4 min",
        jobs=ASSEMBLY | {"regrip"},
        steers="tapes",
        only_before="gripped",
        form="tape",
        takes_apart=frozenset({"regrip"}),
        brings="tape",
    ),
    StepSpec(
        key="dry reading",
        meaning="read the club dry",
        minutes="5 min",
        jobs=ASSEMBLY,
        anew_with=frozenset({"head", "shaft", "grip"}),
        form="read dry",
    ),
    StepSpec(
        key="choose weight",
        meaning="choose and fit weight",
        minutes="5 min",
        jobs=ASSEMBLY | {"weight"},
        anew_with=frozenset({"head", "shaft"}),
        steers="weights",
        headline="the grams needed at the head",
        only_before="glued_at",
        form="weights",
    ),
    StepSpec(
        key="mix",
        meaning="weigh and stir the adhesive",
        minutes="4 min",
        jobs=ASSEMBLY,
        completed_by=("adhesive mixed", "mix taken"),
        anew_by=("head pulled",),
        anew_with=frozenset({"head", "shaft"}),
        aims_at=("adhesive.name",),
        headline="both parts of the mix",
        form="mix",
        may_skip=False,
    ),
    StepSpec(
        key="glue",
        meaning="glue the head on",
        minutes="4 min",
        jobs=ASSEMBLY,
        completed_by=("glued",),
        anew_by=("head pulled",),
        anew_with=frozenset({"head", "shaft"}),
        gate="glue",
        uses_up_gate=True,
        headline="the depth of the bore",
        form="glue",
        may_skip=False,
        takes_apart=frozenset({"reshaft"}),
        brings="ferrule",
    ),
    StepSpec(
        key="cure",
        meaning="wait for the joint, where the adhesive's sheet gives no time",
        minutes="24 h",
        jobs=ASSEMBLY,
        anew_by=("glued", "head pulled"),
        anew_with=frozenset({"head", "shaft"}),
        headline="when it is cured and may be hit",
        form="cure",
        may_skip=False,
        waits=True,
    ),
    StepSpec(
        key="ferrule finish",
        meaning="turn the ferrule to the hosel",
        minutes="6 min",
        jobs=ASSEMBLY,
        anew_by=("head pulled",),
        anew_with=frozenset({"head", "shaft"}),
    ),
    StepSpec(
        key="grip",
        meaning="put the grip on",
        minutes="6 min",
        jobs=ASSEMBLY | {"regrip"},
        completed_by=("gripped",),
        anew_with=frozenset({"grip"}),
        headline="what the new grip moves",
        form="grip",
        may_skip=False,
        takes_apart=ASSEMBLED_ANEW,
        brings="grip",
    ),
    StepSpec(
        key="inspect",
        meaning="read the finished club",
        minutes="8 min",
        jobs=EVERY,
        anew_by=("head pulled",),
        anew_with=frozenset({"head", "shaft", "grip"}),
        aims_at=("target", "base", "tolerance"),
        gate="release",
        form="inspect",
        settles=True,
    ),
    StepSpec(
        key="tag",
        meaning="print the tag and close the job",
        minutes="3 min",
        jobs=EVERY,
        completed_by=("finished",),
        gate="release",
        form="tag",
        may_skip=False,
        settles=True,
    ),
)

STEPS: dict[str, StepSpec] = {entry.key: entry for entry in _ENTRIES}

EDITION: int = max(entry.since for entry in _ENTRIES)
"""The edition of the plan that a job gets when its ticket is taken in. It keeps it: a step that a later one adds is not
asked of a club that is half-built."""

WAITING: frozenset[str] = frozenset(entry.key for entry in _ENTRIES if entry.waits)
SETTLING: frozenset[str] = frozenset(entry.key for entry in _ENTRIES if entry.settles)

USED_UP_BY: dict[str, str] = {entry.gate: entry.key for entry in _ENTRIES if entry.gate and entry.uses_up_gate}
"""Gate to the step with which its signature has served: nothing rests on it any more, until that step is to do again."""


def apart_after(job: str) -> frozenset[str]:
    """Return the steps after any of which the parts that a club came in with are off, in a kind of work."""
    return frozenset(key for key, entry in STEPS.items() if job in entry.takes_apart)
