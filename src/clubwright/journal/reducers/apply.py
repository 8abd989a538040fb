"""What each kind of fact changes on the builder of a job, whose document stays one that the ticket reader takes."""

# ruff: noqa: ARG001 - each kind of fact is laid on by the same call, whether it needs all of it or not

from __future__ import annotations

from functools import singledispatch
from typing import Any

from clubwright.club.quantities import ANGLES
from clubwright.errors import RecordError
from clubwright.journal.amounts import added_angle, added_length, angle_change, moved_angle
from clubwright.journal.facts import (
    ClubCameBack,
    ClubSaid,
    DeviationAccepted,
    Fact,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingDecided,
    ReadingTaken,
    Renumbered,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    TicketTaken,
    Undone,
    WeightsFitted,
)
from clubwright.journal.job import Accepted, Signed
from clubwright.journal.reducers.builder import JobBuilder
from clubwright.journal.reducers.changes import (
    before_another,
    before_bend,
    before_cut,
    before_tape,
    before_trim,
    measured_since,
)
from clubwright.journal.reducers.measured import gauges_of, lay_measured, lay_tape, put
from clubwright.journal.reducers.shaft_table import lay_cut, lay_figures, lay_tip_trim
from clubwright.ticket.order_paths import table_of

PARTS = ("head", "shaft", "grip", "ferrule", "adhesive", "adapter", "tape", "weight")
"""Tables of the ticket that say what the club is made of."""


@singledispatch
def apply(what: object, builder: JobBuilder, fact: Fact) -> None:
    """Apply one standing fact to the builder.

    Raises:
        RecordError: when it could not have happened on this job.
        InputError: when a value in it cannot be read.
    """
    raise RecordError(f"fact {fact.site}/{fact.sequence} is of a kind that this version does not know: {what!r}")


@apply.register
def _(what: TicketTaken, builder: JobBuilder, fact: Fact) -> None:
    """The builder was made from it."""


@apply.register
def _(what: ClubSaid, builder: JobBuilder, fact: Fact) -> None:
    """The builder was made from it."""


@apply.register
def _(what: ClubCameBack, builder: JobBuilder, fact: Fact) -> None:
    """What this job is stays what it is."""


@apply.register
def _(what: ReadingTaken, builder: JobBuilder, fact: Fact) -> None:
    row: dict[str, Any] = {
        "quantity": what.quantity,
        "value": what.value,
        "stage": what.stage,
        "weights": list(what.weights),
        "repeats": what.repeats,
        "fact": str(fact.sequence),
    }
    if what.instrument is not None:
        row["instrument"] = what.instrument
    more = {"second_plane": what.second_plane, "clamp": what.clamp}
    row |= {key: said for key, said in more.items() if isinstance(said, str)}
    if fact.place in builder.decided:
        row["keep"] = "yes" if builder.decided[fact.place] else "no"
    builder.rows("reading").append(row)


@apply.register
def _(what: ReadingDecided, builder: JobBuilder, fact: Fact) -> None:
    """Taken in with the reading itself, which on another bench may come later by the clock."""


@apply.register
def _(what: ShaftTrimmed, builder: JobBuilder, fact: Fact) -> None:
    builder.club_changed()
    before_trim(builder, what.end)
    if what.end == "butt":
        builder.butt_trims.append(what.amount)
        return
    shaft = builder.table("shaft")
    # the first trim is the one that the ticket asked for; what comes off after it adds up
    off = what.amount
    if shaft.get("tip_trimmed") == "yes":
        if "tip_trim" not in shaft:
            raise RecordError(
                f"job {builder.id} does not say how much is off the tip already: write [shaft] tip_trim, then trim"
            )
        off = added_length(shaft["tip_trim"], what.amount)
    builder.tip_trimmed = True
    lay_tip_trim(shaft, off)


@apply.register
def _(what: ShaftCut, builder: JobBuilder, fact: Fact) -> None:
    builder.club_changed()
    before_cut(builder, what.cut_length)
    measured = {"cut_mass": what.cut_mass, "cut_balance_from_tip": what.cut_balance_from_tip}
    said = {key: value for key, value in measured.items() if isinstance(value, str)}
    lay_cut(builder.table("shaft"), what.cut_length, said, gauges_of(what))


@apply.register
def _(what: WeightsFitted, builder: JobBuilder, fact: Fact) -> None:
    builder.club_changed()
    rows = builder.rows("weight") if what.weights or "weight" in builder.document else []
    known = [row.get("name") for row in rows]
    for name in what.weights:
        if name not in known:
            tray = ", ".join(str(each) for each in known) or "empty"
            raise RecordError(f'no weight in the tray of job {builder.id} is called "{name}"; the tray: {tray}')
    for row in rows:
        row["fitted"] = str(what.weights.count(row.get("name", "")))


@apply.register
def _(what: HeadBent, builder: JobBuilder, fact: Fact) -> None:
    builder.club_changed()
    head = builder.table("head")
    measured = {name: value for name in ANGLES if (value := getattr(what, name, None)) is not None}
    before_bend(builder, measured)
    if what.loft is not None and what.bounce is None and "loft" in head and "bounce" in head:
        # nobody measured the bounce, and it is no longer what it was: the sole turns with the face, one to one
        measured["bounce"] = moved_angle(head["bounce"], head["loft"], what.loft)
    for name, value in measured.items():
        before = head.get(name)
        if before is not None:
            builder.head_was.setdefault(name, before)
            if name != "bounce":  # the sole goes with the loft; metal is bent in loft and lie
                bent = f"bent_{name}"
                put(head, {bent: added_angle(head.get(bent), angle_change(before, value))})
    put(head, measured)
    builder.angles_bent += [name for name in measured if name not in builder.angles_bent]


@apply.register
def _(what: TapeLaid, builder: JobBuilder, fact: Fact) -> None:
    builder.club_changed()
    before_tape(builder, what.name, what.layers)
    if what.name not in builder.tapes_laid:
        builder.tapes_laid.append(what.name)
    lay_tape(builder, what, fact, builder.entry("tape", what.name))


@apply.register
def _(what: Glued, builder: JobBuilder, fact: Fact) -> None:
    builder.glued_at = fact.done_at
    builder.glued = _signed(fact, {})
    builder.glued_temperature = what.temperature


@apply.register
def _(what: Gripped, builder: JobBuilder, fact: Fact) -> None:
    builder.gripped = True


@apply.register
def _(what: StepDone, builder: JobBuilder, fact: Fact) -> None:
    """Marked with the steps that other facts complete (`clubwright.journal.reducers.completion`)."""


@apply.register
def _(what: GateSigned, builder: JobBuilder, fact: Fact) -> None:
    builder.sign(what.step, _signed(fact, what.shown))


@apply.register
def _(what: DeviationAccepted, builder: JobBuilder, fact: Fact) -> None:
    builder.accepted[what.quantity] = Accepted(what=what, signed=_signed(fact, {}))


@apply.register
def _(what: PartChanged, builder: JobBuilder, fact: Fact) -> None:
    outer, _ = table_of(what.section)
    if outer in ("reading", "change"):
        raise RecordError("a reading is not changed: read again, or decide whether the old one counts")
    if outer == "ticket" and "id" in what.values and what.values["id"] != builder.table("ticket").get("id"):
        raise RecordError(f"ticket {builder.id} keeps its number: to give it another one, renumber it")
    if outer in PARTS:
        builder.club_changed()
    table = builder.section(what.section, what.values.get("name"))
    if what.section == "ticket" and "promised" in what.values:
        builder.promised_at = fact.at
    if what.another is True:
        before_another(builder, outer)
        table.clear()
        builder.another_part(outer)
    values, gauges = lay_measured(builder, what, fact, table)
    if outer == "head" and what.another is not True:
        measured_since(builder, values)
    if outer == "shaft":
        lay_figures(table, values, gauges)
    else:
        put(table, values, gauges)


@apply.register
def _(what: Renumbered, builder: JobBuilder, fact: Fact) -> None:
    builder.table("ticket")["id"] = what.number


@apply.register
def _(what: Finished, builder: JobBuilder, fact: Fact) -> None:
    builder.finished = _signed(fact, what.shown)


@apply.register
def _(what: Undone, builder: JobBuilder, fact: Fact) -> None:
    """Its work was done when the facts that stand were chosen."""


def _signed(fact: Fact, shown: dict[str, Any]) -> Signed:
    return Signed(sequence=fact.sequence, site=fact.site, at=fact.at, by=fact.by, shown=shown)
