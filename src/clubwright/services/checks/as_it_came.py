"""Whether a club still is as it came in, and at which stages it can be read: what the record says of its old parts."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import AS_IT_CAME, FINISHED, GLUED_NO_GRIP, STAGES
from clubwright.errors import Finding, InputError
from clubwright.journal.job import Job
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.state.steps import apart_after
from clubwright.state.ticket import Ticket
from clubwright.ticket.part_paths import REPLACED


def is_as_it_came(job: Job) -> bool:
    """True while the record says nothing of the old parts coming off; False in a job where none does."""
    apart = apart_after(_work(job))
    if not apart:
        return False
    return not (job.gripped or job.glued_at is not None or apart & set(job.steps_done))


def stage_now(job: Job) -> str:
    """Return the stage at which a whole club would be read now: as it came while its old parts are on, else finished."""
    return AS_IT_CAME.name if is_as_it_came(job) else FINISHED.name


def stages_of(ticket: Ticket) -> tuple[str, ...]:
    """Return the names of the stages that a club goes through in its job."""
    if ticket.job == "build":
        return tuple(name for name, stage in STAGES.items() if not stage.old_parts)
    if ticket.job == "reshaft":
        return tuple(STAGES)
    if ticket.job == "regrip":
        return (AS_IT_CAME.name, GLUED_NO_GRIP.name, FINISHED.name)
    return (AS_IT_CAME.name, FINISHED.name)


def require_new_grip(job: Job, quantity: str, stage: str) -> None:
    """Refuse a reading of the finished club while its new grip is not on: it would be credited to the wrong grip.

    Raises:
        InputError: with how to read it as it came, or how to record that the grip is on.
    """
    replaces = "grip" in REPLACED.get(_work(job), ())
    gripped = job.gripped or "grip" in job.steps_done
    if stage != FINISHED.name or quantity not in QUANTITIES or not replaces or gripped:
        return
    what = "the new grip is not on yet by the record, so this is no reading of the finished club"
    mend = (
        f'Read with the old grip on? Choose the stage "{AS_IT_CAME.name}" (--stage "{AS_IT_CAME.name}"). '
        f"With the new one? Record first that it is on (`clubwright grip {job.id}`)."
    )
    raise InputError([Finding(where="stage", what=what, mend=mend)])


def weights_as_it_came(job: Job, fitted: Sequence[str]) -> list[str]:
    """Return the weights that were on when the club came in: those fitted now, unless the record fitted others since.

    Args:
        job: The job.
        fitted: Names of the weights fitted now.

    Raises:
        InputError: when weights were fitted since and no reading says which were on before.
    """
    if is_as_it_came(job) or not any(line.kind == "weights fitted" and not line.undone for line in job.trail):
        return list(fitted)
    for reading in ticket_of(job).readings:
        if reading.stage == AS_IT_CAME.name:
            return list(reading.weights)
    what = "weights were fitted since the club came in, and nothing says which were on it then"
    mend = (
        f'Name those that were on when it was read (--weights, or --no-weights), or read it as "{FINISHED.name}" now.'
    )
    raise InputError([Finding(where="weights", what=what, mend=mend)])


def _work(job: Job) -> str:
    return job.order.job or "build"
