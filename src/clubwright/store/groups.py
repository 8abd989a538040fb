"""The facts that one action or one merge writes, and how they follow on what is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, bindparam, func, select, text

from clubwright.errors import RecordError
from clubwright.journal.action_keys import fact_key
from clubwright.journal.chain import GENESIS, payload, plain, seal, verify_chain
from clubwright.journal.erasing import alike
from clubwright.journal.facts import Fact, Place, RecordsMerged, What
from clubwright.services.record.ledger import ConflictError, Decided, Merger
from clubwright.store.erasing import held_facts
from clubwright.store.tables import fact_table

_BY_KEY = select(fact_table).where(fact_table.c.key == bindparam("key"))
_HEAD = (
    select(fact_table.c.sequence, fact_table.c.hash)
    .where(fact_table.c.site == bindparam("site"))
    .order_by(fact_table.c.sequence.desc())
    .limit(1)
)


# from one bench to the next by the table's own order: a query for distinct benches would read every fact
_SITES = text("""
WITH RECURSIVE step(site) AS (
  SELECT min(site) FROM fact
  UNION ALL
  SELECT (SELECT min(site) FROM fact WHERE site > step.site) FROM step WHERE step.site IS NOT NULL
)
SELECT site FROM step WHERE site IS NOT NULL
""")
_HEADS = text("""
WITH RECURSIVE step(site) AS (
  SELECT min(site) FROM fact
  UNION ALL
  SELECT (SELECT min(site) FROM fact WHERE site > step.site) FROM step WHERE step.site IS NOT NULL
)
SELECT fact.site, fact.sequence, fact.hash FROM step JOIN fact ON fact.site = step.site
WHERE step.site IS NOT NULL AND fact.sequence = (SELECT max(sequence) FROM fact AS last WHERE last.site = step.site)
""")


def head(connection: Connection, site: str) -> tuple[int, str]:
    """Return the number and hash of a site's last fact."""
    row = connection.execute(_HEAD, {"site": site}).first()
    return (0, GENESIS) if row is None else (row.sequence, row.hash)


def heads(connection: Connection) -> dict[str, tuple[int, str]]:
    """Return the number and the hash of each bench's last fact, without reading what lies before it."""
    return {row.site: (row.sequence, row.hash) for row in connection.execute(_HEADS)}


def hash_at(connection: Connection, place: Place | None) -> str:
    """Return the hash of a fact; that before the first where there is none."""
    table = fact_table.c
    site, sequence = place or ("", 0)
    found = connection.execute(select(table.hash).where(table.site == site, table.sequence == sequence)).scalar()
    return GENESIS if found is None else str(found)


def sites_of(connection: Connection) -> list[str]:
    """Return every bench that wrote, likewise."""
    return list(connection.execute(_SITES).scalars())


def sealed(
    after: tuple[int, str],
    payloads: Sequence[What],
    *,
    site: str,
    by: str,
    at: str,
    typed: Sequence[str],
    key: str,
    first: int = 1,
) -> list[Fact]:
    """Seal facts of one action, each following on the one before.

    Args:
        after: Number and hash of the site's last fact (`head`).
        payloads: What happened.
        site: Bench that writes.
        by: Who.
        at: UTC, ISO 8601 with Z.
        typed: As said in the trail, for each.
        key: Of the action.
        first: Number of the first of them among the facts of the action.
    """
    sequence, previous_hash = after
    facts: list[Fact] = []
    for number, (what, said) in enumerate(zip(payloads, typed, strict=True)):
        facts.append(
            seal(
                what,
                site=site,
                sequence=sequence + number + 1,
                at=at,
                by=by,
                typed=said,
                key=fact_key(key, first + number),
                previous_hash=facts[-1].hash if facts else previous_hash,
            )
        )
    return facts


def witness(connection: Connection, merger: Merger) -> Fact:
    """Seal the fact that says what a merge had seen: the last fact of every other bench that is in the record now."""
    seen = {site: last for site, last in heads(connection).items() if site != merger.site}
    sequence, previous_hash = head(connection, merger.site)
    return seal(
        RecordsMerged(heads=seen),
        site=merger.site,
        sequence=sequence + 1,
        at=merger.at,
        by=merger.by,
        typed="took in what other benches wrote",
        key=merger.key,
        previous_hash=previous_hash,
    )


def group(connection: Connection, key: str) -> list[Fact]:
    """Return the facts that one action wrote.

    Raises:
        DamagedError: when one of them is damaged, or erased in without an erasure that says so.
    """
    first = connection.execute(_BY_KEY, {"key": key}).mappings().first()
    if first is None:
        return []
    rows = [first]
    query = (
        select(fact_table)
        .where(fact_table.c.site == first["site"], fact_table.c.sequence > first["sequence"])
        .order_by(fact_table.c.sequence)
    )
    for row in connection.execute(query).mappings():
        if row["key"] != fact_key(key, len(rows) + 1):
            break
        rows.append(row)
    return held_facts(connection, rows)


def require_unmoved(connection: Connection, decided: Sequence[Decided]) -> None:
    """Refuse an action when any bench has written of the jobs that it was decided on; in the transaction that writes.

    Raises:
        ConflictError: when one has.
    """
    table = fact_table.c
    last = func.max(table.sequence).label("last")
    for each in decided:
        query = select(table.site, last).where(table.job.in_(each.numbers)).group_by(table.site).order_by(table.site)
        for row in connection.execute(query):
            if row.last > each.seen.get(row.site, 0):
                raise ConflictError(row.site, each.seen.get(row.site, 0), row.last)


def same(there: list[Fact], site: str, payloads: Sequence[What], by: str, typed: list[str], key: str) -> list[Fact]:
    """Return what an action wrote when it was sent before.

    Raises:
        RecordError: when it was another action.
    """
    wanted = [payload(plain(what)) for what in payloads]
    said = [fact.typed for fact in there]
    if [fact.what for fact in there] != wanted or (there[0].site, there[0].by, said) != (site, by, typed):
        raise RecordError(
            f'the key "{key}" was used before, for "{there[0].typed}" at {there[0].at}: load the page anew, and do it again'
        )
    return there


def missing(mine: Mapping[int, Fact], theirs: Sequence[Fact]) -> list[Fact]:
    """Return those facts of one site that are not there yet, in order and proven to follow on.

    Raises:
        RecordError: when they do not, or differ from what is there.
    """
    new = []
    for fact in sorted(theirs, key=lambda fact: fact.sequence):
        there = mine.get(fact.sequence)
        if there is None:
            new.append(fact)
        elif not alike(there, fact):
            raise RecordError(
                f"the records differ in fact {fact.site}/{fact.sequence}: verify both; two benches may write under one name"
            )
    findings = verify_chain([*mine.values(), *new], whole=False)
    if findings:
        raise RecordError("nothing was taken in. " + "\n".join(finding.sentence() for finding in findings))
    return new
