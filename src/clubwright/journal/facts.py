"""What can happen to a club at the bench: one struct for each kind of fact, and the envelope that dates and signs it.

Payloads keep what a person said as the text they typed. There are no floats in a stored fact, so its bytes, and with them
its hash, are the same on every machine. The words in `tag` are stored for good: none is ever renamed or used again.
"""

from __future__ import annotations

from typing import Any, Literal, get_args

import msgspec

from clubwright.journal.action_keys import action_of
from clubwright.state.order import OrderWords
from clubwright.ticket.rows.typed import order_of


# gc=False: a fact holds nothing that could hold it again, and a record has very many of them
class _Payload(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, tag_field="kind", gc=False):
    """What every payload has in common.

    Attributes:
        job: Number that the job's ticket was taken under; it stays this one when the ticket gets another number.
        subject: Place of the fact that the ticket was taken by: which job this is, whatever its number. Left out in facts
            from before there was such a field; then the number alone says it (`clubwright.journal.subjects`).
    """

    job: str
    subject: tuple[str, int] | msgspec.UnsetType = msgspec.UNSET


class _Done(_Payload, frozen=True, kw_only=True):
    """What payloads of work have in common that may be written down later than it was done.

    Attributes:
        done_at: When it was done, UTC, ISO 8601 with Z; left out where it was written down when it was done.
    """

    done_at: str | msgspec.UnsetType = msgspec.UNSET


class _OfTheShop(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, tag_field="kind", gc=False):
    """What payloads have in common that are about no job."""

    @property
    def job(self) -> str:
        """No ticket number."""
        return ""

    @property
    def subject(self) -> msgspec.UnsetType:
        """No job."""
        return msgspec.UNSET


class TicketTaken(_Payload, frozen=True, kw_only=True, tag="ticket taken"):
    """A ticket came in: the nested tables of its file, values as text, and where they came from.

    Attributes:
        document: The ticket.
        source: Where it came from.
        earlier: For work on a club of the record: place of the fact that took the job before it on that club in. Left out,
            not null, for a club that the record has not; so the hash of an older fact stays what it was.
        earlier_job: Number that the job before was taken under.
        as_left: Its document as it had left the club.
        edition: Edition of the plan that its job began with (`clubwright.state.steps`). Left out in the first one.
    """

    document: dict[str, Any]
    source: str
    earlier: tuple[str, int] | msgspec.UnsetType = msgspec.UNSET
    earlier_job: str | msgspec.UnsetType = msgspec.UNSET
    as_left: dict[str, Any] | msgspec.UnsetType = msgspec.UNSET
    edition: int | msgspec.UnsetType = msgspec.UNSET

    @property
    def order(self) -> OrderWords:
        """What the ticket says in words of the order."""
        return order_of(self.document)


class ClubSaid(_Payload, frozen=True, kw_only=True, tag="club said"):
    """A person said that a job is work on the club of an earlier job; the last one said counts.

    Attributes:
        earlier: Place of the fact that took the job before it on that club in.
        earlier_job: Number that the job before was taken under.
        as_left: Its document as it has left the club.
        reason: How it is known, in the person's words.
    """

    earlier: tuple[str, int]
    earlier_job: str
    as_left: dict[str, Any]
    reason: str


class ClubCameBack(_Payload, frozen=True, kw_only=True, tag="club came back"):
    """The club of a job is worked on in a later one, which says so itself: kept with the earlier job, to be found by.

    Attributes:
        later_job: Number that the later job was taken under.
    """

    later_job: str


class ReadingTaken(_Done, frozen=True, kw_only=True, tag="reading taken"):
    """A gauge was read: the value as it showed it, the stage of the build, the names of the weights that were on.

    A recording of two close frequencies has the weaker one in `second_plane`. It is left out, not null, where there is none:
    so the hash of a fact that was written before there was such a field stays what it was. So is `clamp`, what the clamp of
    a frequency meter held, where somebody said it.
    """

    quantity: str
    value: str
    stage: str
    weights: list[str]
    instrument: str | None = None
    repeats: str = "1"
    second_plane: str | msgspec.UnsetType = msgspec.UNSET
    clamp: str | msgspec.UnsetType = msgspec.UNSET


class ReadingDecided(_Payload, frozen=True, kw_only=True, tag="reading decided"):
    """A person decided whether a reading counts.

    Attributes:
        reading: Sequence number of the reading's fact.
        keep: Whether it is used.
        reason: Why, in the person's words.
        site: Bench that wrote the reading; None is the bench that decides, or the only one with that number on the job.
    """

    reading: int
    keep: bool
    reason: str
    site: str | None = None


class ShaftTrimmed(_Payload, frozen=True, kw_only=True, tag="shaft trimmed"):
    """A length came off one end of the shaft, before the cut to length."""

    end: Literal["tip", "butt"]
    amount: str


class ShaftCut(_Done, frozen=True, kw_only=True, tag="shaft cut"):
    """The shaft was cut: its length from tip end to butt end, measured after the cut; and its mass and balance then.

    What was not weighed or balanced is left out, not null: so the hash of a fact from before there were such fields stays.
    So is `gauges`, which says by the key of a figure what measured it.
    """

    cut_length: str
    cut_mass: str | msgspec.UnsetType = msgspec.UNSET
    cut_balance_from_tip: str | msgspec.UnsetType = msgspec.UNSET
    gauges: dict[str, str] | msgspec.UnsetType = msgspec.UNSET


class WeightsFitted(_Payload, frozen=True, kw_only=True, tag="weights fitted"):
    """The loose weights that are on now: the whole list, a name for each piece."""

    weights: list[str]


class HeadBent(_Done, frozen=True, kw_only=True, tag="head bent"):
    """The head was bent: the angles measured after the bend, None for one that was not measured."""

    loft: str | None = None
    lie: str | None = None
    bounce: str | None = None


class TapeLaid(_Payload, frozen=True, kw_only=True, tag="tape laid"):
    """All that is on now of one kind of tape: its layers, and their mass together as weighed.

    What weighed it is in `gauges` under ``mass``; left out, not null, where nobody said so. The same layers weighed again
    add to it.
    """

    name: str
    layers: str
    mass: str
    gauges: dict[str, str] | msgspec.UnsetType = msgspec.UNSET


class AdhesiveMixed(_Done, frozen=True, kw_only=True, tag="adhesive mixed"):
    """A batch of adhesive was mixed, as weighed."""

    part_a: str
    part_b: str
    temperature: str
    batch: str


class MixTaken(_Done, frozen=True, kw_only=True, tag="mix taken"):
    """The joint is glued from a mix that was made for another one: what was weighed then, and when.

    Attributes:
        mix: Place of the fact that the mix was made by: which mix this is.
        of: Number under which that fact stands.
        mixed_at: When it was mixed, UTC, ISO 8601 with Z: its pot life runs from then, whichever joint it is for.
    """

    mix: tuple[str, int]
    of: str
    part_a: str
    part_b: str
    temperature: str
    batch: str
    mixed_at: str


class MixCalledBad(_Payload, frozen=True, kw_only=True, tag="mix called bad"):
    """A person said that a mix is bad: no joint that is glued from it holds, on whatever job.

    It is a fact of the job that the mix was made on.

    Attributes:
        mix: Place of the fact that the mix was made by.
        reason: Why, in the person's words.
    """

    mix: tuple[str, int]
    reason: str


class Glued(_Done, frozen=True, kw_only=True, tag="glued"):
    """The joint was closed; it cures at that temperature from when that was done."""

    temperature: str


class Gripped(_Done, frozen=True, kw_only=True, tag="gripped"):
    """The grip is on for good."""


class StepDone(_Payload, frozen=True, kw_only=True, tag="step done"):
    """A step of the plan is done, or passed over.

    Attributes:
        step: Its key.
        note: Anything worth keeping with it.
        skipped: What was left out, where the step was passed over; left out, not null, where it was done.
    """

    step: str
    note: str = ""
    skipped: str | msgspec.UnsetType = msgspec.UNSET


class GateSigned(_Payload, frozen=True, kw_only=True, tag="gate signed"):
    """A person signed a gate, with what was shown to them when they did."""

    step: str
    shown: dict[str, Any]


class DeviationAccepted(_Payload, frozen=True, kw_only=True, tag="deviation accepted"):
    """A person accepted by name that a target is outside, cannot be told, or was not read, with what was shown then.

    Attributes:
        quantity: The target.
        accepted_by: Who accepts it: the player or the clubmaker, as typed.
        reason: Why, in the person's words.
        ordered: The target with its tolerance, as ordered.
        verdict: How it stood: ``outside``, ``cannot tell``, ``not used`` or ``not read``.
        read: Readings of the finished club that stood, as typed, oldest first.
        readings: Numbers of their facts.
        believed: What was believed of it; empty when that cannot be told.
    """

    quantity: str
    accepted_by: str
    reason: str
    ordered: str
    verdict: str
    read: list[str]
    readings: list[int]
    believed: str


class PartChanged(_Payload, frozen=True, kw_only=True, tag="part changed"):
    """A table of the ticket was put right: the part was weighed, measured or replaced.

    Attributes:
        section: Table of the ticket (``grip``, ``instrument.NAME``). In a list (``weight``, ``tape``) the value of
            ``name`` says which entry; a new name adds one.
        values: Keys and texts to put in; an empty text takes the key out, for what is no longer known.
        another: True where another part is in its place: nothing measured of the old one is kept. Left out, not null, where
            it is the same part.
        gauges: By key, the gauge of the ticket that measured the value; left out, not null, where nobody said it of any.
            A value with a gauge adds to an earlier one that has one too; without, it takes the place of what stood there.
        said_by: Of another part, who said so: the player or the clubmaker, as typed. Left out, not null, where it is the
            same part, and in facts from before this was asked.
        reason: Likewise, why, in the person's words.
    """

    section: str
    values: dict[str, str]
    another: bool | msgspec.UnsetType = msgspec.UNSET
    gauges: dict[str, str] | msgspec.UnsetType = msgspec.UNSET
    said_by: str | msgspec.UnsetType = msgspec.UNSET
    reason: str | msgspec.UnsetType = msgspec.UNSET


class OrderChanged(_Payload, frozen=True, kw_only=True, tag="order changed"):
    """What is ordered, or what a part or the adhesive is said to be, was changed while the job is open.

    Attributes:
        values: Figures by their paths (``target.swing_weight``, ``weight.port 6.mass``) and texts to put in; an empty text
            takes a figure out. With another ``adhesive.name`` no figure of the old product's sheet is kept.
        was: What stood there before, as it was shown; empty where nothing did.
        reason: Why, in the person's words.
        said_by: Who said so: the player or the clubmaker, as typed.
    """

    values: dict[str, str]
    was: dict[str, str]
    reason: str
    said_by: str


class HeadPulled(_Payload, frozen=True, kw_only=True, tag="head pulled"):
    """A head that was glued on was pulled again: the joint is open, and what was in it is lost.

    Attributes:
        reason: Why, in the person's words.
        said_by: Who said so: the player or the clubmaker, as typed.
        heat: Whether heat was used, which may have weakened what is left of the adhesive and the tip of a graphite shaft.
    """

    reason: str
    said_by: str
    heat: bool


class Renumbered(_Payload, frozen=True, kw_only=True, tag="renumbered"):
    """The ticket got another number; the job is the same one, and its earlier facts stay what they were."""

    number: str


class Finished(_Payload, frozen=True, kw_only=True, tag="finished"):
    """The job was closed, with the verdicts as they were shown."""

    shown: dict[str, Any]


class Undone(_Payload, frozen=True, kw_only=True, tag="undone"):
    """An earlier fact of the job was reversed. Undoing this one brings the earlier one back.

    Attributes:
        fact: Sequence number of the fact that no longer stands.
        reason: Why, in the person's words.
        site: Bench that wrote that fact; None is the bench that undoes, or the only one with that number on the job.
        whole: True where everything is reversed that the same action wrote on this job. Left out in facts from before there
            was such a field, which reverse that fact alone.
    """

    fact: int
    reason: str
    site: str | None = None
    whole: bool | msgspec.UnsetType = msgspec.UNSET


class RecordsMerged(_OfTheShop, frozen=True, kw_only=True, tag="records merged"):
    """What another bench wrote was taken in: whatever this bench writes from here on comes after it.

    Attributes:
        heads: Of each other bench in the record then, the number of its last fact, and that fact's hash.
    """

    heads: dict[str, tuple[int, str]]


class Span(msgspec.Struct, frozen=True, array_like=True, gc=False):
    """A stretch of a fact's text that was erased.

    Attributes:
        person: Mark that stands for whoever was named there.
        path: Where the text is: ``typed``, or ``what`` and the keys down to it, as a JSON pointer without its first slash.
        start: Characters before it.
        length: Its characters.
    """

    person: str
    path: str
    start: int
    length: int


class Erased(msgspec.Struct, frozen=True, array_like=True, gc=False):
    """A fact of which texts were erased.

    Attributes:
        site: Bench that wrote it.
        sequence: Its number there.
        left: SHA-256 over what is left of it, taken as over a whole fact: its own hash can no longer be worked out.
        spans: All that is erased in it.
    """

    site: str
    sequence: int
    left: str
    spans: tuple[Span, ...]


class NamesErased(_OfTheShop, frozen=True, kw_only=True, tag="names erased"):
    """A person was forgotten: where the record named them, signs stand that say nothing. The name is not in this fact.

    Attributes:
        person: Mark that stands for them now; made by chance, it says nothing of the name.
        asked_by: Who asked for it, in words without the name.
        facts: What was erased.
    """

    person: str
    asked_by: str
    facts: tuple[Erased, ...]


What = (
    TicketTaken
    | ClubSaid
    | ClubCameBack
    | ReadingTaken
    | ReadingDecided
    | ShaftTrimmed
    | ShaftCut
    | WeightsFitted
    | HeadBent
    | TapeLaid
    | AdhesiveMixed
    | MixTaken
    | MixCalledBad
    | Glued
    | Gripped
    | StepDone
    | GateSigned
    | DeviationAccepted
    | PartChanged
    | OrderChanged
    | HeadPulled
    | Renumbered
    | Finished
    | Undone
    | RecordsMerged
    | NamesErased
)
"""Everything that can happen."""

KINDS: dict[str, type[What]] = {str(kind.__struct_config__.tag): kind for kind in get_args(What)}
"""Every kind of fact by its stored word."""

Place = tuple[str, int]
"""Where a fact stands: its site and its sequence number there."""


class Fact(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, gc=False):
    """One thing that happened, as it is kept.

    Attributes:
        site: Bench that wrote it; each site numbers its own facts 1, 2, 3 ... without a gap.
        sequence: That number.
        at: When, UTC, ISO 8601 with Z.
        by: Who.
        typed: What the person typed or tapped, as text.
        what: What happened.
        key: Idempotency key: the same action sent twice is kept once.
        previous_hash: Hash of the site's fact before this one.
        hash: SHA-256 over everything above, as it was written.
        erased: Stretches of its texts that were erased since (`NamesErased`); then its hash can no longer be worked out.
    """

    site: str
    sequence: int
    at: str
    by: str
    typed: str
    what: What
    key: str
    previous_hash: str
    hash: str
    erased: tuple[Span, ...] = ()

    @property
    def place(self) -> Place:
        """Site and sequence number."""
        return (self.site, self.sequence)

    @property
    def done_at(self) -> str:
        """When it was done: when it was written, unless it says an earlier time."""
        said = getattr(self.what, "done_at", msgspec.UNSET)
        return said if isinstance(said, str) else self.at

    @property
    def action(self) -> tuple[str, str]:
        """Site and key of the action that wrote it; its second fact and those after have the key with a number."""
        return (self.site, action_of(self.key))


def kind_of(what: What) -> str:
    """Return the stored word for a kind of fact, such as ``reading taken``."""
    return str(type(what).__struct_config__.tag)
