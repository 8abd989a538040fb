"""An entry of the register of bench actions: what an action takes, who does it, what it writes, where it is asked for."""

from __future__ import annotations

from typing import Literal

import msgspec

Decides = Literal["the job", "a new job", "jobs of one club", "the job that mixed", "jobs of one action", "every job"]
"""Which jobs an action is decided on: what another bench writes of these in between has it tried anew."""
Touches = Literal["gauge", "lot", "part", "player"]
"""What its facts name beside the job and the person, and the record can be asked for by."""


class Action(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is done at the bench.

    Attributes:
        key: Its name in this register, and its command.
        says: What it does, in a sentence for a list.
        more: The same with what is worth knowing first; empty where that is all.
        payload: What a person gives.
        function: Who does it, as ``module:function``; called with a session, the payload's fields, and an idempotency key.
        writes: Kinds of facts that it writes, as stored.
        undoes: Kinds of facts that it reverses and nothing else; so it needs the role of these.
        decides: The jobs that it is decided on.
        touches: What its facts name beside.
        completes: Step of the plan that it ticks once nothing that the step needs is missing; a step that a fact completes
            by itself is not said here (`clubwright.services.actions.register.facets.steps_of`).
        once: When it ticks that step, where the last of several actions does: ``module:function`` of the job; always when
            empty.
        names_step: Whether the payload's ``step`` names the step that it ticks.
        cautions: What can hurt, to be shown before, as ``module:function`` of the job; empty where its step says it.
        answers: The struct that a program is answered with, as ``module:class``.
        route: Where a program posts it, behind ``/api``.
        command: Whether the command line has it under its key with nothing more to do than to read its words.
    """

    key: str
    says: str
    more: str = ""
    payload: type[msgspec.Struct]
    function: str
    writes: tuple[str, ...]
    undoes: tuple[str, ...] = ()
    decides: Decides = "the job"
    touches: tuple[Touches, ...] = ()
    completes: str = ""
    once: str = ""
    names_step: bool = False
    cautions: str = ""
    answers: str = "clubwright.services.told.kept:KeptAnswer"
    route: str
    command: bool = True

    @property
    def on_a_job(self) -> bool:
        """Whether it is done on a job that is there."""
        return "job" in self.payload.__struct_fields__


JOB = "/jobs/{job}"
"""Where a program asks for what is on a job."""
