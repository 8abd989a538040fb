"""The record of a bench outside the shop, at any age of it: a build and a re-shaft on the way to their end.

Hands that act by chance would seldom get a club as far as its joint. So clubs come in with this record.
"""

from __future__ import annotations

import random
from functools import lru_cache

from clock import TrueTime
from following import following
from shop import Bench
from tickets import ticket

from clubwright.journal.facts import Fact
from clubwright.journal.order import in_order
from clubwright.services.actions import bench as actions
from clubwright.services.jobs.job_answer import answer_job

JOBS = {"T-501": 0, "T-502": 5}
"""Ticket numbers, and which kind of ticket each is."""

AWAY = 9
"""Number of that bench, above any of the shop's."""


@lru_cache(maxsize=1)
def record_from_elsewhere() -> tuple[Fact, ...]:
    """Return all its facts: both jobs worked to their end, in turns."""
    true, chance = TrueTime(), random.Random("elsewhere")
    bench = Bench(AWAY - 1, true)
    session = bench.session(0)
    true.wait(-14 * 24 * 60)
    for job, kind in JOBS.items():
        actions.take_ticket(session, ticket(kind, job), "t.toml", f"away-{job}")
    while still := [job for job in JOBS if session.job(job).finished is None]:
        true.wait(7)
        job = session.job(chance.choice(still))
        _, act, values, more = following(job, answer_job(job, bench.clock()), chance, true, patient=True)
        act(session, job.id, *values, key=f"away-{len(bench.kept)}", **more)
    bench.stop()
    return tuple(in_order(bench.kept.values()))
