"""What stands between a job and its end: each ordered target that is outside, open or unread and not accepted by name.

The list drives the release, the end of the job, page, command line and the JSON interface alike. A target counts as settled
when its readings prove it within, or when a person accepted by name how it stands now.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from typing import Final

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.journal.job import Accepted, Job
from clubwright.notation import render, shown_in
from clubwright.planning.goals import Goal
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.told.job import AcceptedAnswer, ClosingAnswer, Standing
from clubwright.state.gauge import ReadingEntry
from clubwright.state.steps import SETTLING
from clubwright.ticket.gauges import lacking
from clubwright.words import on_page, spoken

WITHIN: Final = "within"
NOT_USED: Final = "not used"
NOT_READ: Final = "not read"


class ClosingPoint(msgspec.Struct, frozen=True, kw_only=True):
    """One ordered target as the end of the job sees it.

    Attributes:
        key: The quantity.
        name: Its name.
        ordered: The target with its tolerance, as typed.
        verdict: ``within``, ``outside``, ``cannot tell``, ``not used`` (read, and nothing on the ticket to hold it against)
            or ``not read``.
        read: What was read on the finished club, as typed, oldest first; readings left out are not here.
        readings: Numbers of their facts.
        believed: What is believed of it; empty when that cannot be told.
        lacks: What the ticket lacks before a reading of it can be used; empty when nothing.
        mend: The next thing to do about it; empty when it is within.
        accepted: The acceptance that holds.
        lapsed: One that was given for how it stood before, and no longer holds.
        canonical: What is believed of it, whichever unit comes first where it is shown.
    """

    key: str
    name: str
    ordered: str
    verdict: Standing
    read: tuple[str, ...]
    readings: tuple[int, ...]
    believed: str
    lacks: str
    mend: str
    accepted: Accepted | None = None
    lapsed: Accepted | None = None
    canonical: str = ""

    @property
    def open(self) -> bool:
        """True while it keeps the job from its end."""
        return self.verdict != WITHIN and self.accepted is None

    @property
    def stands(self) -> str:
        """Say how it stands, such as ``out of spec, ordered D4 ± 1/2 pt, read D6``."""
        read = on_page("stands read", figures=", ".join(self.read)) if self.read else ""
        believed = on_page("stands believed", figure=self.believed) if self.believed and not self.read else ""
        return on_page("stands", verdict=spoken("verdict", self.verdict), ordered=self.ordered) + read + believed

    @property
    def mark(self) -> str:
        """Return a short mark of how it stands, for whoever accepts it: the same text, the same mark."""
        with shown_in(None):
            stands = msgspec.structs.replace(self, believed=self.canonical).stands
        return hashlib.sha256(stands.encode()).hexdigest()[:12]

    def sentence(self) -> str:
        """Say it with the way to mend it."""
        was = ""
        if self.lapsed is not None:
            then = self.lapsed.what
            stood = ", ".join(then.read) or spoken("verdict", then.verdict)
            was = f" (what {then.accepted_by} accepted was {stood}, and no longer holds)"
        return f"{self.name}: {self.stands}{was}; {self.mend}, or have it accepted by name"


def closing_points(job: Job, worked: ClubAnswer) -> tuple[ClosingPoint, ...]:
    """Return every ordered target, in the register's order.

    Args:
        job: The job as the record has it.
        worked: It, worked.
    """
    return tuple(_point(job, worked, goal) for goal in worked.club_state.goals)


def open_points(job: Job, worked: ClubAnswer) -> tuple[ClosingPoint, ...]:
    """Return the targets that keep the job from its end."""
    return tuple(point for point in closing_points(job, worked) if point.open)


def at_the_end(job: Job, worked: JobAnswer) -> bool:
    """True while nothing but the inspection and the tag is left to do on an open job."""
    return job.finished is None and all(step.done or step.key in SETTLING for step in worked.steps)


def closing_reasons(job: Job, worked: ClubAnswer) -> list[str]:
    """Say why a job is neither released nor closed yet: nothing when all is in spec or accepted by name."""
    reasons = [point.sentence() for point in open_points(job, worked)]
    return [*reasons, how_to_accept(job.id)] if reasons else []


def how_to_accept(job: str) -> str:
    """Say where a target is accepted by name."""
    return f"accepting: on the inspect card, or `clubwright accept {job} QUANTITY --by NAME --reason WHY`"


def accepted_part(points: Iterable[ClosingPoint]) -> tuple[AcceptedAnswer, ...]:
    """Return what was accepted by name and holds."""
    return tuple(
        AcceptedAnswer(
            accepted_by=point.accepted.what.accepted_by,
            at=point.accepted.signed.at,
            ordered=point.ordered,
            quantity=point.key,
            read=point.read,
            reason=point.accepted.what.reason,
            verdict=point.verdict,
        )
        for point in points
        if point.accepted is not None
    )


def closing_part(points: Iterable[ClosingPoint]) -> tuple[ClosingAnswer, ...]:
    """Return every target with what stands between it and the end of the job."""
    return tuple(
        ClosingAnswer(
            accepted_by="" if point.accepted is None else point.accepted.what.accepted_by,
            lapsed="" if point.lapsed is None else point.lapsed.what.accepted_by,
            mark=point.mark,
            mend=point.mend,
            open=point.open,
            ordered=point.ordered,
            quantity=point.key,
            read=point.read,
            reason="" if point.accepted is None else point.accepted.what.reason,
            verdict=point.verdict,
        )
        for point in points
    )


def finished_readings(worked: ClubAnswer, key: str) -> tuple[ReadingEntry, ...]:
    """Return the readings of a quantity of the finished club as it is now, oldest first, without those left out."""
    return tuple(
        entry
        for entry in worked.club_state.present_entries
        if entry.quantity == key and entry.stage == FINISHED.name and entry.keep is not False
    )


def _point(job: Job, worked: ClubAnswer, goal: Goal) -> ClosingPoint:
    club_state, quantity = worked.club_state, QUANTITIES[goal.key]
    entries = finished_readings(worked, goal.key)
    inspected, lacks = worked.inspected.get(goal.key), lacking(club_state.ticket, goal.key)
    verdict = inspected.verdict if inspected is not None else NOT_USED if entries else NOT_READ
    believed = canonical = ""
    if club_state.can_predict(goal.key):
        prediction = club_state.predict([goal.key])
        mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
        believed = render(quantity.shown_kind, mean, sd)
        with shown_in(None):
            canonical = render(quantity.shown_kind, mean, sd)
    point = ClosingPoint(
        key=goal.key,
        name=spoken("quantity", goal.key),
        ordered=f"{goal.typed} ± {goal.tolerance_typed}",
        verdict=verdict,
        read=tuple(entry.entry.typed for entry in entries),
        readings=tuple(entry.fact or 0 for entry in entries),
        believed=believed,
        canonical=canonical,
        lacks=lacks,
        mend=_mend(verdict, quantity.read_by, lacks, "" if inspected is None else inspected.settle),
    )
    given = job.accepted.get(goal.key)
    if given is None:
        return point
    if _holds(given, point):
        return msgspec.structs.replace(point, accepted=given)
    return msgspec.structs.replace(point, lapsed=given)


def _holds(given: Accepted, point: ClosingPoint) -> bool:
    """True while a target stands as it was shown to who accepted it; one that nobody read, while the club is the same."""
    then = given.what
    if (then.ordered, then.verdict, tuple(then.readings)) != (point.ordered, point.verdict, point.readings):
        return False
    return bool(point.read) or not given.club_changed


def _mend(verdict: str, read_by: str, lacks: str, settle: str) -> str:
    """Say the next thing to do, beginning small, without a full stop."""
    if verdict == "outside":
        return on_page("mend outside")
    if verdict == NOT_USED:
        return on_page("mend not used", lacks=lacks)
    if verdict == NOT_READ:
        more = on_page("mend it lacks", lacks=lacks) if lacks else ""
        return on_page("mend not read", gauge=spoken("tool", read_by), lacks=more)
    return on_page("mend cannot tell", settle=settle.rstrip(".")) if verdict == "cannot tell" else ""
