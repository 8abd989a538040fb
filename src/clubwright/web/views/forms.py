"""What a card's form is made of: its fields, its choices, its clock, its one button."""

from __future__ import annotations

import msgspec

from clubwright.services.jobs.clocks import Clock
from clubwright.services.report.bend_rows import BendRow
from clubwright.state.particulars import Particulars
from clubwright.words.how_typed import how_typed


class FieldView(msgspec.Struct, frozen=True, kw_only=True):
    """One field, which is empty until somebody fills it.

    Attributes:
        name: Its name in the form.
        label: What is typed.
        kind: Its kind of notation; empty for words.
        how: How words are typed; a figure's kind says it already.
        now: What the ticket has of it, shown beside the field and never in it; empty while it has nothing.
        needed: Whether the form is not sent without it.
        choices: Words to choose from, where there are no others.
        figure: Path of the figure of a part that it is, where its name is no such path.
        offered: What was measured of the same thing a short while ago: one tap puts it in.
        asked: Place of the finding that asks for it: the field is shown only under such a refusal; empty where it always is.
    """

    name: str
    label: str
    kind: str = ""
    how: str = ""
    now: str = ""
    needed: bool = False
    choices: tuple[str, ...] = ()
    figure: str = ""
    offered: str = ""
    asked: str = ""

    @property
    def hint(self) -> str:
        """How it is typed."""
        return self.how or how_typed(self.kind)


class GaugeView(msgspec.Struct, frozen=True, kw_only=True):
    """What measures the figures of one kind on a card.

    Attributes:
        kind: Kind of the figures: ``mass``, ``length``, ``diameter`` or ``angle``.
        label: What is chosen.
        usual: The gauge that is taken when nothing is chosen; empty where none is.
        names: The gauges of the ticket.
    """

    kind: str
    label: str
    usual: str
    names: tuple[str, ...]


class ReadView(msgspec.Struct, frozen=True, kw_only=True):
    """A quantity that may be read: its key and name, its kind of notation, how it stands, and the key of why."""

    key: str
    name: str
    kind: str
    note: str = ""
    verdict: str = ""
    why: str = ""

    @property
    def hint(self) -> str:
        """How it is typed."""
        return how_typed(self.kind)


class Form(msgspec.Struct, frozen=True, kw_only=True):
    """The form of a card.

    Attributes:
        kind: Which partial draws it.
        action: What the button does.
        button: Its words.
        fields: What is typed.
        hidden: What goes along.
        parts: What the ticket calls each part, (part, name), where parts are scanned.
        reads: What may be read, likeliest first, for a reading.
        stages: Stages a reading may be of.
        stage: The likeliest one.
        gauges: Gauges on the ticket.
        clamp: What the clamp of the frequency meter usually holds, where a frequency may be read that is reckoned with.
        measured_with: What measures its figures, by their kind.
        open_points: What would settle each open verdict.
        open_why: Keys of what stands behind each of them; none where they are no figures.
        bends: Angles before and after.
        clock: A clock that runs here.
        clock_name: What it counts.
        clock_at: When it runs out, in the bench's own time: what is shown where no script counts.
        done: Words of the second button, which ends the step; empty when there is none.
        skips: Whether that button leaves something out, which the record then says.
        lacks: What does not stand yet, where its button has room for a few words only.
        goes_on: Words of a button that does what the first one does, and ends the step with it; empty when there is none.
        second: Action of that button, where it does something of its own.
        checked: What a gate has checked, for the person who signs it.
        to_try: What a person tries by hand before they sign.
        back: Words and step of a link to what has to be done again first; empty when nothing has.
        blocked: Whether the button waits for a gate.
        hold: Whether the button is held for a second, because what it signs cannot be undone.
    """

    kind: str
    action: str
    button: str
    fields: tuple[FieldView, ...] = ()
    hidden: tuple[tuple[str, str], ...] = ()
    parts: tuple[tuple[str, str], ...] = ()
    reads: tuple[ReadView, ...] = ()
    stages: tuple[str, ...] = ()
    stage: str = ""
    gauges: tuple[str, ...] = ()
    clamp: str = ""
    measured_with: tuple[GaugeView, ...] = ()
    open_points: tuple[str, ...] = ()
    open_why: tuple[str, ...] = ()
    bends: tuple[BendRow, ...] = ()
    clock: Clock | None = None
    clock_name: str = ""
    clock_at: str = ""
    done: str = ""
    skips: str = ""
    lacks: tuple[str, ...] = ()
    goes_on: str = ""
    second: str = ""
    checked: str = ""
    to_try: str = ""
    back: tuple[str, ...] = ()
    blocked: bool = False
    hold: bool = False

    @property
    def begins(self) -> str:
        """Name of the field whose keypad opens with the card: its first needed figure, where no button has it yet."""
        first = next((field for field in self.fields if field.needed and not field.choices), None)
        return "" if first is None or first.now or first.offered or self.blocked else first.name


def typed(row: Particulars, key: str) -> str:
    """Return a figure of a part as it was typed, empty while it is not known."""
    entry = row.entry(key)
    return "" if entry is None else entry.typed
