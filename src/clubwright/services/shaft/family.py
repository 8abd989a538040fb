"""What the record's other shafts of one name and one stiffness profile teach about the one in hand.

Each of them was built into a club whose frequency was read. What those readings said of its stiffness factor is taken out of
the belief of that club (its own prior is divided out), and the next shaft is forecast from all of them. Nothing is taken
over by itself: a person does, and it becomes a fact. Derivation: docs/theory/family.md, "From the record"; checked in
tests/published/test_published_family.py and tests/unit/services/shaft/test_shaft_family.py.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from clubwright.belief.family import STIFFNESS_FACTOR, FamilyForecast, PastPart, forecast_next, outliers_of
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.facts import Fact, PartChanged, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.job_lines import compared
from clubwright.services.record.other_jobs import known, other_jobs
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open
from clubwright.services.shaft.curves import factor_of
from clubwright.services.shaft.taught import LEAST_SD, TaughtShaft, taught_by
from clubwright.ticket.priors.prior import prior_from

MOST = 40
"""Shafts that count: those that came in last."""
DECIMALS = 3
FACTOR_KEY = "stiffness_factor"


class ShaftFamily(msgspec.Struct, frozen=True, kw_only=True):
    """The family of one shaft, without that shaft.

    Attributes:
        name: What the rack calls it.
        shafts: Those that taught something and count, as they came in.
        undecided: Those whose reading was set aside, and nobody has decided about it.
        outliers: Those too far off the others to be of one family with them (a wrong name, a wrong head, a damaged shaft);
            they stay out of the forecast.
        forecast: Of the next one, without what is shared by all; None while none counts.
        shared_sd: Doubt that is the same for every shaft, which no number of them takes away.
        ticket: The factor that the ticket says now, as typed; empty when it says none.
        ticket_sd: Its doubt; infinite when it says none.
        closed: Whether the job is closed.
    """

    name: str
    shafts: tuple[TaughtShaft, ...]
    undecided: tuple[TaughtShaft, ...]
    outliers: tuple[TaughtShaft, ...]
    forecast: FamilyForecast | None
    shared_sd: float
    ticket: str
    ticket_sd: float
    closed: bool

    @property
    def sd(self) -> float:
        """Doubt of the next shaft's factor, with what is shared; infinite while none counts."""
        return math.inf if self.forecast is None else math.hypot(self.forecast.sd, self.shared_sd)

    @property
    def text(self) -> str:
        """The factor of the next shaft as a ticket takes it, such as ``1.013 ± 0.012``; empty while none counts."""
        return "" if self.forecast is None else factor_text(self.forecast.mean, self.sd)

    @property
    def why_not(self) -> str:
        """Say why the forecast is not to be taken over; empty when it may be."""
        if self.closed:
            return "the job is closed"
        if self.undecided:
            jobs = ", ".join(item.job for item in self.undecided)
            return f"the frequency of {jobs} was set aside: decide there first whether it counts"
        if self.ticket == self.text:
            return "the ticket says so already"
        if self.ticket_sd <= self.sd:
            return f"the ticket's own {self.ticket} is better known"
        return ""


def factor_text(mean: float, sd: float) -> str:
    """Return a stiffness factor as a ticket takes it; a doubt is never typed as less than one step."""
    return f"{mean:.{DECIMALS}f} ± {max(sd, LEAST_SD):.{DECIMALS}f}"


def spread_text(family: ShaftFamily) -> str:
    """Say how much one shaft of a family differs from another; nothing before two of them were read."""
    if family.forecast is None or len(family.shafts) < 2:
        return ""
    return factor_text(family.forecast.spread, family.forecast.spread_sd)


def lacking(job: Job) -> str:
    """Say what a job's ticket lacks for its shaft to have a family; empty when nothing."""
    shaft = job.parts.shaft
    keys = [key for key, found in (("name", shaft.name), ("stiffness", shaft.stiffness)) if found is None]
    return f"write [shaft] {' and '.join(keys)} on ticket {job.id}" if keys else ""


def family_of(session: Session, job: Job) -> ShaftFamily | None:
    """Return what the record says of the family of a job's shaft; None when no other shaft of it was read."""
    if lacking(job):
        return None
    name = compared(job.parts.shaft.name)
    others = other_jobs(session, job, "shaft", name)
    try:
        ticket = ticket_of(job)
    except ClubwrightError:
        return None
    found = _alike(others, ticket.club.stiffness)
    if not found:
        return None
    decided = [item for item in found if not item.undecided]
    parts = {item.job: PastPart(name=item.job, value=item.factor, sd=item.own_sd) for item in decided}
    far = {part.name for part in outliers_of(tuple(parts.values()), STIFFNESS_FACTOR)}
    counted = tuple(item for item in decided if item.job not in far)
    row = ticket.club.shaft
    entry = row.entry(FACTOR_KEY)
    own = [parts[item.job] for item in counted]
    return ShaftFamily(
        name=row.name or "",
        shafts=counted,
        undecided=tuple(item for item in found if item.undecided),
        outliers=tuple(item for item in decided if item.job in far),
        forecast=forecast_next(own, STIFFNESS_FACTOR) if own else None,
        shared_sd=math.sqrt(sum(item.shared_sd**2 for item in counted) / len(counted)) if counted else 0.0,
        closed=job.finished is not None,
        ticket="" if entry is None else entry.typed,
        ticket_sd=math.inf if entry is None else factor_of(prior_from(ticket).belief)[1],
    )


def use_family(session: Session, job: str, shown: str, key: str | None = None) -> Fact:
    """Write the forecast of its family onto a job's ticket, as what is believed of the shaft before its own readings.

    Args:
        session: Who and where.
        job: Ticket number.
        shown: The factor as the person was shown it.
        key: Idempotency key.

    Raises:
        InputError: when the record says nothing of the family, no longer what was shown, or nothing that is to be taken
            over; nothing is kept.
    """
    what = PartChanged(job=job, section="shaft", values={FACTOR_KEY: shown})

    def make(state: Job | None) -> What:
        family = family_of(session, require_open(state, job))
        if family is None:
            raise _refused("the record has no other shaft of this name and stiffness whose frequency was read")
        if family.why_not:
            raise _refused(family.why_not)
        if family.text != shown:
            raise _refused(f"the record says {family.text} by now, not {shown or 'nothing'}")
        return what

    return keep(
        session, job, make, typed=lambda _: f"shaft: {FACTOR_KEY} {shown}", same=lambda found: found == what, key=key
    )


def from_family(session: Session, job: str, *, factor: str | None, key: str | None = None) -> Fact:
    """Take over what a shaft's family says of it: as it was shown, or as it is now where nothing was."""
    if factor is None:
        found = family_of(session, session.job(job))
        factor = "" if found is None else found.text
    return use_family(session, job, factor, key)


def _refused(what: str) -> InputError:
    return InputError([Finding(where="shaft", what=what, mend="Look at the page of the shaft.")])


def _alike(others: Sequence[Job], profile: StiffnessProfile | None) -> list[TaughtShaft]:
    """Return the shafts of one profile that taught something, the latest of them, as they came in."""
    found: list[TaughtShaft] = []
    for other in reversed(others):
        ticket = known(other)
        taught = None if ticket is None else taught_by(ticket, other.id)
        if taught is not None and taught.profile == profile:
            found.append(taught)
        if len(found) == MOST:
            break
    return found[::-1]
