"""Before and after of a change that is only thought of: less at the butt, another head mass, another shaft."""

from __future__ import annotations

import msgspec

from clubwright.club.frequency import SHORTEST_FREE_M
from clubwright.club.quantities import CHANGES
from clubwright.errors import Finding, InputError, NotPossible
from clubwright.notation import Collector, length_in_full, render
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.what_if import finished_if
from clubwright.services.shaft.trim_moves import Move, moves
from clubwright.services.told.shaft import MoveAnswer, WhatIfAnswer
from clubwright.state.club import KnownShaft
from clubwright.state.particulars import in_si
from clubwright.state.parts import ShaftPart
from clubwright.state.ticket import Ticket
from clubwright.ticket.plausible.checks import plausible
from clubwright.ticket.priors.shaft_cut_figures import not_said
from clubwright.units import INCH_M, MILLIMETRE_M

LENGTH, HEAD = "shaft.length_m", "head.mass_kg"
Read = tuple[Ticket | None, tuple[Finding, ...]]
"""A ticket as it was read, None when it cannot be taken; and what was found about it."""


class OtherShaft(msgspec.Struct, frozen=True, kw_only=True):
    """The shaft of another ticket.

    Attributes:
        name: What it is called.
        known: The shaft; None where that ticket has none, or one that cannot be read.
        findings: What was found when it was read.
    """

    name: str
    known: KnownShaft | None
    findings: tuple[Finding, ...] = ()


class Wish(msgspec.Struct, frozen=True, kw_only=True):
    """What would be otherwise, as typed; empty is as it is.

    Attributes:
        butt: Off the butt.
        head: Mass of the head.
        shaft: Of another ticket; None for the shaft in hand.
    """

    butt: str = ""
    head: str = ""
    shaft: OtherShaft | None = None

    @property
    def is_none(self) -> bool:
        """True when nothing would be otherwise."""
        return not (self.butt or self.head) and self.shaft is None


class WhatIf(msgspec.Struct, frozen=True, kw_only=True):
    """The change in words, what it moves, what is to be looked at, and whether the readings so far are left out of it."""

    said: str
    moves: tuple[Move, ...]
    notes: tuple[str, ...]
    without_readings: bool


def what_if(read: Read, wish: Wish) -> WhatIf:
    """Return what a change would make of the finished club, with the weights that are fitted now.

    Args:
        read: The ticket of the club, as it was read.
        wish: What would be otherwise.

    Raises:
        InputError: for what cannot be read, a cut that leaves no club, or a ticket that cannot be taken: every finding.
    """
    notes = Collector()
    butt = notes.take("length", wish.butt, where="off the butt") if wish.butt else None
    head = notes.take("mass", wish.head, where="head mass") if wish.head else None
    if butt is not None and butt.value <= 0:
        notes.add("off the butt", f'"{wish.butt}" comes off nothing', "Write how much is cut off, such as 1/4 in.")
    if head is not None and head.value <= 0:
        notes.add("head mass", f'"{wish.head}" is no head', "Write its mass, such as 262 g.")
    ticket, findings = read
    notes.findings.extend(finding for finding in findings if finding.severity == "error")
    before = None if ticket is None else _club_state(ticket, notes)
    shaft = None if wish.shaft is None else _known(wish.shaft, notes)
    notes.raise_if_any()
    assert ticket is not None  # or a finding said why
    assert before is not None
    after = before
    numbers: dict[str, float] = {}
    if wish.shaft is not None and shaft is not None:
        # It would be cut for this club: how long it is now says nothing of how long it is to be.
        uncut = msgspec.structs.replace(shaft, part=msgspec.structs.replace(shaft.part, cut_length=None))
        planned = other = _with_shaft(ticket, uncut, wish.shaft.name, notes)
        if shaft.part.cut_length is not None:
            # What was weighed of it may be of the shaft as cut for the other club: known so, then shortened for this one.
            other = _with_shaft(ticket, shaft, wish.shaft.name, notes)
        notes.raise_if_any()
        assert planned is not None  # or a finding said why
        assert other is not None
        after = other
        if planned is not after:
            numbers[LENGTH] = float(planned.club.shaft.length_m)
    said = [] if wish.shaft is None else [f"with the shaft {wish.shaft.name}"]
    if butt is not None:
        numbers[LENGTH] = numbers.get(LENGTH, float(after.club.shaft.length_m)) - butt.value
        if numbers[LENGTH] < SHORTEST_FREE_M:
            left = render("length", max(numbers[LENGTH], 0.0))
            notes.add(
                "off the butt", f'"{wish.butt}" leaves {left} of shaft', "Write how much is cut off, such as 1/4 in."
            )
            raise InputError(notes.findings)
        said.append(f"{length_in_full(butt.value)} off the butt")
    if wish.shaft is not None:
        _check_length(after, wish.shaft.name, numbers.get(LENGTH, float(after.club.shaft.length_m)), notes)
        notes.raise_if_any()
    if head is not None:
        numbers[HEAD] = head.value
        said.append(f"a head of {render('mass', head.value)}")
    try:
        found = moves(finished_if(before, {}, tuple(CHANGES)), finished_if(after, numbers, tuple(CHANGES)))
    except NotPossible as refused:
        notes.add("what if", refused.what, refused.instead)
        raise InputError(notes.findings) from refused
    return WhatIf(
        said=", ".join(said) or "as it is",
        moves=found,
        notes=_notes(before, after),
        without_readings=wish.shaft is not None and bool(before.ticket.readings),
    )


def what_if_part(found: WhatIf) -> WhatIfAnswer:
    """Return it for programs: the texts, since each is a figure with its unit."""
    return WhatIfAnswer(
        moves=tuple(
            MoveAnswer(name=move.name, before=move.before, after=move.after, by=move.by) for move in found.moves
        ),
        notes=found.notes,
        said=found.said,
        without_readings=found.without_readings,
    )


def _check_length(after: ClubState, name: str, needed_m: float, notes: Collector) -> None:
    """Refuse another shaft that is too short for this club: nothing grows."""
    row = after.ticket.club.shaft
    cut, raw = in_si(row.cut_length), in_si(row.raw_length)
    left_m = cut if cut is not None else None if raw is None else raw - (in_si(row.tip_trim) or 0.0)
    if left_m is not None and left_m < needed_m - MILLIMETRE_M:
        what = f"it is {render('length', left_m)} long, and this club needs {render('length', needed_m)} of shaft"
        notes.add(f"the shaft {name}", what, "Think of a longer one.")


def _notes(before: ClubState, after: ClubState) -> tuple[str, ...]:
    """Say what a person has to look at themselves."""
    mine, other = (club_state.ticket.club.shaft for club_state in (before, after))
    notes = []
    if mine.tip != other.tip or not _same_tip(mine, other):
        notes.append("Its tip is not said to be like this one's: see that it fits the bore of this head.")
    notes += (
        [f"Of the other shaft {finding.what}." for finding in not_said(after.ticket)] if after is not before else []
    )
    if before.can_predict("frequency") and not after.can_predict("frequency"):
        notes.append("Its stiffness is not known, so of the frequency nothing can be told.")
    return tuple(notes)


def _same_tip(mine: ShaftPart, other: ShaftPart) -> bool:
    """True when both tips are of one size, as measured, else by trade size; two unknown ones are not told apart."""
    sizes = [in_si(row.tip_diameter) or in_si(row.tip_size) or 0.0 for row in (mine, other)]
    return abs(sizes[0] - sizes[1]) < SAME_TIP_M


SAME_TIP_M = 0.003 * INCH_M
"""Tips of one trade size measure alike within this; the nearest two sizes are .005 in apart (common practice, no source)."""


def _known(shaft: OtherShaft, notes: Collector) -> KnownShaft | None:
    """Return another ticket's shaft, or say why there is none."""
    wrong = [finding for finding in shaft.findings if finding.severity == "error"]
    if shaft.known is None and not wrong:
        notes.add(f"the shaft {shaft.name}", "that ticket has no [shaft]", "Name a ticket that has one.")
    notes.findings.extend(wrong)
    return shaft.known


def _with_shaft(ticket: Ticket, shaft: KnownShaft, name: str, notes: Collector) -> ClubState | None:
    """Return where the club would stand with another shaft; what was read of the club was read of the first.

    A gauge that both tickets name is one gauge, and this ticket says what it is.
    """
    part = msgspec.structs.replace(shaft.part, tip_trimmed=None)
    club = msgspec.structs.replace(ticket.club, shaft=part, stiffness=shaft.stiffness, readings=(), changes=())
    other = msgspec.structs.replace(
        ticket, source=f"{ticket.source}, with the shaft {name}", club=club, gauges={**shaft.gauges, **ticket.gauges}
    )
    wrong = [finding for finding in plausible(other) if finding.severity == "error"]
    notes.findings.extend(wrong)
    return None if wrong else _club_state(other, notes)


def _club_state(ticket: Ticket, notes: Collector) -> ClubState | None:
    try:
        return club_state_of(ticket)
    except NotPossible as refused:
        notes.add(ticket.source, refused.what, refused.instead)
        return None
