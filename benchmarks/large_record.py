"""A record of a shop of some size: real jobs of the invented workshop, written row by row under other numbers.

One job is worked through the services once, from its ticket to its end. Its facts are then copied for every other job, under
another number, player and time, sealed into one chain, and put into the table of facts as rows. Nothing goes through a page.
"""

from __future__ import annotations

import itertools
import tempfile
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import msgspec
from sqlalchemy import insert

from clubwright.bootstrap import open_session, record_url
from clubwright.cli.demo import JOB, START, DemoClock, actions, demo_session
from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, ReadingDecided, ReadingTaken, StepDone, TicketTaken, What
from clubwright.services.record.session import utc_text
from clubwright.store.engine import open_engine
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table

FACTS_A_JOB = 25
OPEN = 10
"""Jobs that are open, in a small shop as in a large one: the bench has so many hands."""
CLUBS_A_PLAYER = 10
AT_ONCE = 20_000
EVERY = timedelta(minutes=30)
NAMES = ("Ada", "Bram", "Cleo", "Dov", "Edda", "Finn", "Gus", "Hal", "Ida", "Jon")
"""Invented, with a number behind each."""


def number_of(job: int) -> str:
    """Return the ticket number of the job that came in after so many others."""
    return f"T-{job + 1:05d}"


def player_of(club: int) -> str:
    """Return whose a club is."""
    player = club // CLUBS_A_PLAYER
    return f"{NAMES[player % len(NAMES)]} Example-{player:04d}"


def make(folder: Path, clubs: int) -> int:
    """Write the record of a shop with two jobs for each club into a folder that holds none; returns how many facts."""
    with open_session(str(folder), by="demo"):
        pass  # makes the tables
    count = 0
    engine = open_engine(record_url(str(folder)))
    try:
        made = map(row_of, _facts(clubs))
        while rows := list(itertools.islice(made, AT_ONCE)):
            count += len(rows)
            with engine.begin() as connection:
                connection.execute(insert(fact_table), rows)
    finally:
        engine.dispose()
    return count


def _facts(clubs: int) -> Iterator[Fact]:
    closed, begun = _patterns()
    jobs, previous, sequence = 2 * clubs, GENESIS, 0
    for job in range(jobs):
        came = START - (jobs - job) * EVERY
        for at, fact in enumerate(begun if job >= jobs - OPEN else closed):
            sequence += 1
            made = seal(
                _renamed(fact.what, job, clubs, sequence - at),
                site="bench",
                sequence=sequence,
                at=utc_text(came + at * timedelta(minutes=1)),
                by=fact.by,
                typed=fact.typed.replace(JOB, number_of(job)),
                key=f"made-{sequence}",
                previous_hash=previous,
            )
            previous = made.hash
            yield made


def _patterns() -> tuple[list[Fact], list[Fact]]:
    """Return the facts of a job that was worked to its end, and of one up to its dry reading."""
    with tempfile.TemporaryDirectory() as folder, open_session(folder, by="demo") as real:
        clock = DemoClock()
        session = demo_session(real, clock)
        for _ in actions(session, clock):
            pass
        whole = [fact for fact in session.ledger.facts() if fact.what.job == JOB]
    begun = whole[: next(at for at, fact in enumerate(whole) if isinstance(fact.what, ReadingTaken))]
    # the misreading is left out with what was decided of it, and steps until so many are left
    decided = {fact.what.reading for fact in whole if isinstance(fact.what, ReadingDecided)}
    closed = [fact for fact in whole if fact.sequence not in decided and not isinstance(fact.what, ReadingDecided)]
    steps = [fact for fact in closed if isinstance(fact.what, StepDone)][: len(closed) - FACTS_A_JOB]
    return [fact for fact in closed if fact not in steps], begun


def _renamed(what: What, job: int, clubs: int, taken: int) -> What:
    """Return what happened as it happens on another job: the second job of a club makes it again."""
    number, club = number_of(job), job % clubs
    if not isinstance(what, TicketTaken):
        return msgspec.structs.replace(what, job=number, subject=("bench", taken))
    said = {**what.document["ticket"], "id": number, "player": player_of(club)}
    if job >= clubs:
        said["again_of"] = number_of(club)
    return msgspec.structs.replace(what, job=number, document={**what.document, "ticket": said})
