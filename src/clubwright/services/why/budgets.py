"""The budget of a number in words and texts, and what each reading did to it, with the gauge and the person.

The arithmetic is `clubwright.belief.budget`; texts stand beside the numbers, as in the answer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

import msgspec
import numpy as np

from clubwright.belief.budget import Learnt, budget, learnt
from clubwright.belief.gaussian import Gaussian, Vector
from clubwright.belief.unknowns import is_of_a_gauge
from clubwright.belief.update import with_biases
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Where
from clubwright.journal.job import Job, TrailLine
from clubwright.notation import render
from clubwright.planning.club_state import ClubState
from clubwright.services.answer.answer import rounded
from clubwright.services.answer.belief_table import told
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.services.report.reading_states import ReadingState, reading_states
from clubwright.services.told.base import Told
from clubwright.services.why.small import slope_text, small_text
from clubwright.state.gauge import ReadingEntry
from clubwright.ticket.gauges import gauge_of, readings_of

NOISE = "noise"
"""Name of the row for what a gauge adds with each reading; it is no unknown of the belief."""


class WhyRow(Told, frozen=True, kw_only=True):
    """One unknown in a budget.

    Attributes:
        unknown: Its name; the key of its own page is ``belief/`` with it.
        what: What it is in words.
        believed: Its mean and standard uncertainty in trade notation; empty for what a gauge adds.
        slope, slope_text: How far the number moves with it: in SI, and in units of the bench.
        sd, sd_text: Its own standard uncertainty, likewise.
        contribution, contribution_text: Slope times sd, in the unit of the number.
        share: Share of the variance; all of them sum to 1.
    """

    unknown: str
    what: str
    believed: str
    slope: float
    slope_text: str
    sd: float
    sd_text: str
    contribution: float
    contribution_text: str
    share: float


class WhyReading(Told, frozen=True, kw_only=True):
    """One reading, and what it did to a number.

    Attributes:
        where: Place in the input.
        quantity: What was read: a quantity, or a part's number.
        typed: As typed.
        stage: Stage of the build.
        gauge: What read it.
        by, at: Who wrote it down, and when it was taken (UTC); empty for one that the ticket brought.
        of_job: The earlier job on this club that it was read in; empty for this one.
        counts: Whether the belief takes it in.
        state: What became of it, in words.
        sd_without: The number's standard uncertainty without this reading, in SI; None for one that does not count.
        sharpened: Share of that which the reading took off.
        text_without: Mean and uncertainty without it, in trade notation.
    """

    where: str
    quantity: str
    typed: str
    stage: str
    gauge: str
    by: str = ""
    at: str = ""
    of_job: str = ""
    counts: bool = False
    state: str = ""
    sd_without: float | None = None
    sharpened: float = 0.0
    text_without: str = ""


def budget_rows(club_state: ClubState, kind: str, belief: Gaussian, slope: Vector) -> tuple[WhyRow, ...]:
    """Return the budget of a number of one kind of notation, the largest share first.

    Args:
        club_state: The club, for what its unknowns are called.
        kind: Kind of notation of the number.
        belief: The n unknowns; `NOISE` is what a gauge adds.
        slope: Derivatives of the number by them, shape (n).
    """
    found = []
    for row in budget(belief.names, slope, belief.covariance):
        of, what = told_of(club_state, row.unknown, kind)
        # a bias is a difference; a part's own number has a mean to show
        part = not is_of_a_gauge(row.unknown) and row.unknown != NOISE
        found.append(
            WhyRow(
                unknown=row.unknown,
                what=what,
                believed=render(of, belief.mean_of(row.unknown), row.sd) if part else "",
                slope=rounded(row.slope),
                slope_text=slope_text(kind, of, row.slope),
                sd=rounded(row.sd),
                sd_text=small_text(of, row.sd),
                contribution=rounded(row.contribution),
                contribution_text=small_text(kind, row.contribution, signed=True),
                share=rounded(row.share),
            )
        )
    return tuple(found)


def told_of(club_state: ClubState, unknown: str, kind: str) -> tuple[str, str]:
    """Return the kind of notation of a row of a budget, and what it is in words."""
    if unknown == NOISE:
        return kind, "gauge: scatter and rounding of one reading"
    return told(club_state, unknown)


def reading_rows(
    worked: ClubAnswer, job: Job | None, kind: str, mean: float | None = None, slope: Vector | None = None
) -> tuple[WhyReading, ...]:
    """Return every reading of the ticket, the one that sharpened the number most first; without slope, as they came.

    Args:
        worked: The ticket, worked.
        job: What the record knows of it; None for a ticket file.
        kind: Kind of notation of the number.
        mean: The number at the belief's mean.
        slope: Its derivatives there by the unknowns of the belief.
    """
    club_state = worked.club_state
    states, lines = reading_states(worked), _lines(job)
    did: dict[Where, Learnt] = {}
    if mean is not None and slope is not None:
        prior = with_biases(club_state.prior.belief, readings_of(club_state.ticket))
        taken = [item.reading for item in club_state.learned.judged if item.taken]
        at = np.asarray(club_state.belief.mean)
        found = learnt(prior, club_state.prior.club, club_state.prior.conventions, taken, at, mean, slope)
        did = {item.where: item for item in found}
    rows = []
    for entry in club_state.ticket.readings:
        row = _told(club_state, entry, states[entry.where], _line(entry, lines))
        one = did.get(entry.where)
        if one is not None:
            row = msgspec.structs.replace(
                row,
                sd_without=rounded(one.sd_without),
                sharpened=rounded(max(one.sharpened, 0.0)),
                text_without=render(kind, one.mean_without, one.sd_without),
            )
        rows.append(row)
    return tuple(sorted(rows, key=lambda row: (not row.counts, -row.sharpened)))


def _told(club_state: ClubState, entry: ReadingEntry, state: ReadingState, line: TrailLine | None) -> WhyReading:
    quantity = QUANTITIES.get(entry.quantity)
    return WhyReading(
        where=str(entry.where),
        quantity=entry.quantity if quantity is None else quantity.name,
        typed=entry.entry.typed + (f" (mean of {entry.repeats})" if entry.repeats > 1 else ""),
        stage=entry.stage,
        gauge=gauge_of(club_state.ticket, entry).name,
        by="" if line is None else line.by,
        at="" if line is None else line.when,
        of_job=entry.job,
        counts=state.counts,
        state=state.words,
    )


def _lines(job: Job | None) -> Mapping[int, list[TrailLine]]:
    """Lines that stand, by their number; two benches may have given one number, then in the order of the trail."""
    found: dict[int, list[TrailLine]] = defaultdict(list)
    for line in () if job is None else job.trail:
        if not line.undone and line.kind in ("reading taken", "part changed"):
            found[line.sequence].append(line)
    return found


def _line(entry: ReadingEntry, lines: Mapping[int, list[TrailLine]]) -> TrailLine | None:
    """Take the next line of that number: the readings of a ticket stand in the order of the trail."""
    found = [] if entry.fact is None or entry.job else lines.get(entry.fact, [])
    return found.pop(0) if found else None
