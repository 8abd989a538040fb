"""Every target of a ticket as the inspection sees it: ordered, read, proved or not, and what would settle it."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.jobs.closing import finished_readings
from clubwright.ticket.gauges import lacking


class TargetLine(msgspec.Struct, frozen=True, kw_only=True):
    """One target.

    Attributes:
        key: The quantity.
        name: Its name.
        ordered: As typed, with its tolerance.
        read: What was read on the finished club, as typed, oldest first; those left out are not here.
        verdict: ``within``, ``outside``, ``cannot tell``, or empty while it was not read.
        settle: What would settle it; how to read it while it was not read, or what a reading that is not used waits for.
    """

    key: str
    name: str
    ordered: str
    read: tuple[str, ...]
    verdict: str
    settle: str


def target_lines(worked: ClubAnswer) -> tuple[TargetLine, ...]:
    """Return a line for each target: those still to be read first, so that nothing has to be looked for."""
    lines = []
    for goal in worked.club_state.goals:
        quantity, found = QUANTITIES[goal.key], worked.inspected.get(goal.key)
        read = tuple(entry.entry.typed for entry in finished_readings(worked, goal.key))
        lacks = lacking(worked.club_state.ticket, goal.key)
        unread = f"kept, not used: it {lacks}" if read else f"still to read: {quantity.read_by}"
        lines.append(
            TargetLine(
                key=goal.key,
                name=quantity.name,
                ordered=f"{goal.typed} ± {goal.tolerance_typed}",
                read=read,
                verdict="" if found is None else found.verdict,
                settle=unread if found is None else found.settle,
            )
        )
    return tuple(sorted(lines, key=lambda line: line.verdict != ""))
