"""How long each operation takes at this bench: the table ``[minutes]`` of the shop's settings, a key for each step.

Every figure that a shop does not give itself is an estimate of ours (common practice, no source). They plan a day; nothing
is released, and no gate is opened, by any of them.
"""

from __future__ import annotations

from clubwright.notation import parse
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.fields import Field, Section

LONGEST_S = 86400.0


def key_of(step: str) -> str:
    """Return the key of a step in the file: ``mark_and_cut`` for ``mark and cut``."""
    return step.replace(" ", "_")


MINUTES = Section(
    name="minutes",
    meaning="how long each operation takes here; the example is what is taken when it is left out",
    fields=tuple(
        Field(key=key_of(key), kind="duration", meaning=step.meaning, example=step.minutes)
        for key, step in STEPS.items()
    ),
)

USUAL_S: dict[str, float] = {key: parse("duration", step.minutes).value for key, step in STEPS.items()}
"""The same times in seconds, by step."""
