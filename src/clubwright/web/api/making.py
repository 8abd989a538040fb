"""What the JSON interface takes for work on the club."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from clubwright.web.api.base import DoneAt, Note, Taken, Text

Measured = Annotated[
    str | None,
    Field(max_length=80, description="What measured it, by its name on the ticket; the usual one when left out."),
]


class TrimIn(Taken):
    """A length came off one end before the cut."""

    end: Literal["tip", "butt"]
    amount: Text


class CutIn(Taken):
    """The shaft was cut; its length as measured after it, and its mass and balance then where they were."""

    cut_length: Text
    cut_mass: Text | None = None
    cut_balance_from_tip: Text | None = None
    mass_gauge: Measured = None
    balance_gauge: Measured = None
    short: Annotated[bool, Field(description="It is far short of its mark, and measured again.")] = False
    done_at: DoneAt = None


class BendIn(Taken):
    """The angles as measured after a bend; those not measured are left out."""

    loft: Text | None = None
    lie: Text | None = None
    bounce: Text | None = None
    done_at: DoneAt = None


class TapeIn(Taken):
    """All that is on now of one kind of tape."""

    name: Text
    layers: Text
    mass: Text
    gauge: Measured = None


class MixIn(Taken):
    """A batch of adhesive, as weighed."""

    part_a: Text
    part_b: Text
    temperature: Text
    batch: Note = ""
    done_at: DoneAt = None


class GlueIn(Taken):
    """The joint is closed; it cures at this temperature from when that was done."""

    temperature: Text
    done_at: DoneAt = None


class GripIn(Taken):
    """The grip is on for good."""

    done_at: DoneAt = None
