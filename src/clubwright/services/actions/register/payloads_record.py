"""What a person gives with each action that is answered for, or that is about a ticket, a club or the record."""

from __future__ import annotations

from typing import Annotated, Any, Literal

import msgspec

from clubwright.services.actions.register.fields import LONGEST_NOTE, LONGEST_SITE, OF_THE_PATH, said
from clubwright.services.actions.register.payloads import OnJob, Reason, SaidBy, Site, Why

NEW_NUMBER = "Number of the new ticket."


class Taken(msgspec.Struct, frozen=True, kw_only=True):
    """A ticket, to be taken into the record."""

    document: Annotated[
        dict[str, Any], said("The tables of a ticket file, values as text (`clubwright schema ticket`).")
    ]
    source: Annotated[str, said("Where it came from.", least=None)] = "api"
    club: Annotated[str | None, said("An earlier job on the same club, where the ticket does not say so itself.")] = (
        None
    )


class StepSaid(OnJob, frozen=True, kw_only=True):
    """A step of the plan is done, or passed over."""

    step: Annotated[str, said('Name of the step, such as "dry fit".', first=True)]
    note: Annotated[str, said("Anything worth keeping with it.", least=None, longest=LONGEST_NOTE)] = ""
    skipped: Annotated[
        str | None,
        said("Pass the step over: what is left out.", least=None, longest=LONGEST_NOTE, option="skip", page="skips"),
    ] = None


class Gate(OnJob, frozen=True, kw_only=True):
    """A gate is signed."""

    gate: Annotated[str, said("cut, glue or release", first=True)]


class Acceptance(OnJob, frozen=True, kw_only=True):
    """A person accepts by name that a target is out of spec, cannot be told, or was not read."""

    quantity: Annotated[
        str,
        said(
            "The target: length, swing_weight, grip_diameter_2in ...",
            first=True,
            page="target",
            label="what is accepted",
        ),
    ]
    name: Annotated[str, said("Who accepts it: the player or the clubmaker.", late=True, by=True, page="accepted_by")]
    reason: Reason
    shown: Annotated[
        str | None,
        said(
            "Mark of how it stood where it was shown (`mark` of the target in `closing`, with --json); then it is accepted "
            "only while it stands so. Not checked when left out."
        ),
    ] = None


class Close(OnJob, frozen=True, kw_only=True):
    """The job is closed."""


class Reopening(OnJob, frozen=True, kw_only=True):
    """A closed job is opened again."""

    reason: Reason


class Undoing(OnJob, frozen=True, kw_only=True):
    """An action is reversed; the last that stands when none is named."""

    fact: Annotated[int | None, said("Number in the trail; the last when left out.", first=True)] = None
    reason: Why = ""
    site: Site = None


class Number(OnJob, frozen=True, kw_only=True):
    """Another number for a ticket, which no other ticket has or had."""

    number: Annotated[
        str,
        said(
            "Its new number, which no other ticket has or had.", longest=LONGEST_SITE, first=True, example="T-van-0001"
        ),
    ]


class Order(OnJob, frozen=True, kw_only=True):
    """Another order for an open job."""

    values: Annotated[
        dict[str, str],
        said(
            'One or more TABLE.KEY=value, such as "target.swing_weight=D1.5" or "weight.port 6.mass=6.1 g"; nothing '
            'behind the = takes the figure out. A table of release times: "adhesive.release=20 C: 15 h; 25 C: 12 h".',
            least=None,
            longest=LONGEST_NOTE,
            notation=OF_THE_PATH,
            first=True,
            example="target.swing_weight=D1.5",
        ),
    ]
    said_by: SaidBy
    reason: Reason


class HeadOff(OnJob, frozen=True, kw_only=True):
    """A head that was glued on was pulled again."""

    said_by: SaidBy
    reason: Reason
    heat: Annotated[bool, said("Heat was used; --no-heat where it came off cold.")] = True


class SameClub(OnJob, frozen=True, kw_only=True):
    """A job is work on the same club as an earlier one."""

    club: Annotated[str, said("An earlier job on the same club.", first=True)]
    reason: Annotated[str, said("How it is known.", longest=LONGEST_NOTE)]


class NextJob(OnJob, frozen=True, kw_only=True):
    """The next job on a club of the record: the same order, the club as its last job left it."""

    number: Annotated[str, said(NEW_NUMBER, first=True, page="id")]
    work: Annotated[
        Literal["regrip", "reshaft", "loft-lie", "weight"], said("regrip, reshaft, loft-lie or weight.", first=True)
    ]


class MadeAgain(OnJob, frozen=True, kw_only=True):
    """A club of the record is made again: a new ticket whose targets are what the first one came to."""

    number: Annotated[str, said(NEW_NUMBER, first=True, page="id")]
    values: Annotated[
        dict[str, str],
        said(
            "What is known of the new parts and of the promise, as TABLE.KEY=value.",
            least=None,
            first=True,
            example="head.mass=297.4 g",
            notation=OF_THE_PATH,
        ),
    ] = msgspec.field(default_factory=dict)


class FromFamily(OnJob, frozen=True, kw_only=True):
    """What like shafts of the record say of a job's shaft is taken over."""

    factor: Annotated[
        str | None,
        said(
            "Their stiffness factor, as it was shown; what they say now when left out.", least=None, notation="number"
        ),
    ] = None


class Recorded(OnJob, frozen=True, kw_only=True):
    """A frequency that was read from a recorded oscillation."""

    frequency: Annotated[
        str,
        said("The frequency with its uncertainty.", first=True, example="302.40 cpm ± 0.02 cpm", notation="frequency"),
    ]
    second_plane: Annotated[
        str | None, said("The weaker of two close frequencies, where there are two.", notation="frequency")
    ] = None
    stage: Annotated[str, said("Stage of the build; as for a reading.")] = "finished"
    clamp: Annotated[str | None, said("What the clamp held.", example="5 in", notation="length")] = None


class Forgetting(msgspec.Struct, frozen=True, kw_only=True):
    """A player's name is erased, for good."""

    player: Annotated[str, said("Name, as a ticket says it.", first=True)]
    asked_by: Annotated[
        str,
        said(
            'Who asked for it, without the name: "the player, by letter". It is kept.', least=None, longest=LONGEST_NOTE
        ),
    ]
    facts: Annotated[int, said("How many facts hold the name, as looked at.")]
    also: Annotated[list[str], said("More that is theirs: another name, a telephone number.")] = msgspec.field(
        default_factory=list
    )
