"""Faults planted on purpose: each is one that such a program may have, and the simulated shop must find it in few seeds.

A law that no planted fault breaks would prove nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import Any

import msgspec
import pytest

from clubwright.journal import standing
from clubwright.journal.facts import Fact, Place
from clubwright.journal.reducers.measured import gauges_of
from clubwright.journal.subjects import meant
from clubwright.journal.timeline import Timeline
from clubwright.services.actions.replacing import _Replacing
from clubwright.services.jobs import job_answer
from clubwright.services.jobs.job_list import JobStatuses
from clubwright.state.key import StateKey
from clubwright.store import engine
from clubwright.store.ledger import Ledger

Plant = Callable[[pytest.MonkeyPatch], None]


class Fault(msgspec.Struct, frozen=True, kw_only=True):
    """One fault.

    Attributes:
        plant: Puts it into the program until the patch is undone.
        within: So many seeds are enough to find it.
        first: Seed to begin with: one that was quick to find it.
        laws: How the laws that it may break begin; another one broken is no proof.
    """

    plant: Plant
    within: int
    laws: tuple[str, ...]
    first: int = 0


def _synchronous(how: str) -> Plant:
    def plant(patch: pytest.MonkeyPatch) -> None:
        pragmas = tuple(pragma.replace("= EXTRA", f"= {how}") for pragma in engine.PRAGMAS)
        assert pragmas != engine.PRAGMAS
        patch.setattr(engine, "PRAGMAS", pragmas)

    return plant


CHECKED = ("expected_sequence", "decided")


def _check_then_write(patch: pytest.MonkeyPatch) -> None:
    """What an action was decided on is looked at, and written upon whatever came in between."""
    append = Ledger.append

    def unchecked(self: Ledger, *what: Any, **how: Any) -> list[Fact]:
        return append(self, *what, **{name: value for name, value in how.items() if name not in CHECKED})

    patch.setattr(Ledger, "append", unchecked)


def _undo_that_leaks(patch: pytest.MonkeyPatch) -> None:
    """Where several facts are undone, one of them still counts."""

    def leaking(facts: Sequence[Fact], **how: bool) -> frozenset[Place]:
        void = standing.void_places(facts, **how)
        return void - {max(void)} if len(void) > 1 else void

    patch.setattr("clubwright.journal.reducers.fold.void_places", leaking)


def _list_not_rebuilt(patch: pytest.MonkeyPatch) -> None:
    """The list of jobs remembers each one by the bench that wrote of it last: what that bench writes then is not seen."""
    of = JobStatuses.of

    def stale(self: JobStatuses, job: Any, now: Any) -> Any:
        there, runs = self._found.get(job.id), job.mixes or job.glued_at is not None
        if there is not None and not runs and there[0][1] == job.trail[-1].site:
            return there[2]
        return of(self, job, now)

    patch.setattr(JobStatuses, "of", stale)


def _job_not_rebuilt(patch: pytest.MonkeyPatch) -> None:
    """A worked job is kept by its number and the number of its readings: another figure of a part is not seen."""
    work = job_answer._worked.__wrapped__
    kept: dict[tuple[str, int], Any] = {}

    @lru_cache(maxsize=32)
    def by_number(read: StateKey[job_answer.AsRead], *more: Any) -> Any:
        ticket, _ = read.state
        return kept.setdefault((ticket.source, len(ticket.readings)), work(read, *more))

    patch.setattr(job_answer, "_worked", by_number)
    job_answer._plan.cache_clear()


def _by_clock_only(patch: pytest.MonkeyPatch) -> None:
    """Facts stand in the order of the clocks, which may have stood at 2099, and been set right."""

    def by_clock(self: Timeline, rows: Iterable[tuple[str, int, str]], saw: object = None) -> None:
        for site, number, at in sorted(rows):
            self.moments[(site, number)] = (at.removesuffix("Z"), 0)
            self._numbers.setdefault(site, []).append(number)
            self._times.setdefault(site, []).append(at.removesuffix("Z"))

    patch.setattr(Timeline, "add", by_clock)


def _merges_see_nothing(patch: pytest.MonkeyPatch) -> None:
    """A bench's own facts stand in their order, and by the clock beside those that it had merged before."""
    add = Timeline.add
    patch.setattr(Timeline, "add", lambda self, rows, saw=None: add(self, rows))


def _nobody_signed(patch: pytest.MonkeyPatch) -> None:
    """An open gate is taken for one that somebody signed."""
    patch.setattr("clubwright.services.recording.recording.signature_reasons", lambda *_: [])


def _hashes_not_looked_at(patch: pytest.MonkeyPatch) -> None:
    """What another record says is taken for what its bench wrote."""
    patch.setattr("clubwright.journal.chain._first_break", lambda *_: None)


def _tap_told_by_nobody(patch: pytest.MonkeyPatch) -> None:
    """The same tap sent twice is not known again."""
    patch.setattr("clubwright.services.recording.recording._repeated", lambda *_: [])
    patch.setattr("clubwright.store.ledger.group", lambda *_: [])


def bad_mixes_not_heard_of(patch: pytest.MonkeyPatch) -> None:
    """That a mix is bad is known of the joint that it was made for, and of no other."""
    patch.setattr("clubwright.journal.mixes._said_of", lambda *_: None)


def _order_not_laid(patch: pytest.MonkeyPatch) -> None:
    """A changed order is kept, and the ticket says what it said before."""
    patch.setattr("clubwright.journal.reducers.order_changes.part_changes", lambda _: [])


def _second_figure_takes_its_place(patch: pytest.MonkeyPatch) -> None:
    """A figure that is measured again takes the place of the one before."""
    patch.setattr("clubwright.journal.reducers.measured._adds", lambda *_: False)


def _added_under_another_name(patch: pytest.MonkeyPatch) -> None:
    """What a gauge that somebody named has shown is written down as the usual one's."""
    patch.setattr("clubwright.journal.reducers.measured.gauges_of", lambda what: dict.fromkeys(gauges_of(what), "rule"))


def _old_number_forgotten(patch: pytest.MonkeyPatch) -> None:
    """A job is looked for under the number that it has now, and under none that it had."""
    patch.setattr(
        "clubwright.services.record.looking_up.meant",
        lambda text, subjects: [each for each in meant(text, subjects) if text == each.number or "@" in text],
    )


def _nothing_undone(patch: pytest.MonkeyPatch) -> None:
    """What is done in place of something else is kept beside it."""

    def append(self: Any, site: str, payloads: Sequence[Any], **how: Any) -> list[Fact]:
        seen = how.pop("expected_sequence", None)
        return self._ledger.append(site, payloads, expected_sequence=None if seen is None else seen - 1, **how)

    patch.setattr(_Replacing, "append", append)


LOST, WHOLE = "nothing lost or doubled", "an action is whole or not there"
GATE, SEEN = "the gate was open", "what was seen comes first"
AGAIN = "measuring again adds"
HONEST = "an honest record is taken in"
RACE = ("an action leaves its job whole", "no bench breaks its own job", HONEST, GATE)
FAULTS: dict[str, Fault] = {
    "a missing sync of the folder": Fault(plant=_synchronous("FULL"), within=20, laws=(LOST,)),
    "no sync at all": Fault(plant=_synchronous("OFF"), within=6, laws=(LOST, WHOLE, "the record opens")),
    "a check, then a write": Fault(plant=_check_then_write, within=30, laws=RACE, first=4),
    "an undo that leaks": Fault(plant=_undo_that_leaks, within=10, laws=("undone is never had",)),
    "a list that is not rebuilt": Fault(plant=_list_not_rebuilt, within=10, laws=("the list is not stale",)),
    "a job that is not rebuilt": Fault(plant=_job_not_rebuilt, within=10, laws=("a job is not stale", GATE)),
    "a clock at 2099": Fault(plant=_by_clock_only, within=20, laws=(SEEN,), first=1),
    "a merge that has seen nothing": Fault(plant=_merges_see_nothing, within=20, laws=(SEEN,), first=1),
    "a gate that nobody signed": Fault(plant=_nobody_signed, within=30, laws=(GATE, HONEST), first=18),
    "hashes that nobody looks at": Fault(
        plant=_hashes_not_looked_at, within=40, laws=("what no bench wrote is refused", "the record opens"), first=11
    ),
    "an order that is not laid": Fault(plant=_order_not_laid, within=20, laws=("an order is what was said",), first=6),
    "a number that is forgotten": Fault(
        plant=_old_number_forgotten, within=20, laws=("a job is found by its numbers",)
    ),
    "a figure that is written over": Fault(plant=_second_figure_takes_its_place, within=10, laws=(AGAIN,)),
    "a gauge that is mixed up": Fault(plant=_added_under_another_name, within=10, laws=(AGAIN,), first=4),
    "an undo that is left out": Fault(plant=_nothing_undone, within=40, laws=(WHOLE,), first=6),
    "a second tap that is not known again": Fault(plant=_tap_told_by_nobody, within=10, laws=("one tap, one fact",)),
}
