"""Taking in: what is measured of its parts, readings and what is decided about them."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.club.stages import AS_IT_CAME
from clubwright.journal.facts import Fact, ReadingDecided, ReadingTaken, What
from clubwright.journal.reducers.fold import Job
from clubwright.planning.advice.tray import names_of
from clubwright.services.checks.as_it_came import require_new_grip, weights_as_it_came
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.checks.usual_gauge import usual_gauge_of
from clubwright.services.record.done_at import done_text, read_done_at
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, keep_what, require_open
from clubwright.state.ticket import Ticket


def note_reading(
    session: Session,
    job: str,
    quantity: str,
    value: str,
    *,
    stage: str = "finished",
    weights: Sequence[str] | None = None,
    instrument: str | None = None,
    repeats: str = "1",
    second_plane: str | None = None,
    clamp: str | None = None,
    usual: bool = True,
    key: str | None = None,
    done_at: str | None = None,
) -> Fact:
    """Keep a reading; one that does not fit is kept too, aside, until a person decides.

    Args:
        session: Who and where.
        job: Ticket number.
        quantity: What was read.
        value: As the gauge showed it, in trade notation.
        stage: Stage of the build.
        weights: Weights fitted at the time; those the record has fitted when None (as it came: those it came with).
        instrument: Gauge, by its name on the ticket; the one of its usual name there when None.
        repeats: How many readings the value is the mean of.
        second_plane: The weaker of two close frequencies, where a recording shows two.
        clamp: What the frequency meter's clamp held; the gauge's, else the shop's, when None. Another one is converted.
        usual: Whether a reading without a gauge is of the ticket's usual one; a recording is of none.
        key: Idempotency key.
        done_at: When it was read, where that was earlier (`clubwright.services.record.done_at`).

    Raises:
        InputError: when the reading cannot be understood, or its stage cannot be yet; nothing is kept.
    """
    done = read_done_at(session, done_at)

    def reading(on: Sequence[str], by: str | None) -> ReadingTaken:
        return ReadingTaken(
            job=job,
            quantity=quantity,
            value=value,
            stage=stage,
            weights=list(on if weights is None else weights),
            instrument=by if instrument is None else instrument,
            repeats=repeats,
            second_plane=msgspec.UNSET if second_plane is None else second_plane,
            clamp=msgspec.UNSET if clamp is None else clamp,
            done_at=done,
        )

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        require_new_grip(standing, quantity, stage)
        ticket = ticket_of(standing)
        on = _fitted_names(ticket)
        if stage == AS_IT_CAME.name and weights is None:
            on = weights_as_it_came(standing, on)
        return reading(on, usual_gauge_of(ticket, quantity) if usual else None)

    def same(what: What) -> bool:
        return isinstance(what, ReadingTaken) and what == reading(what.weights, what.instrument)

    held = "" if clamp is None else f", {clamp} in the clamp"
    return keep(session, job, make, typed=lambda _: f"{quantity} {value}{held}{done_text(done)}", same=same, key=key)


def decide_reading(
    session: Session,
    job: str,
    reading: int,
    *,
    keep: bool,
    reason: str,
    site: str | None = None,
    key: str | None = None,
) -> Fact:
    """Record a person's decision about a reading that does not fit; the site where another bench wrote it."""
    what = ReadingDecided(job=job, reading=reading, keep=keep, reason=reason, site=site)
    return keep_what(session, what, f"reading {reading}: {'use it' if keep else 'leave it out'}", key)


def _fitted_names(ticket: Ticket) -> list[str]:
    return names_of(ticket, np.asarray(ticket.fitted_now, dtype=float))
