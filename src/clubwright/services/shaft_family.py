"""What the record's other shafts of one name and one stiffness profile teach about the one in hand.

Each of them was built into a club whose frequency was read; that reading taught its stiffness factor. What the reading said
is taken out of the belief of that club (its own prior is divided out), and the next shaft is forecast from all of them.
Nothing is taken over by itself: a person does, and it becomes a fact. Derivation: docs/theory/family.md, "From the record";
checked in tests/published/test_published_family.py and tests/unit/test_shaft_family.py.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache

import msgspec

from clubwright.belief.family import STIFFNESS_FACTOR, FamilyForecast, PastPart, forecast_next
from clubwright.belief.gaussian import Gaussian
from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.facts import Fact
from clubwright.journal.fold import Job
from clubwright.planning.situation import situation_of
from clubwright.services.desk import Desk
from clubwright.services.other_jobs import other_jobs, word_of
from clubwright.services.shaft_curves import FACTOR
from clubwright.services.taking import change_part
from clubwright.ticket.document_key import DocumentKey
from clubwright.ticket.read import read_ticket

MOST = 40
"""Shafts looked at: those that came in last."""
TAUGHT = 0.95
"""A club whose readings left its factor with more than this share of its first doubt has taught nothing."""
DECIMALS = 3


class FamilyShaft(msgspec.Struct, frozen=True, kw_only=True):
    """One shaft of the family: the job it was built in, and what the frequency of that club said of its factor.

    Attributes:
        job: Ticket number.
        factor, sd: Stiffness factor, and the doubt of what was read.
        shared_sd: The part of that doubt which is the meter's bias, the same for every shaft read on it.
    """

    job: str
    factor: float
    sd: float
    shared_sd: float


class ShaftFamily(msgspec.Struct, frozen=True, kw_only=True):
    """The family of one shaft, without that shaft.

    Attributes:
        name: What the rack calls it.
        shafts: Those that taught something, as they came in.
        forecast: Of the next one; its sd is without the meter's own bias.
        shared_sd: What the meter's bias adds to the doubt, which no number of shafts takes away.
        taken: Whether the ticket says the forecast already.
    """

    name: str
    shafts: tuple[FamilyShaft, ...]
    forecast: FamilyForecast
    shared_sd: float
    taken: bool = False

    @property
    def sd(self) -> float:
        """Doubt of the next shaft's factor, the meter's bias in it."""
        return math.hypot(self.forecast.sd, self.shared_sd)

    @property
    def text(self) -> str:
        """The factor of the next shaft as a ticket takes it, such as ``1.013 ± 0.012``."""
        return factor_text(self.forecast.mean, self.sd)


def factor_text(mean: float, sd: float) -> str:
    """Return a stiffness factor as a ticket takes it; a doubt is never typed as less than one step."""
    return f"{mean:.{DECIMALS}f} ± {max(sd, 10.0**-DECIMALS):.{DECIMALS}f}"


def family_of(desk: Desk, job: Job) -> ShaftFamily | None:
    """Return what the record says of the family of a job's shaft; None when nothing."""
    name = word_of(job.document, "shaft", "name")
    if not name or "stiffness" not in job.document.get("shaft", {}):
        return None
    return shaft_family(job, other_jobs(desk, job.id, lambda said: word_of(said, "shaft", "name") == name))


def shaft_family(job: Job, others: Iterable[Job]) -> ShaftFamily | None:
    """Return the family of a job's shaft among other jobs; None when none of them taught anything."""
    shaft = job.document["shaft"]
    alike = [other for other in others if other.document["shaft"].get("stiffness") == shaft["stiffness"]]
    found = [_taught(DocumentKey(other.document), other.id) for other in alike[-MOST:]]
    shafts = tuple(item for item in found if item is not None)
    if not shafts:
        return None
    forecast = forecast_next(
        [PastPart(name=item.job, value=item.factor, sd=_own_sd(item)) for item in shafts], STIFFNESS_FACTOR
    )
    family = ShaftFamily(
        name=shaft["name"].strip(),
        shafts=shafts,
        forecast=forecast,
        shared_sd=math.sqrt(sum(item.shared_sd**2 for item in shafts) / len(shafts)),
    )
    return msgspec.structs.replace(family, taken=shaft.get("stiffness_factor") == family.text)


def use_family(desk: Desk, job: str, shown: str, key: str | None = None) -> Fact:
    """Write the forecast of its family onto a job's ticket, as what is believed of the shaft before its own readings.

    Args:
        desk: Who and where.
        job: Ticket number.
        shown: The factor as the person was shown it.
        key: Idempotency key.

    Raises:
        InputError: when the record says nothing of the family, or no longer what was shown; nothing is kept.
    """
    family = family_of(desk, desk.job(job))
    if family is None:
        what = "the record has no other shaft of this name and stiffness whose frequency was read"
        raise InputError([Finding(where="shaft", what=what, mend="Read the frequency of this club instead.")])
    if family.text != shown:
        what = f"the record says {family.text} by now, not {shown}"
        raise InputError([Finding(where="shaft", what=what, mend="Look at the page again, then use it.")])
    return change_part(desk, job, "shaft", {"stiffness_factor": shown}, key=key)


def divided_out(before: tuple[float, float], after: tuple[float, float]) -> tuple[float, float] | None:
    """Return what a measurement said by itself, from the normal belief before and after it: (mean, sd); None if nothing.

    Precisions add: ``1/e^2 = 1/s1^2 - 1/s0^2`` and ``y = e^2 (m1/s1^2 - m0/s0^2)``.
    """
    (m0, s0), (m1, s1) = before, after
    if not s1 < TAUGHT * s0:
        return None
    precision = 1 / s1**2 - 1 / s0**2
    return (m1 / s1**2 - m0 / s0**2) / precision, math.sqrt(1 / precision)


def _own_sd(item: FamilyShaft) -> float:
    return math.sqrt(max(item.sd**2 - item.shared_sd**2, (10.0**-DECIMALS) ** 2))


@lru_cache(maxsize=256)
def _taught(document: DocumentKey, job: str) -> FamilyShaft | None:
    """Return what one club's frequency said of its shaft's factor; a ticket that cannot be worked says nothing."""
    try:
        ticket, _ = read_ticket(document.document, f"ticket {job}")
        situation = None if ticket is None else situation_of(ticket)
    except ClubwrightError:
        return None
    if situation is None or FACTOR not in situation.belief.names:
        return None
    read = [item.reading for item in situation.learned.judged if item.taken and item.reading.quantity == "frequency"]
    found = divided_out(_factor(situation.prior.belief), _factor(situation.belief)) if read else None
    if found is None:
        return None
    # the frequency goes with the root of the factor: a bias of the meter counts twice in it
    bias = max(2 * reading.instrument.bias / reading.value for reading in read)
    return FamilyShaft(job=job, factor=found[0], sd=found[1], shared_sd=min(bias, found[1]))


def _factor(belief: Gaussian) -> tuple[float, float]:
    place = belief.index(FACTOR)
    return float(belief.mean[place]), math.sqrt(max(float(belief.covariance[place, place]), 0.0))
