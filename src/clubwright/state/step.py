"""One step of the plan: everything that any part of the program has to know about it but how it reads.

The steps themselves are listed in `clubwright.state.steps`; lists that other modules need are made there. What a step says
for one club is made in `clubwright.planning`, what it leaves behind is looked for in `clubwright.services.jobs.step_needs`.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.club.quantity import Steered

Job = Literal["build", "reshaft", "regrip", "loft-lie", "weight"]
Drawn = Literal["shaft", "head", "ferrule", "tape", "grip"]
Replaced = Literal["head", "shaft", "grip"]

FIRST_EDITION = 1
"""Edition of the plan of every job that was taken in before plans had one."""


class StepSpec(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the plan. Its place in a plan is its place in the register.

    Attributes:
        key: Its name; the record stores it, so none is ever renamed.
        meaning: What its time is for, in a few words.
        minutes: How long it takes where the shop does not say (estimates of ours, common practice, no source).
        jobs: Kinds of work whose plan has it.
        or_behind: Another step that it comes behind where it need not come in its own place; empty where it has one place.
        since: Edition of the plan that brought it.
        until: The last edition that has it; None while the newest has.
        completed_by: Kinds of facts, each of which completes it, by their stored words; where there is none, it is done when
            a person says so.
        anew_by: Kinds of facts after which it is to do again.
        anew_with: Parts that were looked at, measured or worked on in it: with another one it is to do again.
        aims_at: Tables (``target``) and figures (``target.length``) of the order: when one changes, it is to do again.
        steers: It aims at the targets that are steered so, likewise.
        only_before: What ends that: a gripped club is not cut, nor is a closed joint weighted.
        gate: The gate that it may have to wait for.
        uses_up_gate: Whether the signature of that gate has served with it.
        headline: The figure to act on that its card shows to be read from two metres; empty where it has none.
        form: The form of its card; ``tick`` where it is only ticked.
        may_skip: Whether a person may pass it over, saying what is left out.
        waits: Whether the club waits in it and the hands are free.
        settles: Whether what stands open of the targets has to be answered for in it.
        takes_apart: Kinds of work in which the parts that the club came in with are off after it.
        brings: The last part that is on the club after it, as it is drawn; None where it puts nothing on.
    """

    key: str
    meaning: str
    minutes: str
    jobs: frozenset[Job]
    or_behind: str = ""
    since: int = FIRST_EDITION
    until: int | None = None
    completed_by: tuple[str, ...] = ()
    anew_by: tuple[str, ...] = ()
    anew_with: frozenset[Replaced] = frozenset()
    aims_at: tuple[str, ...] = ()
    steers: Steered | None = None
    only_before: Literal["gripped", "glued_at"] | None = None
    gate: Literal["cut", "glue", "release"] | None = None
    uses_up_gate: bool = False
    headline: str = ""
    form: str = "tick"
    may_skip: bool = True
    waits: bool = False
    settles: bool = False
    takes_apart: frozenset[Job] = frozenset()
    brings: Drawn | None = None

    def in_edition(self, edition: int) -> bool:
        """True where plans of an edition have it."""
        return self.since <= edition and (self.until is None or edition <= self.until)
