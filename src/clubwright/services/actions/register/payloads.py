"""What a person gives with each action on the club in hand; values stay the text that was typed, in trade notation."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

from clubwright.services.actions.register.fields import (
    LONGEST_NOTE,
    LONGEST_SITE,
    LONGEST_TIME,
    OF_THE_PATH,
    OF_THE_QUANTITY,
    OF_THE_SECTION,
    said,
)

DoneAt = Annotated[
    str | None,
    said('When it was done, where that was earlier: "9:40" today, or "2026-11-25 16:05".', longest=LONGEST_TIME),
]
Site = Annotated[
    str | None,
    said("Bench that wrote that number, where several share the record; yours when left out.", longest=LONGEST_SITE),
]
WHY = "Why, in your words; kept in the trail."
Why = Annotated[str, said(WHY, least=None, longest=LONGEST_NOTE)]
"""A reason that the record takes empty."""
Reason = Annotated[str, said(WHY, longest=LONGEST_NOTE, late=True)]
"""A reason that the record asks for."""
SaidBy = Annotated[str, said("Who said so: the player or the clubmaker.", late=True)]
BY_NAME = "by its name on the ticket; the usual one when left out."
WeighedBy = Annotated[str | None, said(f"What weighed it, {BY_NAME}", least=None, longest=LONGEST_SITE)]
ThenDone = Annotated[
    str | None, said("Step of the plan that is done with it; it is ticked once nothing that it needs is missing.")
]


class OnJob(msgspec.Struct, frozen=True, kw_only=True):
    """What every action on a job is given: the ticket number, or the name that the job goes by."""

    job: str


class Reading(OnJob, frozen=True, kw_only=True):
    """A gauge was read."""

    quantity: Annotated[
        str,
        said(
            "What was read: swing_weight, total_weight, length, grip.mass ...",
            first=True,
            label="what was read",
            example="swing_weight",
        ),
    ]
    value: Annotated[
        str, said("What the gauge showed.", first=True, label="reading", example="D3.8", notation=OF_THE_QUANTITY)
    ]
    stage: Annotated[
        str,
        said(
            '"as it came" (nothing off yet), "bare shaft", "dry, no grip" (no tape either), "dry, taped", '
            '"dry, gripped", "glued, no grip", or "finished".'
        ),
    ] = "finished"
    weights: Annotated[list[str] | None, said("Weights that were on; those fitted by the record when left out.")] = None
    instrument: Annotated[
        str | None, said("Gauge as named on the ticket; its usual one when left out.", option="gauge", page="gauge")
    ] = None
    repeats: Annotated[str, said("How many readings it is the mean of.")] = "1"
    clamp: Annotated[str | None, said("What the meter's clamp held, if not as usual.", notation="length")] = None
    done_at: DoneAt = None


class Decision(OnJob, frozen=True, kw_only=True):
    """A person decided about a reading that does not fit."""

    reading: Annotated[int, said("Number of the reading, as `clubwright trail` lists it.", first=True)]
    keep: Annotated[bool, said("Use it, or leave it out.", first=True, option="choice", choices=("keep", "leave"))]
    reason: Why = ""
    site: Site = None


class Fitted(OnJob, frozen=True, kw_only=True):
    """The weights that are on now: the whole list."""

    weights: Annotated[list[str], said("Names of all weights that are on now; none: all off.", first=True)]


class Measured(OnJob, frozen=True, kw_only=True):
    """What was measured of a part, or another part in its place."""

    section: Annotated[
        str, said("Table of the ticket: head, shaft, grip, ferrule, adhesive ...", first=True, example="head")
    ]
    values: Annotated[
        dict[str, str],
        said(
            "One or more name=value; an empty value takes the figure out.",
            least=None,
            first=True,
            example="mass=49.6 g",
            notation=OF_THE_SECTION,
        ),
    ]
    another: Annotated[bool, said("Another head, shaft or grip is in its place: forget the old one's figures.")] = False
    said_by: Annotated[str, said("Of another one: who said so, the player or the clubmaker.", least=None)] = ""
    reason: Annotated[str, said("Of another one: why, in your words.", least=None, longest=LONGEST_NOTE)] = ""
    gauge: Annotated[
        str | None,
        said(
            "What measured it, by its name on the ticket; the usual one when left out. Measuring again then adds; with an "
            'empty name ("") the value takes the place of what stood there.',
            least=None,
            longest=LONGEST_SITE,
        ),
    ] = None
    step: ThenDone = None


class Figures(OnJob, frozen=True, kw_only=True):
    """What was measured of several parts, all kept or none."""

    values: Annotated[
        dict[str, str],
        said(
            "One or more TABLE.KEY=value; an empty value takes the figure out.",
            least=None,
            first=True,
            example="head.mass=298.2 g",
            notation=OF_THE_PATH,
        ),
    ]
    gauges: Annotated[
        dict[str, str],
        said(
            "KIND=gauge for mass, length, diameter or angle, by its name on the ticket; the usual one for a kind that is "
            "left out.",
            least=None,
            longest=LONGEST_SITE,
        ),
    ] = msgspec.field(default_factory=dict)
    step: ThenDone = None


class Pulled(OnJob, frozen=True, kw_only=True):
    """The parts were pulled and looked at."""

    hand: Annotated[str, said("Hand of the head, as looked at: right or left.", first=True, label="hand of the head")]


class Trim(OnJob, frozen=True, kw_only=True):
    """A length came off one end of the shaft before the cut."""

    end: Annotated[Literal["tip", "butt"], said("tip or butt", first=True)]
    amount: Annotated[str, said("What came off.", first=True, label="trim", example="1/2 in", notation="length")]


class Cut(OnJob, frozen=True, kw_only=True):
    """The shaft was cut; its length as measured after it, and its mass and balance then where they were."""

    cut_length: Annotated[
        str,
        said(
            "Tip end to butt end, as measured after the cut.",
            first=True,
            label="length after the cut",
            example="35 1/4 in",
            notation="length",
        ),
    ]
    cut_mass: Annotated[str | None, said("Of the cut shaft, as weighed.", option="mass", notation="mass")] = None
    cut_balance_from_tip: Annotated[
        str | None, said("Of the cut shaft: its balance point, from the tip.", option="balance", notation="length")
    ] = None
    mass_gauge: WeighedBy = None
    balance_gauge: Annotated[
        str | None, said(f"What the balance was measured by, {BY_NAME}", least=None, longest=LONGEST_SITE)
    ] = None
    short: Annotated[bool, said("It is far short of its mark, and measured again.")] = False
    done_at: DoneAt = None


class Bend(OnJob, frozen=True, kw_only=True):
    """The angles as measured after a bend; those not measured are left out."""

    loft: Annotated[str | None, said("The loft as measured after the bend, in degrees.", notation="loft")] = None
    lie: Annotated[str | None, said("The lie as measured after the bend, in degrees.", notation="lie")] = None
    bounce: Annotated[str | None, said("The bounce as measured after the bend, in degrees.", notation="angle")] = None
    done_at: DoneAt = None


class Tape(OnJob, frozen=True, kw_only=True):
    """All that is on now of one kind of tape."""

    name: Annotated[str, said("Tape, as named on the ticket.", first=True)]
    layers: Annotated[str, said("How many layers are on now.", first=True, example="2", notation="number")]
    mass: Annotated[str, said("Of all its wraps together, as weighed.", first=True, example="2.8 g", notation="mass")]
    gauge: WeighedBy = None


class Mixed(OnJob, frozen=True, kw_only=True):
    """A batch of adhesive, as weighed."""

    part_a: Annotated[
        str, said("Weight of part A, as weighed.", first=True, label="part A", example="4.0 g", notation="mass")
    ]
    part_b: Annotated[
        str, said("Weight of part B, as weighed.", first=True, label="part B", example="2.0 g", notation="mass")
    ]
    temperature: Annotated[
        str, said("At the bench.", label="bench temperature", example="22 C", notation="temperature")
    ]
    batch: Annotated[str, said("Lot number on the packs.", least=None, longest=LONGEST_NOTE)] = ""
    done_at: DoneAt = None


class MixFrom(OnJob, frozen=True, kw_only=True):
    """The joint is glued from a mix that was made for another one."""

    mix: Annotated[
        str,
        said("The mix, as `clubwright mixes` lists it (bench/12), or the job it was made on.", first=True),
    ]
    done_at: DoneAt = None


class BadMix(OnJob, frozen=True, kw_only=True):
    """A mix is bad."""

    reason: Annotated[str, said("Why it is bad: whoever has such a joint reads it.", least=None, longest=LONGEST_NOTE)]
    mix: Annotated[str | None, said("Which mix, where the job had several (bench/12).", least=None)] = None


class Joint(OnJob, frozen=True, kw_only=True):
    """The joint is closed; it cures at this temperature from when that was done."""

    temperature: Annotated[str, said("Where the club cures.", example="22 C", notation="temperature")]
    done_at: DoneAt = None


class GripOn(OnJob, frozen=True, kw_only=True):
    """The grip is on for good."""

    done_at: DoneAt = None
