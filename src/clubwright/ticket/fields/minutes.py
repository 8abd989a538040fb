"""How long each operation takes at this bench: the table ``[minutes]`` of the shop's settings, a key for each step.

Every figure that a shop does not give itself is an estimate of ours (common practice, no source). They plan a day; nothing
is released, and no gate is opened, by any of them.
"""

from __future__ import annotations

from clubwright.notation import parse
from clubwright.ticket.fields.fields import Field, Section

OPERATIONS: dict[str, tuple[str, str]] = {
    "pull": ("pull the parts and look at them beside the ticket", "5 min"),
    "as it came": ("read the club as it came in", "5 min"),
    "strip grip": ("take the old grip and its tape off", "5 min"),
    "pull head": ("pull the head, fumes aired", "10 min"),
    "clean bore": ("clean the bore", "5 min"),
    "weigh": ("weigh the parts", "5 min"),
    "head check": ("measure loft, lie and bore of the head", "6 min"),
    "bore to ground": ("find the bore's bottom above the ground", "4 min"),
    "loft and lie": ("bend and measure again", "10 min"),
    "tip trim": ("trim the tip", "4 min"),
    "tip prep": ("prepare the tip for the joint", "5 min"),
    "ferrule": ("set the ferrule", "3 min"),
    "dry fit": ("fit the joint dry", "3 min"),
    "mark and cut": ("mark, sign and cut to length", "8 min"),
    "tape": ("weigh and lay the tape", "4 min"),
    "dry reading": ("read the club dry", "5 min"),
    "choose weight": ("choose and fit weight", "5 min"),
    "mix": ("weigh and stir the adhesive", "4 min"),
    "glue": ("close the joint", "4 min"),
    "cure": ("wait for the joint, where the adhesive's sheet gives no time", "24 h"),
    "ferrule finish": ("turn the ferrule to the hosel", "6 min"),
    "grip": ("put the grip on", "6 min"),
    "inspect": ("read the finished club", "8 min"),
    "tag": ("print the tag and close the job", "3 min"),
}
"""Each step of the plan: what its time is for, and the time taken where the shop does not say."""

LONGEST_S = 86400.0


def key_of(step: str) -> str:
    """Return the key of a step in the file: ``mark_and_cut`` for ``mark and cut``."""
    return step.replace(" ", "_")


MINUTES = Section(
    name="minutes",
    meaning="how long each operation takes here; the example is what is taken when it is left out",
    fields=tuple(
        Field(key=key_of(step), kind="duration", meaning=meaning, example=usual)
        for step, (meaning, usual) in OPERATIONS.items()
    ),
)

USUAL_S: dict[str, float] = {step: parse("duration", usual).value for step, (_, usual) in OPERATIONS.items()}
"""The same times in seconds, by step."""
