"""Steps of the plan as the interface for programs gives them: their words, and their data beside."""

from __future__ import annotations

import msgspec

from clubwright.planning.steps.types import Step
from clubwright.web.api.models import StepOut
from clubwright.words.step import say_step


def step_out(step: Step) -> StepOut:
    """Return one step, in the canonical words."""
    said = say_step(step, None)
    fields = msgspec.to_builtins(said)
    del fields["waits"]
    return StepOut.model_validate({**fields, "what": list(said.sentences)})
